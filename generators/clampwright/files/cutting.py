"""What is hard or wrong to cut although the file is right: findings for the shop's sake."""

from __future__ import annotations

import math
from itertools import combinations

from clampwright.checks.finding import Finding
from clampwright.layout.placed import Hole, PlateLayout
from clampwright.trade.tables import rule


def cut_findings(layout: PlateLayout) -> tuple[Finding, ...]:
    """Smallest hole against thickness (CUT-1), inside corners (CUT-2), contours that cross (CUT-3)."""
    return (_smallest_hole(layout), _inside_corners(layout), *_crossings(layout))


def _smallest_hole(layout: PlateLayout) -> Finding:
    least = rule("cut-hole-least")
    if not layout.holes:
        return Finding(
            "CUT-1", "smallest hole to cut", "plate", "pass", None, least.value, "d/t", "No holes.", "", ()
        )
    hole = min(layout.holes, key=lambda h: h.diameter_mm)
    ratio = hole.diameter_mm / layout.thickness_mm
    good = ratio >= least.value
    return Finding(
        "CUT-1",
        "smallest hole to cut",
        hole.label,
        "pass" if good else "caution",
        round(ratio, 3),
        least.value,
        "d/t",
        f"Hole {hole.label}, {hole.diameter_mm:.3f} mm, is {ratio:.2f} times as wide as the sheet is thick.",
        "" if good else f"Have hole {hole.label} marked by the machine and drill it by hand.",
        (least.source,),
    )


def _inside_corners(layout: PlateLayout) -> Finding:
    least, found = rule("cutter-inside-radius-least"), layout.outline.least_inside_radius()
    good = found is None or found >= least.value
    says = "The outline has no inside corner."
    if found is not None:
        says = f"The sharpest inside corner of the outline has a radius of {found:.2f} mm."
    change = "" if good else f"Round inside corners to {least.value:g} mm or more."
    verdict = "pass" if good else "caution"
    return Finding(
        "CUT-2",
        "inside corners to cut",
        "outline",
        verdict,
        found,
        least.value,
        "mm",
        says,
        change,
        (least.source,),
    )


def _crossings(layout: PlateLayout) -> tuple[Finding, ...]:
    found = [(h.label, "the outline") for h in layout.holes if _over_edge(layout, h)]
    found += [(a.label, f"hole {b.label}") for a, b in combinations(layout.holes, 2) if _overlap(a, b)]
    if not found:
        says = "No two contours touch."
        return (Finding("CUT-3", "contours apart", "plate", "pass", None, None, "", says, "", ()),)
    return tuple(_crossing(label, other) for label, other in found)


def _crossing(label: str, other: str) -> Finding:
    says = f"Hole {label} runs into {other}."
    change = f"Move hole {label} and {other} apart: the piece cannot be cut like this."
    return Finding("CUT-3", "contours apart", label, "fail", None, None, "", says, change, ())


def _over_edge(layout: PlateLayout, hole: Hole) -> bool:
    outline = layout.outline
    return not outline.contains(hole.at) or outline.distance(hole.at) <= hole.diameter_mm / 2


def _overlap(a: Hole, b: Hole) -> bool:
    return math.dist(a.at, b.at) <= (a.diameter_mm + b.diameter_mm) / 2
