"""What the bushing cut sheet says: each bushing's facts, how to make it, cautions."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from clampwright.layout.bushing_parts import BushingPart, MadeUp
from clampwright.layout.cut_long import LONGER, as_marked, left_long
from clampwright.layout.joined import Joined
from clampwright.layout.known_to import KnownTo
from clampwright.layout.shop.piece_limits import finished_limits, length_limits
from clampwright.quantities import show_length, show_mass
from clampwright.sheets.both_units import both
from clampwright.sheets.bushing_figure import Figure, bushing_figure
from clampwright.sheets.drawing import Item, box_path, moved
from clampwright.sheets.flow import Block, gap, heading, paragraph, warning
from clampwright.sheets.ink import HEAD, SMALL
from clampwright.sheets.lettering import width
from clampwright.sheets.trimming import trim_words
from clampwright.trade.general_tolerances import INCH_DECIMALS, general
from clampwright.trade.holes import drills
from clampwright.trade.limits import Limits
from clampwright.trade.tables import rule
from clampwright.trade.tube_stock import bushing_material

_FACTS = 62.0
"""Least width for the facts beside a figure."""
_BESIDE = 5.0
_TICK, _TICK_STEP = 3.2, 4.6


def bushing_blocks(layout: Joined, room: float) -> list[Block]:
    """Each made length: its figure at true size, boxes to tick and its facts, never broken over pages."""
    parts, units = as_marked(layout), layout.recipe.units
    if not parts:
        text = (
            "Nothing to cut: no gap here asks for a bushing. Washers and shims stand in the order list and "
            "in the stacks."
        )
        return [*heading("No bushings", room), *paragraph(text, room), gap(3.0)]
    drawn = [bushing_figure(part, units, room, _drawn_as(part, layout)) for part in parts]
    spare = [room - figure.wide - _BESIDE for figure in drawn]
    column = min((each for each in spare if each >= _FACTS), default=0.0)
    return [
        _one(part, own, layout, room, column if each >= _FACTS else 0.0)
        for part, own, each in zip(parts, drawn, spare, strict=True)
    ]


def _drawn_as(part: BushingPart, layout: Joined) -> str:
    """What is said of the length under a figure that is not as the piece is first made."""
    return "finished" if left_long(part, layout.known_to, layout.recipe.units).long else ""


def _one(part: BushingPart, drawn: Figure, layout: Joined, room: float, beside: float) -> Block:
    """A bushing with its facts in a column of `beside` mm on the right; under the figure where that is 0."""
    title, high = _title(part, layout, room)
    if beside > 0:
        facts, tall = _stacked(_facts(part, layout, beside))
        items = (*moved(drawn.items, (0.0, -high)), *moved(facts, (room - beside, -high)))
        height = max(drawn.high, tall)
    else:
        facts, tall = _stacked(_facts(part, layout, room))
        items = (*moved(drawn.items, (0.0, -high)), *moved(facts, (0.0, -high - drawn.high - 1.5)))
        height = drawn.high + 1.5 + tall
    return Block(high + height + 4.0, (*title, *items))


def _title(part: BushingPart, layout: Joined, room: float) -> tuple[tuple[Item, ...], float]:
    """ "S1: make 2", with a box to tick for each piece behind it, in as many rows as that takes."""
    longer = left_long(part, layout.known_to, layout.recipe.units)
    words = f"{part.mark}: make {part.quantity}{', cut longer' if longer.long else ''}"
    items, high = _stacked(paragraph(words, room, HEAD, bold=True, after=1.6))
    start = width(words, HEAD, True) + 4.0
    a_row = max(1, int((room - start) / _TICK_STEP))
    boxes = []
    for number in range(part.quantity):
        row, column = divmod(number, a_row)
        x, y = start + column * _TICK_STEP, -row * _TICK_STEP
        boxes.append(box_path((x, y - _TICK, x + _TICK, y)))
    rows = -(-part.quantity // a_row)
    return (*items, *boxes), max(high, rows * _TICK_STEP + 0.8)


def _stacked(blocks: Sequence[Block]) -> tuple[tuple[Item, ...], float]:
    """Blocks one under the other, hung from (0, 0), and their height."""
    items: list[Item] = []
    y = 0.0
    for block in blocks:
        items += moved(block.items, (0.0, y))
        y -= block.height
    return tuple(items), -y


def _facts(part: BushingPart, layout: Joined, room: float) -> list[Block]:
    units = layout.recipe.units
    lines = (
        *_lengths(part, layout),
        *_trimmed(part, layout),
        *_sawn(part, layout),
        f"Outside {both(part.od_mm, units)}; bore {both(part.id_mm, units)}",
        f"Bore for {part.bolt}: {' to '.join(show_length(v, units) for v in part.id_window_mm)} will do",
        *_made_from(part, units),
        f"Fills {', '.join(_where(fill) for fill in part.fills)}",
        f"Good up to {part.max_temperature_c:.0f} °C; {_mass(part, layout)}",
    )
    return [line for text in lines for line in paragraph(text, room, SMALL, after=0.7)]


def _lengths(part: BushingPart, layout: Joined) -> Iterator[str]:
    """The length as first made, that of the turning sheet, where it is not the finished one; then that."""
    units, shop = layout.recipe.units, layout.recipe.shop
    more = left_long(part, layout.known_to, units).longer_mm
    if more:
        made = part.length_mm + more
        limits = length_limits(part, shop, made, long=True)
        yield f"First made {both(made, units)}, {tolerance_words(limits, units)}"
    where = ", where the gap is as laid out" if more else ""
    finished = tolerance_words(finished_limits(part, shop), units)
    yield f"Finished length {both(part.length_mm, units)}, {finished}{where}"


def _mass(part: BushingPart, layout: Joined) -> str:
    more = left_long(part, layout.known_to, layout.recipe.units).longer_mm
    each = show_mass(part.mass_each_kg, "g")
    if not more:
        return f"{each} each"
    first = show_mass(part.mass_each_kg * (1 + more / part.length_mm), "g")
    return f"{first} each as first made, {each} finished"


def _trimmed(part: BushingPart, layout: Joined) -> Iterator[str]:
    """How sure its gaps are, and what to do about that."""
    for where, words in trim_words(part, layout):
        at = _only(where, part)
        yield f"{at}{words}" if at else words[0].upper() + words[1:]


def _only(where: Sequence[str], part: BushingPart) -> str:
    """Which of the bushings something holds for, where it is not all of them."""
    return "" if len(where) == part.quantity else f"{', '.join(where)}: "


def _sawn(part: BushingPart, layout: Joined) -> Iterator[str]:
    units, facing = layout.recipe.units, rule("bushing-facing").value
    longer = left_long(part, layout.known_to, units)
    for where, more in ((longer.to_length, 0.0), (longer.long, longer.longer_mm)):
        if where:
            then = "face both ends square" + (", trim at the fit" if more else "")
            yield f"{_only(where, part)}Saw {both(part.length_mm + more + facing, units)}, then {then}"


def tolerance_words(limits: Limits, units: str) -> str:
    """ "± 0.10 mm", or under and over where they differ."""
    over = show_length(limits.over_mm, units)
    return f"± {over}" if limits.even else f"+ {over}, - {show_length(limits.under_mm, units)}"


def _made_from(part: BushingPart, units: str) -> tuple[str, ...]:
    if part.make == "tube":
        return (f"Cut from {part.stock}; its bore stays as it is",)
    turned = abs(part.stock_od_mm - part.od_mm) > rule("hole-size-tolerance").value
    outside = f"turn to {show_length(part.od_mm, units)} outside" if turned else "outside as the rod comes"
    return (f"From {part.stock}: {outside}, bore with {bored_with(part)}",)


def bored_with(part: BushingPart) -> str:
    """The drill of just that bore: "drill #9"; the size alone where no drill has it.

    Of a fraction and a letter or millimetres that are alike, what goes with the bolt comes first.
    """
    metric = part.bolt.startswith("M")
    same = [
        d for known in (metric, not metric) for d in drills(known) if abs(d.diameter_mm - part.id_mm) < 1e-3
    ]
    return f"drill {same[0].size}" if same else "a reamer or boring bar"


def _where(fill: MadeUp) -> str:
    washers = washer_words(fill)
    return f"{fill.where} ({washers} on it)" if washers else fill.where


def washer_words(fill: MadeUp) -> str:
    """ "1 x AN960-10L, 1 x AN960-10"; empty where none."""
    return ", ".join(f"{n} x {part}" for part, n in Counter(part for part, _ in fill.washers).items())


def making_notes(layout: Joined, room: float) -> list[Block]:
    """How to make them, and what holds for all."""
    parts, units, shop = as_marked(layout), layout.recipe.units, layout.recipe.shop
    if not parts:
        return []
    chamfer, play = rule("bushing-chamfer").value, rule("bushing-chamfer-tolerance").value
    square = show_length(rule("bushing-square").value, units)
    off = sorted({general(shop, part.od_mm).over_mm for part in parts})
    others = " and ".join(f"± {show_length(v, units)}" for v in off)
    held = "inch decimals" if shop.tolerances == INCH_DECIMALS else f"ISO 2768-1 {shop.tolerances}"
    lines = [
        f"Ends square to the bore: no face leans more than {square} across its diameter. Turn or sand it "
        "against a square, turn the bushing half round and look again.",
        f"Chamfer {show_length(chamfer, units)} ± {show_length(play, units)} x 45° on all four edges; no "
        "burr in the bore.",
        f"Outsides that are turned to {held} ({others} here); tube and rod as they are bought.",
        "Measure finished bushings with calipers. The drawing shows which is which; paper is no gauge.",
        *_cut_long(parts, units, layout.known_to),
    ]
    if any(bushing_material(part.material).family == "aluminium" for part in parts):
        lines.append(
            "Aluminium against stainless steel corrodes where it stays wet: paint or seal the faces."
        )
    blocks = heading("How to make them", room)
    for text in lines:
        blocks += paragraph(text, room, SMALL, after=0.9)
    return [*blocks, gap(3.0)]


def _cut_long(parts: Sequence[BushingPart], units: str, all_known: Sequence[KnownTo]) -> Iterator[str]:
    """What to do with those that are cut long; with any that might be too short, where nothing is known."""
    spare = both(rule("bushing-trim").value, units)
    then = "measure the gap at the mount with the feet squeezed together, then bring to length."
    if not all_known:
        yield f"A gap that rests on a seat nobody measured: cut {spare} longer, {then}"
    elif any(left_long(part, all_known, units).long for part in parts):
        yield f"What is cut longer fills the longest gap to be expected with {spare} to spare: {then}"
    marks = {part.mark for part in parts}
    for mark in sorted(marks):
        if mark + LONGER in marks:
            yield (
                f"{mark} and {mark}{LONGER} are listed with one length, but {mark}{LONGER} is cut longer and "
                "trimmed at its own clamp. Write the mark on each piece as it comes off the saw."
            )


def print_notes(*, verified: bool, room: float) -> list[Block]:
    """What the bars on the page are for."""
    bar = rule("bar-metric").value
    off = rule("print-tolerance").value / 100 * bar
    text = f"True where both solid {bar:.0f} mm bars, across and along, measure {bar:.0f} ± {off:.1g} mm."
    if verified:
        return paragraph(text, room, SMALL, after=2.0)
    return warning(f"{text} Until then hold nothing against this sheet.", room, SMALL)
