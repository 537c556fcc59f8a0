"""A piece of a tube wrap at 1:1: outline and tab, hours, the clamps' bands, where feet and flat face lie."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.layout.clock import Clock
from clampwright.layout.from_mark import station_said
from clampwright.layout.joined import Loop
from clampwright.sheets.drawing import Item, Path, Pen, Text, box_path
from clampwright.sheets.ink import BLACK, DATUM, GREY, PALE, WHITE
from clampwright.sheets.lettering import shortened, width
from clampwright.sheets.where_on_tube import face_clock, feet_clock
from clampwright.sheets.wrap_mark import ground, mark_line, mark_words
from clampwright.sheets.wrap_strip import BEYOND, WORDS, Piece, Strip
from clampwright.trade.tables import rule

CUT = Pen(0.28)
BAND_EDGE = Pen(0.35)
FEET, FACE = Pen(0.5), Pen(0.3, BLACK, (2.2, 1.0))
TICK = Pen(0.13)
_TAB = Pen(0.18, GREY, (1.5, 1.0))
_TICK_LONG, _ZERO_LONG, _MIDDLE = 2.0, 3.0, 2.5
_HOUR, _SMALL, _LABEL = 1.9, 2.1, 3.2
_CROWDED = 3.6
"""Hours nearer together than this, mm, are numbered every third only."""

_ARROW_ROOM = 5.0
_ROW = 2.6


def piece_items(piece: Piece, units: str) -> tuple[Item, ...]:
    """A piece with its lower left corner at (0, 0)."""
    strip, long, high = piece.strip, piece.end - piece.start, piece.strip.height_mm
    items: list[Item] = []
    for loop in strip.loops:
        low, top = (strip.up(loop.station_mm + s * loop.clamp.band_width_mm / 2) for s in (-1, 1))
        items.append(box_path((0.0, low, long, top), None, PALE))
        items += [Path(((0.0, y), (long, y)), BAND_EDGE) for y in (low, top)]
        middle = (low + top) / 2
        items += [
            Path(((x, middle), (x + _MIDDLE, middle)), TICK)
            for x in (0.0, long - _MIDDLE)
            if long > 3 * _MIDDLE
        ]
    items += _ticks(piece)
    items += _lines(piece)
    items += [box_path((0.0, 0.0, long, high), CUT), *_tab(piece)]
    items += mark_line(piece)
    texts = [*_hours(piece), *_edge_words(piece, units), *_zero_words(piece)]
    for loop in strip.loops:
        texts += _band_words(piece, loop, units)
    texts += mark_words(piece, texts)
    for text in texts:
        items += [_white(text), text]
    return (*items, *_arrow(piece))


def _seen(piece: Piece, deg: float) -> float | None:
    """Where a clock lies in the piece, mm from its left edge; None outside."""
    x = piece.strip.across(deg)
    return x - piece.start if piece.start - 1e-9 <= x < piece.end - 1e-9 else None


def _ticks(piece: Piece) -> Iterator[Item]:
    """A tick every 30 degrees at both edges."""
    high = piece.strip.height_mm
    for hour in range(12):
        x = _seen(piece, 30.0 * hour)
        if x is not None:
            long = _TICK_LONG if hour else _ZERO_LONG
            yield Path(((x, 0.0), (x, long)), TICK)
            yield Path(((x, high - long), (x, high)), TICK)


def _hours(piece: Piece) -> Iterator[Text]:
    """The hours at the edge that is laid at its station."""
    strip, long = piece.strip, piece.end - piece.start
    y = strip.height_mm - _ZERO_LONG - 1.7 if strip.by_upper else _ZERO_LONG + 0.3
    every = 1 if strip.length_mm / 12 >= _CROWDED else 3
    for hour in range(0, 12, every):
        x = _seen(piece, 30.0 * hour)
        words = str(hour or 12)
        half = width(words, _HOUR, not hour) / 2 + 0.3
        if x is not None and half <= x <= long - half:
            yield Text((x, y), words, _HOUR, "middle", bold=not hour)


def _lines(piece: Piece) -> Iterator[Item]:
    """Zero, feet and flat face, along the tube."""
    strip, high = piece.strip, piece.strip.height_mm
    x = _seen(piece, 0.0)
    if x is not None:
        yield Path(((x, 0.0), (x, high)), DATUM)
    for loop in strip.loops:
        low, top = _reach(strip, loop)
        for found, pen in ((feet_clock(loop), FEET), (face_clock(loop), FACE)):
            x = _seen(piece, found.deg)
            if x is not None:
                yield Path(((x, low), (x, top)), pen)


def _reach(strip: Strip, loop: Loop) -> tuple[float, float]:
    """How far a clamp's lines run: half way to its neighbours, or to the strip's edges."""
    middles = [strip.up(each.station_mm) for each in strip.loops]
    at = strip.loops.index(loop)
    low = (middles[at - 1] + middles[at]) / 2 if at else 0.0
    top = (middles[at] + middles[at + 1]) / 2 if at + 1 < len(middles) else strip.height_mm
    return low, top


def _tab(piece: Piece) -> Iterator[Item]:
    """The tab on the right, which is glued under the next edge."""
    long, high, wide = piece.end - piece.start, piece.strip.height_mm, rule("wrap-tab").value
    yield Path(((long, 0.0), (long + wide, 0.0), (long + wide, high), (long, high)), _TAB)
    under = "left edge" if piece.number == piece.count else f"piece {piece.number + 1}"
    if piece.count > 1 and piece.number == piece.count:
        under = "piece 1"
    words = shortened(f"glue under {under}", high - 2.0, _SMALL)
    yield Text((long + wide / 2 + 0.7, high / 2), words, _SMALL, "middle", 90.0, colour=GREY)


def _edge_words(piece: Piece, units: str) -> Iterator[Text]:
    """Tube and station at the edge that is laid there."""
    strip = piece.strip
    rows = [
        "arrow: to its start",
        strip.tube.name,
        f"this edge at {station_said(strip.tube, strip.edge_mm, units)}",
    ]
    lowest = strip.height_mm - WORDS + 0.9 if strip.by_upper else 5.6
    room = piece.end - piece.start - _ARROW_ROOM - 0.6
    for number, words in enumerate(rows if not strip.by_upper else (rows[2], *rows[:2])):
        bold, y = words == strip.tube.name, lowest + _ROW * (2 - number)
        short = words if width(words, _SMALL, bold) <= room else words.removeprefix("this edge at ")
        if width(short, _SMALL, bold) <= room:
            yield Text((_ARROW_ROOM, y), short, _SMALL, bold=bold)


def _zero_words(piece: Piece) -> Iterator[Text]:
    """What 12:00 is, at the other edge."""
    strip, long = piece.strip, piece.end - piece.start
    x = _seen(piece, 0.0)
    if x is None:
        return
    words = f"12:00 {strip.zero.zero_is}"
    y = BEYOND - _SMALL - 1.0 if strip.by_upper else strip.height_mm - BEYOND + 1.0
    yield from _beside(words, x, y, long)


def _band_words(piece: Piece, loop: Loop, units: str) -> Iterator[Text]:
    """In the band: the clamp, its station, and the hours of feet and flat face."""
    strip, long = piece.strip, piece.end - piece.start
    high = loop.clamp.band_width_mm
    y = strip.up(loop.station_mm) + high / 2
    name = f"{loop.label} at {station_said(strip.tube, loop.station_mm, units)}"
    for words in (name, loop.label):
        if width(words, _LABEL, True) <= long - 2.0:
            yield Text((1.0, y - high * 0.3), words, _LABEL, bold=True)
            break
    for share, what, found in ((0.62, "feet", feet_clock(loop)), (0.9, "face", face_clock(loop))):
        x = _seen(piece, found.deg)
        if x is not None:
            yield from _beside(_hour_words(what, found), x, y - high * share, long)


def _hour_words(what: str, found: Clock) -> str:
    return f"{what} {found.hours}"


def _beside(words: str, x: float, y: float, long: float) -> Iterator[Text]:
    """A text to the right of a line along the tube, else to its left, else none."""
    wide = width(words, _SMALL)
    if x + 0.9 + wide <= long - 0.6:
        yield Text((x + 0.9, y), words, _SMALL)
    elif x - 0.9 - wide >= 0.6:
        yield Text((x - 0.9, y), words, _SMALL, "right")


def _white(text: Text) -> Path:
    """Clear ground behind a text."""
    return box_path(ground(text), None, WHITE)


def _arrow(piece: Piece) -> Iterator[Item]:
    """An arrow that points to the tube's start, where there is room for it."""
    strip, long = piece.strip, piece.end - piece.start
    if long < 2 * _ARROW_ROOM:
        return
    x, middle = 2.4, (strip.height_mm - 8.6 if strip.by_upper else 8.9)
    tip, tail = middle - 2.9, middle + 2.9
    yield Path(((x, tail), (x, tip)), Pen(0.4))
    yield Path(((x, tip - 0.6), (x - 0.9, tip + 1.6), (x + 0.9, tip + 1.6)), None, True, BLACK)


__all__ = ["BAND_EDGE", "CUT", "FACE", "FEET", "WORDS", "piece_items"]
