"""Torque: whether the tables know how tight each bolt and nut are to be."""

from __future__ import annotations

from functools import partial

from clampwright.checks.asked import Check
from clampwright.checks.finding import Finding
from clampwright.layout.joined import Joined
from clampwright.layout.placed import Stack
from clampwright.quantities import show_torque

_torque = partial(Finding, "TORQUE-1", "tightening torque")


def torque_known(layout: Joined) -> tuple[Finding, ...]:
    """TORQUE-1: a torque is published for every bolt and nut of the layout."""
    kinds: dict[tuple[str, str], Stack] = {}
    for one in layout.joints:
        kinds.setdefault((one.stack.bolt, one.stack.nut.part), one.stack)
    return tuple(_known(stack, layout.recipe.units) for stack in kinds.values())


def _known(stack: Stack, units: str) -> Finding:
    found = partial(_torque, where=f"{stack.bolt}/{stack.nut.part}", limit=None, unit="N m")
    window = stack.torque
    if window is None:
        return found(
            verdict="unknown",
            value=None,
            says=f"No document in the tables gives a torque for {stack.nut.part} on {stack.bolt}.",
            change=f"Ask the nut's maker for the torque of {stack.nut.part} on dry threads.",
            sources=(stack.nut.source,),
        )
    says = (
        f"{show_torque(window.low_nm, window.high_nm, units)} at the nut, {window.use} use; "
        "add the torque that turns the nut against its own lock."
    )
    return found(verdict="pass", value=window.high_nm, says=says, change="", sources=(window.source,))


CHECKS = (
    Check(
        "TORQUE-1",
        "tightening torque",
        "Whether the tables give a torque window for each bolt and nut that the layout uses.",
        torque_known,
        sources=("ac-43-13-1b-table-7-1",),
    ),
)
