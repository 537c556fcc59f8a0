"""2-D primitives, in millimetres on the page, y up from the bottom left corner."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from clampwright.quantities import Vec2

Box = tuple[float, float, float, float]
"""(x_min, y_min, x_max, y_max), mm."""

Colour = str
"""Hex, "#rrggbb"."""


@dataclass(frozen=True, slots=True)
class Pen:
    """Line width in mm, colour, and dash pattern in mm (empty: solid)."""

    width_mm: float = 0.25
    colour: Colour = "#000000"
    dash_mm: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Path:
    """Open or closed chain of points."""

    points: tuple[Vec2, ...]
    pen: Pen | None = Pen()
    closed: bool = False
    fill: Colour | None = None


@dataclass(frozen=True, slots=True)
class Circle:
    """Full circle."""

    centre: Vec2
    radius: float
    pen: Pen | None = Pen()
    fill: Colour | None = None


@dataclass(frozen=True, slots=True)
class ArcPath:
    """Arc round `centre`, counter-clockwise from `start_deg` to `end_deg`."""

    centre: Vec2
    radius: float
    start_deg: float
    end_deg: float
    pen: Pen = Pen()


@dataclass(frozen=True, slots=True)
class Text:
    """A line of text; `size_mm` is the height of the em."""

    at: Vec2
    text: str
    size_mm: float = 3.0
    anchor: Literal["left", "middle", "right"] = "left"
    angle_deg: float = 0.0
    bold: bool = False
    colour: Colour = "#000000"


Item = Path | Circle | ArcPath | Text


@dataclass(frozen=True, slots=True)
class Dimension:
    """A dimension as it stands on the page: what it measures, what it says, and how it is drawn."""

    kind: Literal["horizontal", "vertical", "aligned", "diameter", "radius", "angle"]
    points: tuple[Vec2, ...]
    """On the page, mm. Lengths: the two ends. Diameter and radius: centre, then a point of the rim.
    Angle: vertex, then a point on either side, counter-clockwise."""
    value: float
    """True size, mm; of an angle, radians."""
    text: str
    """As it is printed, whole: count, sign, value, limits."""
    scale: float
    """Millimetres on the page for one of the part."""
    strokes: tuple[Item, ...]
    """Its lines, arrows and text as drawn."""


@dataclass(frozen=True, slots=True)
class Page:
    """One page of a sheet."""

    title: str
    width_mm: float
    height_mm: float
    items: tuple[Item, ...]
    stretch: Vec2 = (1.0, 1.0)
    """Factors across and along by which a writer enlarges the items about the middle of the page, so that
    a printer that shrinks by as much puts them on paper where the items say."""
    dimensions: tuple[Dimension, ...] = ()
    """Drawn over the items."""

    def drawn(self) -> tuple[Item, ...]:
        """All that is to be drawn, in order: the items, then every dimension's strokes."""
        return (*self.items, *(stroke for each in self.dimensions for stroke in each.strokes))


@dataclass(frozen=True, slots=True)
class Sheet:
    """A document of pages. `true_scale`: what is drawn is 1:1 and must be printed so."""

    name: str
    title: str
    pages: tuple[Page, ...]
    true_scale: bool


def moved(items: Iterable[Item], by: Vec2) -> tuple[Item, ...]:
    """The items, displaced.

    Examples
    --------
    >>> moved([Circle((1.0, 2.0), 3.0)], (10.0, 0.0))[0].centre
    (11.0, 2.0)
    """
    return tuple(_moved(item, by) for item in items)


def _moved(item: Item, by: Vec2) -> Item:
    """Spelled out: `replace` takes six times as long, and a build moves thousands."""
    dx, dy = by
    if isinstance(item, Text):
        at = (item.at[0] + dx, item.at[1] + dy)
        return Text(at, item.text, item.size_mm, item.anchor, item.angle_deg, item.bold, item.colour)
    if isinstance(item, Path):
        return Path(tuple([(x + dx, y + dy) for x, y in item.points]), item.pen, item.closed, item.fill)
    return replace(item, centre=(item.centre[0] + dx, item.centre[1] + dy))


def box_path(box: Box, pen: Pen | None = Pen(), fill: Colour | None = None) -> Path:
    """The rectangle of a box."""
    x0, y0, x1, y1 = box
    return Path(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), pen, closed=True, fill=fill)
