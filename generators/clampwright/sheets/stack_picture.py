"""The picture of one bolt with everything on it: head, washers, layers and nut in order, to scale, named."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from clampwright.layout.placed import Stack, StackItem
from clampwright.quantities import Vec2, show_length
from clampwright.sheets.drawing import Box, Item, Path, Text
from clampwright.sheets.figures import figure
from clampwright.sheets.flow import LEADING
from clampwright.sheets.ink import FINE, GREY, SMALL
from clampwright.sheets.lettering import shortened, wrap
from clampwright.sheets.scales import scale_to_fit, scale_words
from clampwright.sheets.spread import spread
from clampwright.sheets.stack_shapes import Sizes, Upright, half_width, sizes, stack_shapes
from clampwright.trade.bolts import bolt_names

_DRAWING_SHARE = 0.42
"""Most of the box's width that the drawing itself takes."""

_FOOT = 4.0
"""Room under the drawing for its scale."""

_KNEE, _SLANT, _AIR = 1.2, 4.5, 0.8
_MOST_HIGH = 74.0
_PAD = 1.0


@dataclass(frozen=True, slots=True)
class _Named:
    """What a label says, and which place of the stack it belongs to (across, depth), mm."""

    text: str
    at: Vec2


def stack_picture(stack: Stack, box: Box, units: str, names: Sequence[str] = ()) -> tuple[Item, ...]:
    """A stack in a box of the page: the bolt upright, its head above, each layer named beside it.

    Parameters
    ----------
    stack
        The layers from the head, the nut, and the bolt; without a chosen bolt it is drawn dashed.
    box
        Room on the page, mm; nothing is drawn outside.
    units
        "mm" or "in", of the figures.
    names
        What each layer is called, where more is known than the layer itself says: one for each, "" for none.

    Examples
    --------
    >>> from clampwright.layout.stacks import build_stack, clamp_items
    >>> from clampwright.trade.hardware import nut
    >>> built = build_stack("AN3", clamp_items(2.286, (), 3.213, "AN3"), nut("MS21044", "AN3"))
    >>> [i.text for i in stack_picture(built, (0, 0, 90, 60), "in") if isinstance(i, Text)][-1]
    'scale 2:1'
    """
    size = sizes(stack)
    x0, y0, x1, y1 = box
    scale = stack_scale(size, (x1 - x0, y1 - y0))
    wide, high = scale * size.wide, scale * size.high
    left = x0 + _PAD
    axis = left + scale * size.left
    spare = (y1 - y0 - _FOOT - high) / 2
    view = Upright((axis, y1 - spare - scale * size.head_high), scale)
    knee = left + wide + _KNEE
    labels = _labels(_named(stack, size, units, names), view, (knee, y0 + _FOOT, x1, y1))
    scaled = Text((left, y0 + 0.9), f"scale {scale_words(scale)}", SMALL, colour=GREY)
    return (*stack_shapes(stack, size, view), *labels, scaled)


def picture_height(stack: Stack, width_mm: float, units: str, names: Sequence[str] = ()) -> float:
    """Height of the box for a stack's picture: as large as it may be drawn, with room for its labels."""
    size = sizes(stack)
    scale = stack_scale(size, (width_mm, _MOST_HIGH))
    room = width_mm - _PAD - scale * size.wide - _KNEE - _SLANT - _AIR
    lines = sum(len(wrap(n.text, room, SMALL)) for n in _named(stack, size, units, names))
    gaps = (len(stack.items) + 3) * _AIR
    return max(scale * size.high, lines * SMALL * LEADING + gaps) + _FOOT + 1.0


def stack_scale(size: Sizes, room: Vec2) -> float:
    """The scale that a stack is drawn to in so much room."""
    return scale_to_fit((size.wide, size.high), (_DRAWING_SHARE * room[0], room[1] - _FOOT))


def _named(stack: Stack, size: Sizes, units: str, names: Sequence[str]) -> list[_Named]:
    named = [_Named(_head_words(stack, units), (size.head_across / 2, -size.head_high / 2))]
    depth = 0.0
    given = (*names, *[""] * len(stack.items))
    for item, name in zip(stack.items, given, strict=False):
        thick = item.thickness_mm * item.count
        place = (half_width(item, size), depth + thick / 2)
        named.append(_Named(name or layer_words(item, units), place))
        depth += thick
    named.append(_Named(_nut_words(stack, size, units), (size.nut_across / 2, depth + size.nut_high / 2)))
    if stack.chosen is not None and size.end > depth + size.nut_high:
        named.append(_Named(_end_words(stack), (size.shank / 2, size.end - 0.2)))
    return named


def layer_words(item: StackItem, units: str) -> str:
    """A layer's count, name, part and thickness, none of them twice; made lengths in both units.

    Examples
    --------
    >>> layer_words(StackItem("washers", "AN960-10", 1.6, count=2), "mm")
    '2 x washers AN960-10, 1.60 mm each'
    >>> layer_words(StackItem("plate", "plate", 2.286), "in")
    'plate, 0.090 in'
    """
    count = f"{item.count} x " if item.count > 1 else ""
    name = item.part if item.part.startswith(item.name) else f"{item.name} {item.part}".strip()
    each = " each" if item.count > 1 else ""
    if figure(item.thickness_mm, units) in item.part:
        return f"{count}{name}{each}"
    return f"{count}{name}, {show_length(item.thickness_mm, units)}{each}"


def _head_words(stack: Stack, units: str) -> str:
    if stack.chosen is None:
        known = stack.bolt in bolt_names()
        return f"bolt: none of {stack.bolt} fits" if known else f"{stack.bolt}: choose its length by hand"
    length = stack.chosen.length
    grip, long = (show_length(mm, units) for mm in (length.grip_mm, length.length_mm))
    unfit = "" if stack.chosen.fits else "; does not fit, see the findings"
    return f"{length.part}: grip {grip}, length {long}{unfit}"


def _nut_words(stack: Stack, size: Sizes, units: str) -> str:
    if size.nut_known:
        return f"nut {stack.nut.part}, {show_length(size.nut_high, units)} high"
    return f"nut {stack.nut.part}: height not known, drawn dashed as {show_length(size.nut_high, units)}"


def _end_words(stack: Stack) -> str:
    showing = stack.chosen.threads_showing if stack.chosen is not None else None
    return "bolt's end" if showing is None else f"bolt's end, {showing:.1f} threads past the nut"


def _labels(named: Sequence[_Named], view: Upright, box: Box) -> list[Item]:
    """The labels under one another right of the drawing, each with its leader; `box` begins at the knees."""
    knee, low, right, high = box
    left = knee + _SLANT + _AIR
    size, lines = _lettered([n.text for n in named], right - left, high - low)
    heights = [len(each) * size * LEADING + _AIR for each in lines]
    targets = [view.at(*n.at) for n in named]
    middles = spread([y for _, y in targets], heights, low, high)
    items: list[Item] = []
    for (x, y), middle, each, tall in zip(targets, middles, lines, heights, strict=True):
        items.append(Path(((x, y), (knee, y), (knee + _SLANT, middle)), FINE))
        top = middle + tall / 2 - _AIR / 2
        items += [Text((left, top - size * (0.82 + LEADING * n)), text, size) for n, text in enumerate(each)]
    return items


def _lettered(texts: Sequence[str], room: float, high: float) -> tuple[float, list[tuple[str, ...]]]:
    """Letter size and lines: whole, or each cut to a line, or smaller still, so that they fit."""
    whole = [wrap(text, room, SMALL) for text in texts]
    if sum(len(each) for each in whole) * SMALL * LEADING + len(texts) * _AIR <= high:
        return SMALL, whole
    size = min(SMALL, (high / len(texts) - _AIR) / LEADING)
    return size, [(shortened(text, room, size),) for text in texts]
