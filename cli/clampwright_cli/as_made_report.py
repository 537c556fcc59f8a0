"""Finished parts against their recipe as text for people: holes, bushings, feet, findings, in a sentence."""

from __future__ import annotations

import math

import click

from clampwright.checks.made_wording import Made, moved, told_apart
from clampwright.checks.wording import shown
from clampwright.layout.as_made import FootFit, GroupFit, HoleFit, LengthFit
from clampwright.layout.kinds import Layout
from clampwright.quantities import show_length
from clampwright.sheets.figures import coordinate, figure
from clampwright.verify import Verified
from clampwright_cli.paragraph import paragraph
from clampwright_cli.report import COLOURS, findings_text
from clampwright_cli.table import table

_EIGHTH = math.sin(math.pi / 8)
"""Sine of half the angle between eight ways."""
_WORDS = {
    "fail": "THE PARTS DO NOT FIT AS MEASURED: see what to do above; do not draw it together with the bolts.",
    "unknown": "Nothing is known not to fit, but not everything is known to: measure what is missing.",
    "caution": "The parts fit as measured; read the cautions.",
    "pass": "The parts fit as measured.",
}
_LAST = (
    "Measured places say nothing of cracks, burrs or the metal itself: look at the parts. The kit maker's "
    "instructions and the regulations come first."
)


def report(done: Verified, detail: str) -> str:
    """The whole report. `detail` is "usual", "all" for passes too, or "brief" for a line a finding."""
    parts = [
        _title(done),
        _groups(done),
        _holes(done),
        _lengths(done),
        _feet(done),
        findings_text(done.findings, detail),
        _verdict(done),
    ]
    return "\n\n".join(part for part in parts if part)


def _title(done: Verified) -> str:
    recipe, made = done.layout.recipe, Made(done.layout, done.measured, done.fit)
    measured = done.measured
    counted = [
        f"{len(many)} {one if len(many) == 1 else several}"
        for many, one, several in (
            (measured.holes, "hole", "holes"),
            (measured.lengths, "bushing", "bushings"),
        )
        if many
    ]
    counted += ["the thickness"] if measured.thickness_mm is not None else []
    head = f"{click.style(recipe.name, bold=True)}: finished parts, recipe {recipe.digest}"
    return f"{head}\n  {', '.join(counted)} {made.measured_to()}{_sizes(made)}"


def _sizes(made: Made) -> str:
    """How well diameters and lengths are taken to be measured, where nobody stated that."""
    return "" if made.given else f" (diameters and lengths ± {shown(made.size_error_mm, made.layout)})"


def _groups(done: Verified) -> str:
    """The best-fit offset of the plate on its clamps, and of each component on the plate."""
    if not done.fit.groups:
        return ""
    units = done.layout.recipe.units
    heads = ["to meet", f"right {units}", f"up {units}", "turned deg", "spare so", "spare as drawn"]
    rows = [[group.name, *_offset(group, units)] for group in done.fit.groups]
    how = "Best fit: move the plate on its clamps, and each component on it, by this (+: counter-clockwise)"
    said = [
        paragraph("  ", _said(group, done))
        for group in done.fit.groups
        if moved(group, done.layout) and not _slipped(done)
    ]
    out = [
        f"  {group.left_out} is left out of that for {group.name}: it alone is to blame."
        for group in done.fit.groups
        if group.left_out
    ]
    return "\n".join([how, table(heads, rows), *out, *said])


def _slipped(done: Verified) -> bool:
    """Whether the holes were measured some other way than drawn: shifts then mean nothing."""
    return any(each.code == "MADE-1" and each.where == "measurements" for each in done.findings)


def _offset(group: GroupFit, units: str) -> list[str]:
    return [
        *(_signed(value, units) for value in group.shift),
        f"{math.degrees(group.turn_rad):+.2f}".replace("-0.00", "0.00").replace("+0.00", "0.00"),
        _spare(group.spare_mm, units),
        _spare(group.before_mm, units),
    ]


def _said(group: GroupFit, done: Verified) -> str:
    what = "the plate" if group.name == "the clamps" else group.name
    on = "Before anything else is drilled or transferred, shift" if what == "the plate" else "Shift"
    return f"{on} {what} {moved(group, done.layout)}."


def _holes(done: Verified) -> str:
    if not done.fit.holes:
        return ""
    units = done.layout.recipe.units
    heads = [
        "hole",
        f"drawn {units}",
        f"measured {units}",
        "diameter",
        "off its bolt",
        "forgiven",
        "spare",
        "clamp slides",
        "",
    ]
    rows = [_hole(hole, units) for hole in done.fit.holes]
    return "Holes against their bolts, after that\n" + table(heads, rows)


def _hole(hole: HoleFit, units: str) -> list[str]:
    size = figure(hole.diameter_mm, units) if hole.sized else "as drawn"
    note = (
        "pinches" if hole.spare_mm < 0 else "pilot" if hole.pilot else "in place" if hole.transferred else ""
    )
    return [
        hole.label,
        ", ".join(coordinate(value, units) for value in hole.planned),
        ", ".join(coordinate(value, units) for value in hole.measured),
        size,
        _off(hole, units),
        figure(hole.allowed_mm, units),
        _spare(hole.spare_mm, units),
        "-" if hole.room_mm is None else figure(abs(hole.slides_mm), units),
        note,
    ]


def _off(hole: HoleFit, units: str) -> str:
    """How far the hole stands off its bolt, and to which side."""
    across, up = hole.way
    if not any(sign in "123456789" for sign in figure(hole.off_mm, units)):
        return figure(0.0, units)
    ways = ((across, "right"), (-across, "left"), (up, "up"), (-up, "down"))
    names = [name for value, name in ways if value > _EIGHTH]
    return f"{figure(hole.off_mm, units)} {' '.join(names)}"


def _lengths(done: Verified) -> str:
    if not done.fit.lengths:
        return ""
    units = done.layout.recipe.units
    heads = ["bushing", "under", f"drawn {units}", "limits", "measured", "left of its gap"]
    return "Bushings\n" + table(heads, [_length(each, done.layout) for each in done.fit.lengths])


def _length(each: LengthFit, layout: Layout) -> list[str]:
    units = layout.recipe.units
    trimmed = " (trimmed at the fit)" if each.long_mm > 0 else ""
    is_, low, high = (
        length.removesuffix(units).strip()
        for length in told_apart((each.measured_mm, each.low_mm, each.high_mm), layout)
    )
    return [
        each.mark,
        ", ".join(each.where),
        figure(each.planned_mm, units),
        f"{low} to {high}",
        is_,
        f"{_signed(each.left_mm, units)}{trimmed}",
    ]


def _feet(done: Verified) -> str:
    feet = done.fit.feet
    if not any(foot.measured for foot in feet):
        return ""
    units = done.layout.recipe.units
    heads = ["foot", "over where drawn", "left under it at most", ""]
    return "Feet: how the part comes to lie\n" + table(heads, [_foot(foot, units) for foot in feet])


def _foot(foot: FootFit, units: str) -> list[str]:
    carries = "carries" if foot.carries else "hangs"
    return [
        foot.label,
        _signed(foot.high_mm, units),
        figure(foot.gap_mm, units),
        carries if foot.measured else f"{carries} (as drawn)",
    ]


def _verdict(done: Verified) -> str:
    text = click.style(_WORDS[done.verdict], fg=COLOURS[done.verdict], bold=True)
    return f"{text}\n{paragraph('', _LAST, 0)}"


def _signed(mm: float, units: str) -> str:
    text = figure(mm, units)
    return text if text.startswith("-") or not float(text) else f"+{text}"


def _spare(mm: float, units: str) -> str:
    return show_length(mm, units)
