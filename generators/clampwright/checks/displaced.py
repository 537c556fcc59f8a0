"""Displaced: distances from keep-outs with the engine moved on its isolators, and with a clamp slid."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

import numpy as np

from clampwright.checks.added import added, keep_out_body, keep_outs, line_rides_on, whole_rides_on
from clampwright.checks.asked import SAME_MM, Check, telling
from clampwright.checks.finding import Finding
from clampwright.checks.first_look import Array, Cores, Placed, cores, surely
from clampwright.checks.keep_clear import Drifting, States, as_it_is, at_rest, nearest_kept
from clampwright.checks.keep_outs import DEFAULTS, source_of
from clampwright.checks.naming_bodies import capital, is_or_are
from clampwright.checks.wording import at_least, shown
from clampwright.checks.worst_case import doubtful, in_doubt, short_at_worst, sure
from clampwright.layout.clearance_known import Clear
from clampwright.layout.drift import slid
from clampwright.layout.joined import Joined, Loop, Named
from clampwright.layout.moved_bodies import shifted
from clampwright.structure.surroundings import KeepOut
from clampwright.trade.tables import rule

_engine = partial(Finding, "KEEP-2", "keep-outs with the engine moved")
_slid = partial(Finding, "KEEP-3", "keep-outs with a clamp slid")


def displaced(
    made: partial[Finding],
    keep_out: KeepOut,
    what: str,
    clear: Clear,
    state: str,
    layout: Joined,
    grave: bool,
    other_way: str = "",
) -> Finding:
    """What is left between a body and a keep-out in a displaced state.

    A distance not kept is a caution: it is asked of things at rest. Touching is a fail where `grave`.
    `other_way` says what would help beside moving it.
    """
    asked = keep_out.distance_mm
    found = partial(
        made,
        where=keep_out.name,
        value=clear.mm,
        limit=asked,
        unit="mm",
        plus_minus=clear.plus_minus_mm,
    )
    need = f"{shown(asked, layout)} are asked at rest"
    says = f"{capital(state)}, {what} {is_or_are(what)} {sure(clear, layout)} from {keep_out.name}"
    also = f", or {other_way}" if other_way else ""
    if clear.mm >= asked - SAME_MM and clear.mm > SAME_MM:
        if not in_doubt(clear, asked):
            return found(verdict="pass", says=f"{says}; {need}.", change="")
        move = f"move {what} {short_at_worst(clear, asked, layout)} farther from {keep_out.name}{also}"
        return doubtful(found, says, clear, asked, move, layout, need)
    short = at_least(max(asked - clear.mm, SAME_MM), layout)
    change = f"Move {what} {short} farther from {keep_out.name}{also}."
    if clear.mm > SAME_MM:
        touch = ", and could touch at worst" if clear.worst_mm <= SAME_MM else ""
        return found(verdict="caution", says=f"{says}{touch}; {need}.", change=change)
    says = f"{capital(state)}, {what} can touch {keep_out.name}; {need}."
    return found(verdict="fail" if grave else "caution", says=says, change=change)


def engine_moved(layout: Joined) -> tuple[Finding, ...]:
    """KEEP-2: with the engine moved on its isolators, any way, every keep-out keeps its distance.

    What is on the engine moves by up to `engine_moves` against what is not; a line whose far end is on the
    engine moves against both. Where both are on the engine nothing changes.
    """
    structure = layout.recipe.structure
    riding = [k for k in structure.keep_outs if _moves_at_all(k, layout)]
    if not riding:
        return ()
    moves = structure.engine_moves_mm
    if moves is None:
        return (_not_known(riding, layout),)
    bodies = added(layout)
    others = [Named(k.name, k.name, keep_out_body(k)) for k in riding]
    off = np.array([[moves * _moves(b, k, layout) for k in riding] for b in bodies])
    states = States(bodies, surely(cores(bodies), cores(others))[None], at_rest, as_it_is, off)
    found = nearest_kept(states, others, [k.distance_mm for k in riding], layout)
    state = f"with the engine moved {shown(moves, layout)}"
    return telling(
        displaced(
            partial(_engine, sources=(source_of(k),)),
            *(k, near.what, near.clear, state, layout),
            grave=True,
        )
        for k, near in zip(riding, found, strict=True)
    )


def _moves_at_all(keep_out: KeepOut, layout: Joined) -> bool:
    whole = (keep_out.rides_on == "engine") != (whole_rides_on(layout) == "engine")
    return whole or line_rides_on(layout) == "engine"


def _moves(body: Named, keep_out: KeepOut, layout: Joined) -> bool:
    """Whether a body moves against a keep-out when the engine moves."""
    on_engine = keep_out.rides_on == "engine"
    if body.owner in {line.name for line in layout.lines}:
        return on_engine or line_rides_on(layout) == "engine"
    return on_engine != (whole_rides_on(layout) == "engine")


def _not_known(riding: Sequence[KeepOut], layout: Joined) -> Finding:
    usual = shown(rule("engine-moves-usual").value, layout)
    return _engine(
        where=riding[0].name,
        verdict="unknown",
        value=None,
        limit=riding[0].distance_mm,
        unit="mm",
        says=f"The recipe does not say how far the engine moves on its isolators against {riding[0].name}.",
        change=(
            "Push and pull the engine by hand every way, measure how far it goes, add what it does at "
            f"starting and shut-down ({usual} is a usual guess), and write engine_moves."
        ),
        sources=(rule("engine-moves-usual").source,),
    )


def clamp_slid(layout: Joined) -> tuple[Finding, ...]:
    """KEEP-3: with any clamp slid along its tube and all that it holds carried along, distances are kept."""
    kept, slides = layout.recipe.structure.keep_outs, _slides(layout)
    if not kept or not slides:
        return ()
    by = rule("clamp-slide")
    bodies, others = added(layout), keep_outs(layout)
    steps = np.array([direction for _, direction in slides]) * by.value
    least = surely(_all_shifted(cores(bodies), steps), cores(others))
    states = States(bodies, least, *_by(steps))
    found = nearest_kept(states, others, [k.distance_mm for k in kept], layout)
    return telling(
        displaced(
            partial(_slid, sources=tuple(dict.fromkeys((by.source, source_of(k))))),
            *(k, near.what, near.clear, _slide_words(slides[near.state][0], layout), layout),
            grave=k.kind == "control",
        )
        for k, near in zip(kept, found, strict=True)
    )


def _slides(layout: Joined) -> list[tuple[str, tuple[float, float, float]]]:
    """Each way in which a clamp can slide along a tube of the structure, and its words; equal ways once."""
    names = layout.recipe.structure.names
    found: dict[tuple[float, ...], tuple[str, tuple[float, float, float]]] = {}
    for loop in (each for each in layout.loops if each.tube in names):
        for end, sign in (("end", 1.0), ("start", -1.0)):
            x, y, z = (sign * a for a in loop.axis)
            key = tuple(round(c, 6) + 0.0 for c in (x, y, z))
            found.setdefault(key, (_way(loop, end), (x, y, z)))
    return list(found.values())


def _way(loop: Loop, end: str) -> str:
    return f"along {loop.tube} towards its {end} ({loop.label})"


def _slide_words(way: str, layout: Joined) -> str:
    return f"slid {shown(rule('clamp-slide').value, layout)} {way}"


def _all_shifted(held: Cores, steps: Array) -> Cores:
    start, end = (p[None] + steps[:, None, :] for p in (held.start, held.end))
    return Cores(start, end, held.radius, held.low, held.high, held.skin)


def _by(steps: Array) -> tuple[Placed, Drifting]:
    """A body, and its drift, shifted by the step of a state."""
    by = [(float(x), float(y), float(z)) for x, y, z in steps]
    return (lambda body, state: shifted(body, by[state]), lambda drift, state: slid(drift, by[state]))


CHECKS = (
    Check(
        "KEEP-2",
        "keep-outs with the engine moved",
        "Distance from each keep-out less what the engine moves, where one of the two is on the engine.",
        engine_moved,
        rules=(*DEFAULTS, "engine-moves-usual"),
        sources=("assumed",),
    ),
    Check(
        "KEEP-3",
        "keep-outs with a clamp slid",
        "Distance from each keep-out with each clamp and all that it holds slid both ways along its tube.",
        clamp_slid,
        rules=("clamp-slide", *DEFAULTS),
        sources=("assumed",),
    ),
)
