"""Flat parts laid on stock sheets as close as a bounded search brings them, never looser than their boxes.

The search is of this project, on shapely's polygons: rectpack packs boxes only and is the baseline here;
spyrrow packs outlines, a few percent closer given ten seconds or more, but it stops by the clock and gave
other places on a busy machine, where the same parts must give the same files. Parts are not laid in other
parts' holes: what falls out of a hole may tip and lift under the head.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Sequence

from shapely.errors import GEOSException

from clampwright.layout.shop.told import FlatPart
from clampwright.nesting.baseline import Lay, boxed_layout
from clampwright.nesting.nested import Laid, Nest, NestedSheet, Stock
from clampwright.nesting.on_sheet import turned_box
from clampwright.nesting.placing import Placer, Room
from clampwright.nesting.proof import faults_of_nest
from clampwright.nesting.searching import Order, Score, search
from clampwright.nesting.shapes import shapes_of
from clampwright.nesting.stocks import Together, stocks
from clampwright.nesting.turns import turns
from clampwright.structure.wording import counted

Step = Callable[[str], None]
_SAME_MM = 1e-3


class NotNested(Exception):  # noqa: N818
    """No nest, or one that breaks its own rules: a fault of this program; `faults` says how."""

    def __init__(self, faults: tuple[str, ...]) -> None:
        super().__init__("; ".join(faults))
        self.faults = faults


def nest(parts: Sequence[FlatPart], step: Step = lambda words: None) -> Nest:
    """Lay every copy of every part on as few sheets as found, then in as short a length.

    Parameters
    ----------
    parts : Sequence[FlatPart]
        With their quantities; what is told of kerf, margin, grain and sheet stands in `part.shop`.
    step : Callable[[str], None], optional
        Told how far it is.

    Returns
    -------
    Nest
        The same for the same parts, in whatever order. Proved: margins, kerf and grain are kept. Where the
        search breaks off the layout of bounding boxes stands, and `by_boxes` says so.

    Raises
    ------
    ValueError
        Two parts have the same number.
    NotNested
        No layout came of it, or the proof found a fault in it: a fault of this program, not of the parts.
    """
    twice = [number for number, count in Counter(part.number for part in parts).items() if count > 1]
    if twice:
        raise ValueError(f"parts with the same number: {', '.join(sorted(twice))}")
    try:
        found = _laid_out([part for part in parts if part.quantity > 0], step)
        faults = faults_of_nest(found, parts)
    except (GEOSException, ValueError) as broken:
        raise NotNested((f"no layout came of it: {broken}",)) from broken
    if faults:
        raise NotNested(faults)
    return found


def _laid_out(parts: Sequence[FlatPart], step: Step) -> Nest:
    """Every stock's parts on its sheets, before they are proved."""
    sheets: list[NestedSheet] = []
    baseline, by_boxes = [], []
    groups = stocks(parts)
    for group in groups:
        if group.parts:
            step(f"nesting {group.stock.words}: {sum(p.quantity for p in group.parts)} pieces")
            laid, boxed, failed = _group(group, step)
            new = _sheets(group, laid, len(sheets))
            lengths = math.fsum(each.used_mm2 / each.stock.width_mm for each in new)
            step(f"nested {group.stock.words}: {counted(len(new), 'sheet')}, {lengths:.0f} mm of length")
            sheets += new
            baseline.append(boxed)
            by_boxes += [group.stock] if failed else []
    too_large = tuple(each for group in groups for each in group.too_large)
    return Nest(tuple(sheets), tuple(baseline), too_large, tuple(by_boxes))


def _group(group: Together, step: Step) -> tuple[list[list[Lay]], tuple[str, float, int], bool]:
    """Places on each sheet, the baseline in figures, and whether the search broke off."""
    stock, parts = group.stock, group.parts
    room = Room(stock.width_mm - 2 * stock.margin_mm, stock.length_mm - 2 * stock.margin_mm)
    pieces = [k for k, part in enumerate(parts) for _ in range(part.quantity)]
    laid, score = boxed_layout(room, stock.kerf_mm, parts, pieces)
    area = math.fsum(parts[k].outline.area_mm2() for k in pieces)
    used = (score[1] + 2 * stock.margin_mm * score[0]) * stock.width_mm
    figures = (stock.words, area / used, score[0])
    least = _least(room, parts, pieces)
    if score[0] <= least[0] and score[1] <= least[1] + _SAME_MM:
        return laid, figures, False
    try:
        return _closer(room, stock, parts, pieces, (laid, score), least, step), figures, False
    except GEOSException:  # polygons that even rounding did not hold together: boxes are sound
        return laid, figures, True


def _least(room: Room, parts: Sequence[FlatPart], pieces: Sequence[int]) -> Score:
    """No layout has fewer sheets or less length: by area, and by the least any one part takes along."""
    area = math.fsum(parts[k].outline.area_mm2() for k in pieces)
    along = max(min(_along(part, turn) for turn in turns(part).turns_rad) for part in parts)
    sheets = math.ceil(area / (room.width_mm * room.length_mm) - 1e-9)
    return max(1, sheets), max(area / room.width_mm, along)


def _along(part: FlatPart, turn: float) -> float:
    _, y0, _, y1 = turned_box(part.outline, turn)
    return y1 - y0


def _closer(
    room: Room,
    stock: Stock,
    parts: Sequence[FlatPart],
    pieces: Sequence[int],
    boxed: tuple[list[list[Lay]], Score],
    least: Score,
    step: Step,
) -> list[list[Lay]]:
    """The search's layout where it is better than the boxes', else theirs."""
    shapes = [
        shapes_of(number, part.outline, stock.kerf_mm, turns(part).turns_rad)
        for number, part in enumerate(parts)
    ]
    placer = Placer(room, shapes)
    best = search(placer, _orders(parts, pieces, boxed[0]), least, step)
    if best.score >= (boxed[1][0], boxed[1][1] - _SAME_MM):
        return boxed[0]
    return [
        [(spot.part, placer.shape(spot.shape).turn_rad, spot.x, spot.y) for spot in sheet.spots]
        for sheet in best.sheets
    ]


def _orders(
    parts: Sequence[FlatPart], pieces: Sequence[int], boxed: Sequence[Sequence[Lay]]
) -> tuple[Order, ...]:
    """Largest first by area, by longest side, by both sides together; and as the boxes lie, from below."""
    boxes = [part.outline.box() for part in parts]
    sides = [(x1 - x0, y1 - y0) for x0, y0, x1, y1 in boxes]
    areas = [part.outline.area_mm2() for part in parts]
    sizes = (areas, [max(side) for side in sides], [sum(side) for side in sides])
    orders = [tuple(sorted(pieces, key=lambda k, by=by: (-round(by[k], 6), k))) for by in sizes]  # type: ignore[misc]
    orders.append(tuple(lay[0] for sheet in boxed for lay in sorted(sheet, key=lambda lay: (lay[3], lay[2]))))
    return tuple(dict.fromkeys(orders))


def _sheets(group: Together, laid: Sequence[Sequence[Lay]], before: int) -> list[NestedSheet]:
    stock, copies = group.stock, Counter[int]()
    sheets = []
    for number, places in enumerate(laid, before + 1):
        on = []
        for part, turn, x, y in sorted(places, key=lambda lay: (lay[0], round(lay[3], 3), lay[2])):
            copies[part] += 1
            told = group.parts[part]
            at = (x + stock.margin_mm, y + stock.margin_mm)
            on.append(Laid(told, copies[part], turn, at, turns(told).why))
        area = math.fsum(each.part.outline.area_mm2() for each in on)
        end = max(turned_box(each.part.outline, each.turn_rad)[3] + each.at[1] for each in on)
        sheets.append(NestedSheet(number, stock, tuple(on), area, (end + stock.margin_mm) * stock.width_mm))
    return sheets
