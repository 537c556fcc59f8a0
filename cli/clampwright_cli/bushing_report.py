"""What is particular to the report of a component on bushings."""

from __future__ import annotations

import math

from clampwright.layout.bushing_placed import Answer, BushingLayout, HoleHeld
from clampwright.layout.placed import ClampPlace
from clampwright.quantities import show_length, show_mass
from clampwright.recipe.bushing_model import BushingJob
from clampwright_cli.how_sure import how_sure
from clampwright_cli.joined_report import bushing_table, clamp_table, stacks
from clampwright_cli.table import table


def head(layout: BushingLayout) -> list[str]:
    """The component, how many answers there are, where it sits."""
    component, units = layout.recipe.asked(BushingJob).component, layout.recipe.units
    mass = show_mass(component.mass_kg, "lb" if units == "in" else "kg")
    x, y, z = (show_length(value, units) for value in layout.frame.origin)
    along, out = (
        ", ".join(f"{round(value, 3) + 0.0:.3f}" for value in d) for d in (layout.frame.u, layout.frame.n)
    )
    found = f"{layout.examined} ways to hold it looked at, {layout.fitting} fit"
    return [
        f"{component.name}, {mass}, {len(component.lugs)} mounting holes; {found}",
        f"its origin at {x}, {y}, {z}; its x along {along}; its z along {out}",
    ]


def body(layout: BushingLayout) -> list[str]:
    """The clamps, the holes, the bushings, the stacks, the other answers, what would make it fit."""
    return [
        clamp_table(layout),
        how_sure(layout),
        _holes(layout),
        bushing_table(layout, layout.cuts),
        stacks(layout),
        _answers(layout),
        _remedies(layout),
    ]


def _holes(layout: BushingLayout) -> str:
    heads = ["hole", "clamp", "gap under the lug", "filled with", "bolt misses hole by", "of"]
    rows = [
        _hole(held, clamp, layout) for held, clamp in zip(layout.answer.holes, layout.clamps, strict=True)
    ]
    return "Holes\n" + table(heads, rows)


def _hole(held: HoleHeld, clamp: ClampPlace, layout: BushingLayout) -> list[str]:
    units = layout.recipe.units
    filled = ", ".join(_piece(i.name, i.part, i.thickness_mm, i.count, units) for i in clamp.packing)
    return [
        str(held.hole),
        clamp.label,
        show_length(held.bushing_mm, units),
        filled or "nothing",
        show_length(math.hypot(*held.misfit_mm), units),
        show_length(layout.answer.allowed_mm, units),
    ]


def _piece(name: str, part: str, thickness_mm: float, count: int, units: str) -> str:
    made = f"{name} {show_length(thickness_mm, units)}" if name in ("bushing", "shim") else part
    return f"{count} x {made}" if count > 1 else made


def _answers(layout: BushingLayout) -> str:
    if not layout.others:
        return ""
    heads = ["", "hole: tube", "longest", "spread", "worst misfit", "tilt", "moved", ""]
    every = [layout.answer, *layout.others]
    rows = [_answer(number, answer, layout.recipe.units) for number, answer in enumerate(every, 1)]
    return "The best answers (the first is laid out)\n" + table(heads, rows)


def _answer(number: int, answer: Answer, units: str) -> list[str]:
    lengths = (answer.longest_mm, answer.spread_mm, answer.worst_misfit_mm)
    return [
        str(number),
        ", ".join(f"{held.hole}: {held.tube} {'+' if held.turn > 0 else '-'}" for held in answer.holes),
        *(show_length(value, units) for value in lengths),
        f"{math.degrees(answer.worst_tilt_rad):.1f} deg",
        show_length(answer.off_mm, units),
        "fits" if answer.fits else "does not fit",
    ]


def _remedies(layout: BushingLayout) -> str:
    if not layout.remedies:
        return ""
    lines = [f"  does not fit: {says}" for says in layout.answer.breaks]
    lines += [f"  {remedy.what}: {remedy.says}" for remedy in layout.remedies]
    if any(remedy.plate_recipe for remedy in layout.remedies):
        lines.append(f"  clampwright build writes that plate's recipe: {layout.recipe.name}-plate.toml")
    return "Nothing fits as it is; what would\n" + "\n".join(lines)
