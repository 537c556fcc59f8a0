"""Pictures for reading: hidden-line views and sheet pages, as one page of lines."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Protocol

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Colour, Page, Path, Pen, Text
from clampwright.sheets.ink import GREY
from clampwright.sheets.lettering import shortened

_MARGIN = 4.0
_CAPTION = 3.4
_SEEN_MM, _SMOOTH_MM, _HIDDEN_MM = 0.3, 0.15, 0.13
_HIDDEN_DASH = (1.2, 0.9)

Chain = Sequence[Vec2]
"""Points of one edge in a view, mm: x to the right, y up."""


class Edges(Protocol):
    """The edges of one body in a view, as `solids` draws them."""

    @property
    def ink(self) -> str:
        """Colour of its lines, "#rrggbb"."""

    @property
    def seen(self) -> Sequence[Chain]:
        """Sharp edges and outlines that are seen."""

    @property
    def smooth(self) -> Sequence[Chain]:
        """Seen edges between faces that pass smoothly into each other."""

    @property
    def hidden(self) -> Sequence[Chain]:
        """Edges behind something."""


@dataclass(frozen=True, slots=True)
class Strokes:
    """Chains drawn with one pen."""

    chains: tuple[tuple[Vec2, ...], ...]
    pen: Pen


def picture(title: str, strokes: Iterable[Strokes], width_mm: float = 160.0, caption: str = "") -> Page:
    """A page as wide as asked with everything on it, as high as it needs, at most about as high as wide.

    `caption` stands below.

    Raises
    ------
    ValueError
        Where there is nothing to draw.

    Examples
    --------
    >>> square = ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (0.0, 2.0), (0.0, 0.0))
    >>> page = picture("a square", [Strokes((square,), Pen())], width_mm=88.0)
    >>> page.width_mm, page.height_mm, page.items[0].points[2]
    (88.0, 48.0, (84.0, 44.0))
    """
    held = tuple(strokes)
    points = [point for stroke in held for chain in stroke.chains for point in chain]
    if not points:
        raise ValueError("nothing to draw")
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    low, high = min(y for _, y in points), max(y for _, y in points)
    room = width_mm - 2 * _MARGIN
    scale = room / max(right - left, high - low, 1e-9)
    foot = _MARGIN + (2 * _CAPTION if caption else 0.0)
    aside = (width_mm - scale * (right - left)) / 2

    def place(point: Vec2) -> Vec2:
        return aside + scale * (point[0] - left), foot + scale * (point[1] - low)

    paths = tuple(
        Path(tuple(place(point) for point in chain), stroke.pen) for stroke in held for chain in stroke.chains
    )
    height = foot + scale * (high - low) + _MARGIN
    words = shortened(caption, room, _CAPTION)
    text = (
        (Text((width_mm / 2, _MARGIN + _CAPTION / 4), words, _CAPTION, "middle", colour=GREY),)
        if caption
        else ()
    )
    return Page(title, width_mm, height, (*paths, *text))


def view_strokes(bodies: Iterable[Edges], colour: Colour | None = None) -> tuple[Strokes, ...]:
    """The strokes of a hidden-line view: hidden edges first, thin and dashed, then smooth, then seen ones.

    Parameters
    ----------
    bodies
        Edges by body, as `solids.views.draw` returns them.
    colour
        One colour for all; left out: each body's own.
    """
    held = tuple(bodies)

    def pens(body: Edges, width: float, dash: tuple[float, ...] = ()) -> Pen:
        return Pen(width, colour or body.ink, dash)

    layers = (
        [(body.hidden, pens(body, _HIDDEN_MM, _HIDDEN_DASH)) for body in held],
        [(body.smooth, pens(body, _SMOOTH_MM)) for body in held],
        [(body.seen, pens(body, _SEEN_MM)) for body in held],
    )
    return tuple(
        Strokes(tuple(tuple(chain) for chain in chains), pen)
        for layer in layers
        for chains, pen in layer
        if chains
    )
