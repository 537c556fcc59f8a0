"""The steps at the bench, in order, and the bits for them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from clampwright.layout.outline import Arc
from clampwright.layout.placed import Hole, PlateLayout
from clampwright.quantities import show_length
from clampwright.sheets.figures import figure
from clampwright.sheets.flow import Block, gap, heading, paragraph, ticked
from clampwright.sheets.hole_table import kept
from clampwright.sheets.ink import SMALL
from clampwright.sheets.table import Heading, table
from clampwright.trade.drilling import drilling
from clampwright.trade.holes import drill
from clampwright.trade.tables import rule

NOW = "drill now"


def bench_steps(layout: PlateLayout) -> tuple[str, ...]:
    """What to do at the bench, from the trial in card to broken edges."""
    return tuple(text for text in _steps(layout) if text)


def _steps(layout: PlateLayout) -> Iterator[str]:
    units = layout.recipe.units
    yield (
        "Card first: print the template true to size, glue it on stiff card, cut it out, punch the holes and "
        "hold it on the closed clamps, THIS FACE UP. Cut no metal before every clamp hole meets its clamp as "
        "the fit-up plan allows."
    )
    yield (
        f"Cut the blank ({layout.material.name}, {show_length(layout.thickness_mm, units)}) outside the "
        "line. Glue a fresh template on its far face, THIS FACE UP."
    )
    yield "Centre-punch every cross: lightly, look through a lens, correct, then deeper."
    yield _pilots(layout)
    yield (
        "Check the centre distances of the template's table with calipers. A pilot that is off is moved with "
        "a round file before it is opened."
    )
    yield _finals(layout)
    yield _stepped(layout)
    yield "Deburr every hole on both sides: take the burr, make no countersink."
    yield _corners(layout)
    edge = show_length(rule("edge-break").value, units)
    yield (
        f"File the edges to the line and smooth along them; break all edges about {edge}, both sides. No "
        "scratch stays."
    )
    yield "Take off paper and glue, clear all chips, protect the bare metal."


def _pilots(layout: PlateLayout) -> str:
    sizes = _grouped((hole.pilot, hole.label) for hole in layout.holes if hole.pilot)
    said = "; ".join(f"{size}: {', '.join(labels)}" for size, labels in sizes.items())
    return (
        f"Pilot holes everywhere, wood behind and clamped down, drill square to the sheet. {said}."
        if said
        else ""
    )


def _finals(layout: PlateLayout) -> str:
    """Final sizes of the holes that are drilled now and take a drill of the list."""
    above = rule("step-drill-above").value
    now = [hole for hole in layout.holes if ready_now(layout, hole) and hole.diameter_mm <= above]
    sizes = _grouped((hole.drill, hole.label) for hole in now)
    said = "; ".join(f"{size}: {', '.join(labels)}" for size, labels in sizes.items())
    later = [hole.label for hole in layout.holes if not ready_now(layout, hole)]
    wait = f" Not yet: {', '.join(later)}, see the fit-up plan." if later else ""
    return f"Final drills, wood behind. {said}.{wait}" if said else wait.strip()


def _stepped(layout: PlateLayout) -> str:
    above = rule("step-drill-above").value
    units = layout.recipe.units
    large = [hole for hole in layout.holes if hole.diameter_mm > above and ready_now(layout, hole)]
    if not large:
        return ""
    sizes = _grouped((_large(hole, units), hole.label) for hole in large)
    said = "; ".join(f"{size}: {', '.join(labels)}" for size, labels in sizes.items())
    limit = show_length(above, units)
    return (
        f"Above {limit} a twist drill grabs sheet: step drill or hole saw, slowly, then file to size. {said}."
    )


def _large(hole: Hole, units: str) -> str:
    size = show_length(hole.diameter_mm, units)
    return size if hole.drill == "step drill" else f"{size} ({hole.drill})"


def _corners(layout: PlateLayout) -> str:
    units = layout.recipe.units
    arcs = [piece for piece in layout.outline.pieces if isinstance(piece, Arc)]
    radii = _grouped((show_length(arc.radius_mm, units), "") for arc in arcs)
    if not radii:
        return ""
    said = " and ".join(f"{radius} ({len(count)}x)" for radius, count in radii.items())
    return f"Corner radii: {said}. Saw off the corners, file round to the line."


def ready_now(layout: PlateLayout, hole: Hole) -> bool:
    """Whether the fit-up plan has a hole drilled at the bench; a hole it does not name is."""
    way = next((fit.way for fit in layout.fit_up.holes if fit.hole == hole.label), NOW)
    return way == NOW


def _grouped(pairs: Iterable[tuple[str, str]]) -> dict[str, list[str]]:
    groups: dict[str, list[str]] = {}
    for key, label in pairs:
        groups.setdefault(key, []).append(label)
    return groups


def step_blocks(layout: PlateLayout, room: float) -> list[Block]:
    """The steps with boxes to tick."""
    blocks = heading("At the bench, in this order", room)
    for number, text in enumerate(bench_steps(layout), 1):
        blocks += ticked(text, room, 3.0, str(number))
    return blocks


def bit_blocks(layout: PlateLayout, room: float) -> list[Block]:
    """Every bit with its diameter, speed and holes."""
    units = layout.recipe.units
    found = _bits(layout)
    speeds = [_speed(layout, diameter) for _, diameter, _ in found]
    headings = (
        Heading("bit", bold=True),
        Heading(f"Ø {units}", "right"),
        Heading("rpm", "right"),
        Heading("holes", wraps=True),
    )
    rows = [
        (bit, figure(diameter, units), speed, ", ".join(labels))
        for (bit, diameter, labels), speed in zip(found, speeds, strict=True)
    ]
    return [
        *heading("Bits and speeds", room),
        *kept(paragraph(_manner(layout), room, SMALL)),
        *table(headings, rows, room),
        gap(3.0),
    ]


def _bits(layout: PlateLayout) -> list[tuple[str, float, list[str]]]:
    """(bit, diameter, holes), pilots before final drills, smallest first."""
    pilots = _grouped((hole.pilot, hole.label) for hole in layout.holes if hole.pilot)
    finals: dict[tuple[str, float], list[str]] = {}
    for hole in layout.holes:
        if hole.drill != hole.pilot:
            finals.setdefault((hole.drill, hole.diameter_mm), []).append(hole.label)
    first = [(size, drill(size).diameter_mm, labels) for size, labels in pilots.items()]
    then = [(size, diameter, labels) for (size, diameter), labels in finals.items()]
    by_size = sorted(first, key=lambda bit: bit[1]), sorted(then, key=lambda bit: bit[1])
    return [*by_size[0], *by_size[1]]


def _speed(layout: PlateLayout, diameter: float) -> str:
    try:
        return str(drilling(layout.material.name, diameter).speed_rpm)
    except LookupError:
        return "-"


def _manner(layout: PlateLayout) -> str:
    """Bit, feed and coolant for the material."""
    try:
        how = drilling(layout.material.name, rule("step-drill-above").value)
    except LookupError:
        return f"The tables know no speeds for {layout.material.name}."
    return (
        f"{layout.material.name}: {how.bit}; {how.feed}; {how.coolant}. At most these speeds: common "
        "practice, no source. Eye protection; clamp the work, never hold it by hand."
    )
