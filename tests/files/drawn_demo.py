"""A sheet of two pages with one of everything that a page can hold, at two scales, drawn by hand."""

from __future__ import annotations

import math

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import (
    ArcPath,
    Circle,
    Dimension,
    Item,
    Page,
    Path,
    Pen,
    Sheet,
    Text,
    box_path,
)

WIDE, HIGH = 210.0, 150.0
THIN, OUTLINE, FRAME = Pen(0.18), Pen(0.5), Pen(0.7)
HIDDEN, CENTRE = Pen(0.25, dash_mm=(3.0, 1.0)), Pen(0.18, dash_mm=(5.0, 1.0, 0.8, 1.0))
RED, GREY = "#b3261e", "#6b6b6b"
ODD = "DO NOT MAKE 50%% ^ 漢 ő"
"""Signs that the format reads as codes, and letters that the printed sheet does not have."""


def arrow(tip: Vec2, way: Vec2) -> Path:
    """A filled arrow's head."""
    (x, y), (dx, dy) = tip, way
    barbs = ((x - 3 * dx - dy / 2, y - 3 * dy + dx / 2), (x - 3 * dx + dy / 2, y - 3 * dy - dx / 2))
    return Path((tip, *barbs), None, closed=True, fill="#000000")


def length(a: Vec2, b: Vec2, scale: float, text: str) -> Dimension:
    """A horizontal dimension 20 mm above its second end."""
    x0, (x1, y1) = a[0], b
    y = y1 + 20.0
    lines = [Path(ends, THIN) for ends in ((a, (x0, y + 2)), (b, (x1, y + 2)), ((x0, y), (x1, y)))]
    heads = (arrow((x0, y), (-1.0, 0.0)), arrow((x1, y), (1.0, 0.0)))
    said = Text(((x0 + x1) / 2, y + 1), text, 3.5, "middle")
    return Dimension("horizontal", (a, b), (x1 - x0) / scale, text, scale, (*lines, *heads, said))


def height(a: Vec2, b: Vec2, scale: float, text: str) -> Dimension:
    """A vertical dimension 15 mm to the left."""
    x = a[0] - 15.0
    line = Path(((x, a[1]), (x, b[1])), THIN)
    said = Text((x - 1, (a[1] + b[1]) / 2), text, 3.5, "middle", 90.0)
    return Dimension("vertical", (a, b), (b[1] - a[1]) / scale, text, scale, (line, said))


SLANT = ((130.0, 20.0), (160.0, 60.0))
SIXTY = (40.0 + 20.0 * math.cos(math.pi / 3), 20.0 + 20.0 * math.sin(math.pi / 3))
DIMENSIONS = (
    length((40.0, 60.0), (120.0, 60.0), 0.5, "160 ± 0.5"),
    height((40.0, 20.0), (40.0, 60.0), 0.5, "80"),
    Dimension(
        *("aligned", SLANT, 50.0, "50 <> \\{a}", 1.0),
        (Path(((134.0, 17.0), (164.0, 57.0)), THIN), Text((152.0, 36.0), "50 <> \\{a}", 3.5, "middle", 53.0)),
    ),
    Dimension(
        *("diameter", ((80.0, 40.0), (90.0, 40.0)), 40.0, "Ø 40", 0.5),
        (Path(((90.0, 40.0), (100.0, 34.0)), THIN), Text((101.0, 33.0), "Ø 40", 3.5)),
    ),
    Dimension(
        *("radius", ((80.0, 40.0), (80.0, 45.0)), 2.5, "R 2.5", 2.0),
        (Path(((80.0, 45.0), (70.0, 52.0)), THIN), Text((69.0, 52.0), "R 2.5", 3.5, "right")),
    ),
    Dimension(
        *("angle", ((40.0, 20.0), (60.0, 20.0), SIXTY), math.pi / 3, "60°", 0.5),
        (ArcPath((40.0, 20.0), 18.0, 0.0, 60.0, THIN), Text((59.0, 27.0), "60°", 3.5)),
    ),
)
ITEMS: tuple[Item, ...] = (
    box_path((10.0, 10.0, 200.0, 140.0), FRAME),
    box_path((40.0, 20.0, 120.0, 60.0), OUTLINE),
    Circle((80.0, 40.0), 10.0, OUTLINE),
    Circle((80.0, 40.0), 5.0, HIDDEN),
    ArcPath((80.0, 40.0), 14.0, 350.0, 40.0, THIN),
    Path(((65.0, 40.0), (95.0, 40.0)), CENTRE),
    Path(((62.0, 24.0), (64.0, 30.0), (66.0, 24.0), (68.0, 30.0)), HIDDEN),
    Path(((20.0, 100.0), (40.0, 100.0)), Pen(0.13, GREY)),
    Text((20.0, 120.0), ODD, 5.0, bold=True, colour=RED),
    Text((150.0, 120.0), "middle turned", 4.0, "middle", 90.0),
    Text((190.0, 20.0), " right ", 3.5, "right"),
    Circle((180.0, 30.0), 4.0, Pen(0.2), "#d9d9d9"),
    Path(((160.0, 70.0), (170.0, 80.0), (180.0, 70.0), (175.0, 60.0), (165.0, 60.0)), THIN, True, RED),
    box_path((185.0, 60.0, 195.0, 65.0), None, GREY),
)
PAGES = (
    Page("one", WIDE, HIGH, ITEMS, dimensions=DIMENSIONS),
    Page("two", WIDE, HIGH, ITEMS[:3], dimensions=DIMENSIONS[:1]),
)
SHEET = Sheet("demo 1234", "Demonstration", PAGES, true_scale=False)
