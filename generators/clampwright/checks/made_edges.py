"""Finished holes: how near they lie to edges, cut-outs and each other where they were really drilled."""

from __future__ import annotations

import math
from dataclasses import replace

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.edges import cut_out_distance, edge_distance
from clampwright.checks.finding import VERDICTS, Finding
from clampwright.checks.made_wording import Made, recoded
from clampwright.checks.pitch import pitch
from clampwright.checks.wording import at_least
from clampwright.layout.as_made_holes import is_pilot
from clampwright.layout.placed import Hole, PlateLayout

_EDGES = ("MADE-5", "finished holes from edges and each other")
_LOOKED_AT = (edge_distance, cut_out_distance, pitch)


def edges(made: Made) -> tuple[Finding, ...]:
    """MADE-5: EDGE-1, EDGE-2 and PITCH-1 as measured; a pilot counts as the hole that it becomes."""
    layout = made.layout
    if not isinstance(layout, PlateLayout) or not made.measured.holes:
        return ()
    found = as_drilled(layout, made)
    labels = {hole.label for hole in made.measured.holes}
    return tuple(
        _doubted(_told(each, {f.where: f for f in look(layout)}), found, made)
        for look in _LOOKED_AT
        for each in look(found)
        if labels & set(each.where.split("/"))
    )


def as_drilled(layout: PlateLayout, made: Made) -> PlateLayout:
    """The layout with its holes where they were measured, as wide as they were measured."""
    measured = {hole.label: hole for hole in made.measured.holes}

    def drilled(hole: Hole) -> Hole:
        found = measured.get(hole.label)
        if found is None:
            return hole
        finished = found.diameter_mm is not None and not is_pilot(hole, found.diameter_mm)
        wide = found.diameter_mm if finished and found.diameter_mm is not None else hole.diameter_mm
        return replace(hole, at=found.at, diameter_mm=wide)

    return replace(layout, holes=tuple(drilled(hole) for hole in layout.holes))


def _told(found: Finding, drawn: dict[str, Finding]) -> Finding:
    """One of them for a part that is made: nothing is moved any more."""
    told = recoded(found, *_EDGES)
    if found.verdict == "pass":
        return told
    before = drawn.get(found.where)
    if before is not None and VERDICTS.index(before.verdict) <= VERDICTS.index(found.verdict):
        return replace(told, says=f"{found.says[:-1]}, as drawn ({found.code}).")
    limit, value = found.limit or 0.0, found.value or 0.0
    change = (
        f"Make the plate again with {found.where} where drawn, or have somebody licensed judge "
        f"{max(value, 0.0):.2f} {found.unit} where {limit:g} are asked."
    )
    return replace(told, change=change)


def _doubted(found: Finding, layout: PlateLayout, made: Made) -> Finding:
    """A pass with less to spare than the ± that the holes' places are known to is none."""
    if found.verdict != "pass" or found.value is None or found.limit is None:
        return found
    wide = max(hole.diameter_mm for hole in layout.holes if hole.label in found.where.split("/"))
    ends = sum(hole.label in found.where.split("/") for hole in made.measured.holes)
    doubt = made.error_mm * math.sqrt(ends)
    if (found.value - found.limit) * wide >= doubt - SAME_MM:
        return replace(found, plus_minus=made.error_mm)
    says = (
        f"{found.says[:-1]}; whether that is the {found.limit:g} {found.unit} asked cannot be told: the "
        f"holes are {made.measured_to()}."
    )
    change = f"Measure {found.where} better than to ± {at_least(doubt, made.layout)}."
    return replace(found, verdict="unknown", says=says, change=change, plus_minus=made.error_mm)


CHECKS = (
    Check(
        *_EDGES,
        "Edge distance, distance to cut-outs and spacing of holes (EDGE-1, EDGE-2, PITCH-1) where they were "
        "measured; right and top edge as drawn.",
        edges,
        rules=("edge-distance-least", "edge-distance-preferred", "pitch-least", "pitch-preferred"),
    ),
)
