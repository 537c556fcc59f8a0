"""Dimensions of a page as native DIMENSION entities: they measure the paper, their style has the scale."""

from __future__ import annotations

import math
from typing import Any, Protocol

from clampwright.files.drawing_layers import DIMENSION
from clampwright.files.dxf_document import Document
from clampwright.quantities import Vec2
from clampwright.sheets import letter_widths
from clampwright.sheets.drawing import ArcPath, Dimension, Item, Path, Text
from clampwright.sheets.lettering import corners, printable

LINEAR, ALIGNED, DIAMETER, RADIUS, ANGLE = 0, 1, 3, 4, 5
"""Types of dimension (DXF reference, group 70)."""
_OWN_BLOCK, _TEXT_PLACED = 32, 128
_MIDDLE = 5
_ABOVE, _POINT = 1, ord(".")
_PARALLEL = 1e-6


class _Draws(Protocol):
    def draw(self, space: Any, item: Item, layer: str = "") -> None: ...


def add_dimension(document: Document, dimension: Dimension, left: float, ink: _Draws) -> None:
    """Add a dimension of a page that stands `left` mm to the right to model space.

    Its block holds the strokes of the page. `get_measurement()` of the entity times DIMLFAC of its style is
    the true size; of an angle it is the angle.
    """
    block = document.blocks.new_anonymous_block(type_char="D")
    for stroke in dimension.strokes:
        ink.draw(block, stroke, DIMENSION)
    points = {name: (x + left, y) for name, (x, y) in _definition(dimension).items()}
    x, y = _text_middle(dimension)
    document.modelspace().new_entity(
        "DIMENSION",
        {
            "layer": DIMENSION,
            "geometry": block.name,
            "dimtype": _TYPES[dimension.kind] | _OWN_BLOCK | _TEXT_PLACED,
            "dimstyle": _style(document, dimension),
            "text": spelled(dimension.text),
            "text_midpoint": (x + left, y),
            "attachment_point": _MIDDLE,
            "actual_measurement": dimension.value,
            **points,
            **({"angle": 90.0} if dimension.kind == "vertical" else {}),
        },
    )


_TYPES = {
    "horizontal": LINEAR,
    "vertical": LINEAR,
    "aligned": ALIGNED,
    "diameter": DIAMETER,
    "radius": RADIUS,
    "angle": ANGLE,
}


def spelled(text: str) -> str:
    """A dimension's text whose signs mean only themselves: the format reads braces and backslashes as codes.

    >>> spelled("Ø 4.9 {2x}")
    'Ø 4.9 \\\\{2x\\\\}'
    """
    words = printable(text)
    for sign in ("\\", "{", "}"):
        words = words.replace(sign, "\\" + sign)
    return words.replace("^", "^ ").replace("<>", "< >")


def _definition(dimension: Dimension) -> dict[str, Vec2]:
    """Definition points of the entity by name."""
    first, second, *third = dimension.points
    if dimension.kind == "diameter":
        return {"defpoint4": second, "defpoint": (2 * first[0] - second[0], 2 * first[1] - second[1])}
    if dimension.kind == "radius":
        return {"defpoint": first, "defpoint4": second}
    if dimension.kind == "angle":
        arc = _on_arc(dimension, first, second, third[0])
        return {"defpoint": arc, "defpoint2": second, "defpoint3": third[0], "defpoint4": first}
    return {"defpoint": _on_line(dimension, first, second), "defpoint2": first, "defpoint3": second}


def _on_line(dimension: Dimension, first: Vec2, second: Vec2) -> Vec2:
    """Where the second end meets the dimension line: the longest stroke along what is measured."""
    along = _direction(dimension, first, second)
    lines = [
        (math.dist(a, b), a)
        for a, b in _straight(dimension)
        if abs((b[0] - a[0]) * along[1] - (b[1] - a[1]) * along[0]) <= _PARALLEL * max(1.0, math.dist(a, b))
    ]
    if not lines:
        return second
    _, on = max(lines)
    off = (on[0] - second[0]) * -along[1] + (on[1] - second[1]) * along[0]
    return second[0] - off * along[1], second[1] + off * along[0]


def _direction(dimension: Dimension, first: Vec2, second: Vec2) -> Vec2:
    if dimension.kind == "horizontal":
        return 1.0, 0.0
    if dimension.kind == "vertical":
        return 0.0, 1.0
    long = math.dist(first, second) or 1.0
    return (second[0] - first[0]) / long, (second[1] - first[1]) / long


def _straight(dimension: Dimension) -> list[tuple[Vec2, Vec2]]:
    paths = [each for each in dimension.strokes if isinstance(each, Path) and each.fill is None]
    return [(each.points[0], each.points[1]) for each in paths if len(each.points) == 2]


def _on_arc(dimension: Dimension, vertex: Vec2, one: Vec2, other: Vec2) -> Vec2:
    """The middle of the dimension's arc."""
    arcs = [each.radius for each in dimension.strokes if isinstance(each, ArcPath)]
    radius = max(arcs, default=(math.dist(vertex, one) + math.dist(vertex, other)) / 2)
    start = math.atan2(one[1] - vertex[1], one[0] - vertex[0])
    end = math.atan2(other[1] - vertex[1], other[0] - vertex[0])
    middle = start + (end - start) % (2 * math.pi) / 2
    return vertex[0] + radius * math.cos(middle), vertex[1] + radius * math.sin(middle)


def _text_middle(dimension: Dimension) -> Vec2:
    """Middle of the first of its texts; of what it measures where nothing is printed."""
    texts = [each for each in dimension.strokes if isinstance(each, Text)]
    around = corners(texts[0]) if texts else dimension.points
    return sum(p[0] for p in around) / len(around), sum(p[1] for p in around) / len(around)


def _style(document: Document, dimension: Dimension) -> str:
    """The dimension style of its scale, made where it is not there yet."""
    factor = 1.0 / dimension.scale
    name = f"SCALE-{dimension.scale:.6g}".replace(".", "_")
    if name not in document.dimstyles:
        style = document.dimstyles.new(name)
        style.dxf.dimlfac, style.dxf.dimtxsty = factor, "LETTERS"
        sizes = [each.size_mm for each in dimension.strokes if isinstance(each, Text)]
        high = letter_widths.ASCENT / 1000 * (sizes[0] if sizes else 3.5)
        style.dxf.dimtxt = style.dxf.dimasz = high
        style.dxf.dimtad, style.dxf.dimdsep, style.dxf.dimdec = _ABOVE, _POINT, 3
        style.dxf.dimtih = style.dxf.dimtoh = 0
    return name
