"""The bars that bushings are cut from, drawn with pieces and saw cuts, and what to buy."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from clampwright.layout.bushing_parts import Bar, CutList
from clampwright.quantities import show_length
from clampwright.sheets.both_units import both
from clampwright.sheets.drawing import Item, Text, box_path
from clampwright.sheets.flow import Block, gap, heading, paragraph
from clampwright.sheets.hole_table import kept
from clampwright.sheets.ink import BLACK, FINE, FRAME, GREY, PALE, SMALL
from clampwright.sheets.lettering import width

_HIGH = 7.0


def stock_blocks(cuts: CutList, units: str, room: float) -> list[Block]:
    """What to buy: each stock, how many bars of which length, and the least that is enough."""
    if not cuts.bars:
        return []
    blocks = heading("Stock to buy", room)
    for stock, least in cuts.needed_mm:
        bars = [bar for bar in cuts.bars if bar.stock == stock]
        length = both(bars[0].length_mm, units)
        count = f"1 length of {length}" if len(bars) == 1 else f"{len(bars)} lengths of {length}"
        text = f"{stock}: {count}. Least that is enough, saw cuts counted: {both(least, units)}."
        blocks += paragraph(text, room)
    return [*blocks, gap(2.0)]


def cut_plan(cuts: CutList, units: str, room: float) -> list[Block]:
    """Each bar with its pieces in the order of cutting, from its squared end on the left."""
    if not cuts.bars:
        return []
    scale = min(1.0, room / max(bar.length_mm for bar in cuts.bars))
    drawn = "drawn at 1:1" if scale == 1.0 else f"NOT 1:1, drawn at 1:{1 / scale:.2f}: take no length from it"
    kerf = show_length(cuts.bars[0].kerf_mm, units)
    text = (
        f"Bars {drawn}. Square the left end first; each piece is measured from the fresh end, and each "
        f"saw cut (black) takes {kerf}."
    )
    blocks = [*heading("Cut plan", room), *kept(paragraph(text, room, SMALL))]
    for number, bar in enumerate(cuts.bars, 1):
        blocks += _bar_blocks(number, bar, scale, units, room)
    return [*blocks, gap(2.0)]


def _bar_blocks(number: int, bar: Bar, scale: float, units: str, room: float) -> list[Block]:
    left = f"{both(bar.left_mm, units)} left" if bar.left_mm > 0 else "nothing left"
    pieces = ", ".join(_runs(bar, units))
    text = f"Bar {number}, {bar.stock}, {show_length(bar.length_mm, units)}: {pieces}; {left}."
    picture = Block(_HIGH + 1.5, tuple(_picture(bar, scale)), keep=True)
    return [picture, *paragraph(text, room, SMALL, after=2.4)]


def _runs(bar: Bar, units: str) -> Iterator[str]:
    """ "2 x S1 at 13.20 mm": equal pieces one after the other."""
    for cut, same in groupby(bar.cuts):
        yield f"{len(list(same))} x {cut.mark} at {show_length(cut.length_mm, units)}"


def _picture(bar: Bar, scale: float) -> Iterator[Item]:
    """Hangs from y = 0: pieces white, saw cuts black, what is left grey."""
    x = 0.0
    for number, cut in enumerate(bar.cuts):
        end = x + cut.length_mm
        yield box_path((x * scale, -_HIGH, end * scale, 0.0), FINE)
        if width(cut.mark, SMALL, True) + 1.0 <= cut.length_mm * scale:
            yield Text(
                ((x + end) / 2 * scale, -_HIGH / 2 - SMALL * 0.36), cut.mark, SMALL, "middle", bold=True
            )
        x = end
        last = number == len(bar.cuts) - 1
        saw = min(bar.kerf_mm, bar.length_mm - x)
        if saw > 0 and not (last and bar.left_mm <= 0 and saw < bar.kerf_mm):
            yield box_path((x * scale, -_HIGH, (x + saw) * scale, 0.0), None, BLACK)
        x += saw
    if bar.left_mm > 0:
        yield box_path((x * scale, -_HIGH, bar.length_mm * scale, 0.0), FINE, PALE)
        if width("left", SMALL) + 1.0 <= bar.left_mm * scale:
            middle = (x + bar.length_mm) / 2 * scale
            yield Text((middle, -_HIGH / 2 - SMALL * 0.36), "left", SMALL, "middle", colour=GREY)
    yield box_path((0.0, -_HIGH, bar.length_mm * scale, 0.0), FRAME)
