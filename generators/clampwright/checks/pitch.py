"""Pitch: how close bolt holes stand to each other, centre to centre."""

from __future__ import annotations

from functools import partial
from itertools import combinations
from math import dist

from clampwright.checks.asked import SAME_MM, Check, telling
from clampwright.checks.finding import Finding
from clampwright.checks.holes import bolt_holes
from clampwright.checks.wording import at_least, floor_2, shown
from clampwright.layout.placed import Hole, PlateLayout
from clampwright.trade.tables import Rule, rule

_pitch = partial(Finding, "PITCH-1", "hole spacing")


def pitch(layout: PlateLayout) -> tuple[Finding, ...]:
    """PITCH-1: centre distance of bolt holes over the larger hole; every close pair, else the nearest."""
    return telling(_apart(a, b, layout) for a, b in combinations(bolt_holes(layout), 2))


def _apart(a: Hole, b: Hole, layout: PlateLayout) -> Finding:
    preferred = rule("pitch-preferred")
    diameter = max(a.diameter_mm, b.diameter_mm)
    apart = dist(a.at, b.at)
    verdict, limit = _graded(apart / diameter)
    ratio = floor_2(apart / diameter)
    says = f"{a.label} and {b.label} are {shown(apart, layout)} apart: {ratio} hole diameters"
    change = ""
    if verdict != "pass":
        says += f" where {limit.value:g} are asked"
        needed = preferred.value * diameter
        change = (
            f"Move {a.label} and {b.label} {at_least(needed - apart, layout)} further apart: "
            f"at least {at_least(needed, layout)} between centres."
        )
    where = f"{a.label}/{b.label}"
    return _pitch(where, verdict, apart / diameter, limit.value, "D", f"{says}.", change, (limit.source,))


def _graded(ratio: float) -> tuple[str, Rule]:
    """Verdict of a pitch over the diameter, and the rule that decides it."""
    least, preferred = rule("pitch-least"), rule("pitch-preferred")
    if ratio >= preferred.value - SAME_MM:
        return "pass", preferred
    return ("caution", preferred) if ratio >= least.value - SAME_MM else ("fail", least)


CHECKS = (
    Check(
        "PITCH-1",
        "hole spacing",
        "Distance between the centres of every two bolt holes, over the larger hole diameter.",
        pitch,
        rules=("pitch-least", "pitch-preferred"),
    ),
)
