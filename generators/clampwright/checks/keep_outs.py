"""Keep-outs: everything that the recipe adds keeps its distance from hot pipes, controls and fuel lines."""

from __future__ import annotations

from functools import partial

from clampwright.checks.added import added, keep_outs
from clampwright.checks.asked import SAME_MM, Check, telling
from clampwright.checks.finding import Finding
from clampwright.checks.first_look import cores, surely
from clampwright.checks.keep_clear import States, as_it_is, at_rest, nearest_kept
from clampwright.checks.naming_bodies import capital, is_or_are
from clampwright.checks.wording import at_least, shown
from clampwright.checks.worst_case import doubtful, in_doubt, short_at_worst, sure
from clampwright.layout.clearance_known import Clear
from clampwright.layout.joined import Joined
from clampwright.structure.surroundings import KeepOut
from clampwright.trade.tables import rule

DEFAULTS = ("keep-out-hot", "keep-out-control", "keep-out-fuel")
"""Rules of the distances that a recipe's reader fills in."""

_away = partial(Finding, "KEEP-1", "distance from keep-outs")


def distance_kept(layout: Joined) -> tuple[Finding, ...]:
    """KEEP-1: the body nearest to each keep-out stays its required distance away; the nearest for a pass."""
    kept = layout.recipe.structure.keep_outs
    if not kept:
        return (_nothing_given(layout),)
    bodies, others = added(layout), keep_outs(layout)
    least = surely(cores(bodies), cores(others))[None]
    states = States(bodies, least, at_rest, as_it_is)
    found = nearest_kept(states, others, [keep_out.distance_mm for keep_out in kept], layout)
    return telling(
        _kept(keep_out, near.what, near.clear, layout) for keep_out, near in zip(kept, found, strict=True)
    )


def source_of(keep_out: KeepOut) -> str:
    """What a keep-out's distance rests on: the rule for its kind, else whoever wrote it."""
    key = f"keep-out-{keep_out.kind}"
    return rule(key).source if key in DEFAULTS else "assumed"


def _nothing_given(layout: Joined) -> Finding:
    usual = shown(rule("keep-out-hot").value, layout)
    return _away(
        where="surroundings",
        verdict="caution",
        value=None,
        limit=None,
        unit="mm",
        says="The recipe names no keep-outs: nothing was held against hot pipes, controls or fuel lines.",
        change=f"Write a keep-out for each that comes near (hot pipes: {usual} without a shield is usual).",
        sources=tuple(dict.fromkeys(rule(key).source for key in DEFAULTS)),
    )


def _kept(keep_out: KeepOut, what: str, clear: Clear, layout: Joined) -> Finding:
    asked = keep_out.distance_mm
    found = partial(
        _away,
        where=keep_out.name,
        value=clear.mm,
        limit=asked,
        unit="mm",
        sources=(source_of(keep_out),),
        plus_minus=clear.plus_minus_mm,
    )
    need = f"{shown(asked, layout)} are asked"
    if clear.mm >= asked - SAME_MM and clear.mm > SAME_MM:
        says = f"Nearest to {keep_out.name}: {what}, {sure(clear, layout)} away"
        if in_doubt(clear, asked):
            other_way = f"move {what} {short_at_worst(clear, asked, layout)} farther from {keep_out.name}"
            return doubtful(found, says, clear, asked, other_way, layout, need)
        return found(verdict="pass", says=f"{says}; {need}.", change="")
    change = f"Move {what} {at_least(max(asked - clear.mm, SAME_MM), layout)} farther from {keep_out.name}."
    if clear.mm <= SAME_MM:
        says = f"{capital(what)} and {keep_out.name} run into each other; {need}."
        return found(verdict="fail", says=says, change=change)
    says = f"{capital(what)} {is_or_are(what)} only {sure(clear, layout)} from {keep_out.name}; {need}."
    return found(verdict="fail", says=says, change=change)


CHECKS = (
    Check(
        "KEEP-1",
        "distance from keep-outs",
        "Distance from each keep-out to the nearest body that the recipe adds, against the one asked for.",
        distance_kept,
        rules=DEFAULTS,
        sources=("assumed",),
    ),
)
