"""Cutting: what is hard or impossible to cut although the drawing is right, for the shop's sake."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from itertools import combinations
from math import dist

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.edges import inside_by
from clampwright.checks.finding import Finding
from clampwright.checks.wording import at_least, floor_2, shown
from clampwright.layout.placed import Hole, PlateLayout
from clampwright.trade.tables import rule

PRACTICE = "practice"
"""Source of what everybody knows: one piece has one edge, and holes that meet are one hole."""

_small = partial(Finding, "CUT-1", "smallest hole to cut")
_inside = partial(Finding, "CUT-2", "inside corners to cut")
_apart = partial(Finding, "CUT-3", "contours apart")


def smallest_hole(layout: PlateLayout) -> tuple[Finding, ...]:
    """CUT-1: the smallest hole is wide enough over the sheet's thickness for a laser or waterjet."""
    if not layout.holes:
        return ()
    least = rule("cut-hole-least")
    hole = min(layout.holes, key=lambda h: h.diameter_mm)
    ratio = hole.diameter_mm / layout.thickness_mm
    found = partial(
        _small, where=hole.label, value=ratio, limit=least.value, unit="d/t", sources=(least.source,)
    )
    says = f"Hole {shown(hole.diameter_mm, layout)} is {floor_2(ratio)} times as wide as the sheet is thick"
    if ratio >= least.value - SAME_MM:
        return (found(verdict="pass", says=f"{says}.", change=""),)
    says = f"{says} where a jet wants {least.value:g}."
    change = (
        f"Have the machine only mark {hole.label}, and drill its {shown(hole.diameter_mm, layout)} by hand."
    )
    return (found(verdict="caution", says=says, change=change),)


def inside_corners(layout: PlateLayout) -> tuple[Finding, ...]:
    """CUT-2: inside corners are no tighter than a waterjet leaves them."""
    radius = layout.outline.least_inside_radius()
    if radius is None:
        return ()
    least = rule("cutter-inside-radius-least")
    found = partial(
        _inside, where="plate", value=radius, limit=least.value, unit="mm", sources=(least.source,)
    )
    if radius >= least.value - SAME_MM:
        says = f"The tightest inside corner, radius {shown(radius, layout)}, can be cut with a jet."
        return (found(verdict="pass", says=says, change=""),)
    says = f"The tightest inside corner has a radius of {shown(radius, layout)}: a jet leaves it wider."
    change = f"Round inside corners to {at_least(least.value, layout)} or more."
    return (found(verdict="caution", says=says, change=change),)


def contours_apart(layout: PlateLayout) -> tuple[Finding, ...]:
    """CUT-3: no hole meets another or the edge; the least metal between two contours for a pass."""
    between = tuple(_between(layout))
    met = tuple(_met(one, other, metal, layout) for one, other, metal in between if metal <= SAME_MM)
    if met or not between:
        return met
    one, other, metal = min(between, key=lambda each: each[2])
    says = (
        f"The least metal between two contours is {shown(metal, layout)}, at {one.label} and {_name(other)}."
    )
    return (_apart("plate", "pass", metal, 0.0, "mm", says, "", (PRACTICE,)),)


def crossing(layout: PlateLayout) -> tuple[str, ...]:
    """Why no part can be made of this layout: holes that meet each other or the edge; empty where none.

    For whoever writes files that a machine cuts from: such a drawing is no part at all, whereas all other
    findings are about a part that can be made.
    """
    return tuple(
        _meeting(one, other, metal, layout) for one, other, metal in _between(layout) if metal <= SAME_MM
    )


def _between(layout: PlateLayout) -> Iterator[tuple[Hole, Hole | None, float]]:
    """Metal between every hole and the edge (None) and between every two holes, mm; negative over it."""
    for hole in layout.holes:
        yield hole, None, inside_by(layout.outline, hole.at) - hole.diameter_mm / 2
    for a, b in combinations(layout.holes, 2):
        yield a, b, dist(a.at, b.at) - (a.diameter_mm + b.diameter_mm) / 2


def _name(other: Hole | None) -> str:
    return "the edge" if other is None else other.label


def _meeting(one: Hole, other: Hole | None, metal: float, layout: PlateLayout) -> str:
    by = f" by {shown(-metal, layout)}" if metal < -SAME_MM else ""
    if other is not None:
        return f"holes {one.label} and {other.label} {f'overlap{by}' if by else 'touch'}"
    if -metal >= one.diameter_mm - SAME_MM:
        return f"hole {one.label} lies outside the plate"
    return f"hole {one.label} {f'crosses the edge{by}' if by else 'touches the edge'}"


def _met(one: Hole, other: Hole | None, metal: float, layout: PlateLayout) -> Finding:
    where = one.label if other is None else f"{one.label}/{other.label}"
    said = _meeting(one, other, metal, layout)
    says = f"{said[0].upper()}{said[1:]}: no part can be cut like this."
    web = layout.thickness_mm
    change = (
        f"Move {one.label} and {_name(other)} {at_least(web - metal, layout)} apart: at the very least "
        f"the sheet's thickness, {shown(web, layout)}, has to stay between them."
    )
    if other is None:
        change = (
            f"Move {one.label} inward, or the edge outward, by {at_least(web - metal, layout)}: at the very "
            f"least the sheet's thickness, {shown(web, layout)}, has to stay between them."
        )
    return _apart(where, "fail", metal, 0.0, "mm", says, change, (PRACTICE,))


CHECKS = (
    Check(
        "CUT-1",
        "smallest hole to cut",
        "Diameter of the smallest hole over the sheet's thickness.",
        smallest_hole,
        rules=("cut-hole-least",),
    ),
    Check(
        "CUT-2",
        "inside corners to cut",
        "Least radius of the outline's inside corners against what a waterjet leaves.",
        inside_corners,
        rules=("cutter-inside-radius-least",),
    ),
    Check(
        "CUT-3",
        "contours apart",
        "Metal between every hole and the edge and between every two holes: none where contours meet.",
        contours_apart,
        sources=(PRACTICE,),
    ),
)
