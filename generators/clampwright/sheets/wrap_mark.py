"""The tube's own mark on a wrap: a line of dots where it falls on the strip, and its word beside it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice

from clampwright.sheets.drawing import Box, Item, Path, Pen, Text
from clampwright.sheets.ink import BLACK
from clampwright.sheets.lettering import width
from clampwright.sheets.wrap_strip import Piece

MARK = Pen(0.5, BLACK, (0.5, 1.1))
_SIZE, _PAD = 2.1, 0.4


def mark_line(piece: Piece) -> Iterator[Item]:
    """The line of the tube's mark, round the tube."""
    y, long = piece.strip.mark_up_mm, piece.end - piece.start
    if y is not None:
        yield Path(((0.0, y), (long, y)), MARK)


def mark_words(piece: Piece, others: Sequence[Text]) -> Iterator[Text]:
    """ "mark" at its line, over or under it, where no other text stands; none where there is no such room."""
    y, long, high = piece.strip.mark_up_mm, piece.end - piece.start, piece.strip.height_mm
    if y is None:
        return
    taken, steps = [ground(text) for text in others], int(long)
    ends = ((long - 1.0 - x, low) for x in range(steps) for low in (y + 0.9, y - _SIZE - 0.2))
    texts = (Text(at, "mark", _SIZE, "right", bold=True) for at in ends)
    inside = (text for text in texts if _within(ground(text), (0.0, 0.0, long, high)))
    yield from islice((text for text in inside if not any(_meet(ground(text), box) for box in taken)), 1)


def _within(box: Box, room: Box) -> bool:
    return box[0] >= room[0] and box[1] >= room[1] and box[2] <= room[2] and box[3] <= room[3]


def _meet(a: Box, b: Box) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def ground(text: Text) -> Box:
    """The room of a text that is not turned."""
    wide, size = width(text.text, text.size_mm, text.bold), text.size_mm
    x = text.at[0] - {"left": 0.0, "middle": wide / 2, "right": wide}[text.anchor]
    y = text.at[1]
    return x - _PAD, y - 0.21 * size, x + wide + _PAD, y + 0.75 * size
