"""Whether a drawing says every hole of its part once: read from what is printed and drawn on its pages."""

from __future__ import annotations

import re

from clampwright.layout.shop.told import FlatPart
from clampwright.sheets.drawing import Circle, Dimension, Page, Sheet, Text

MM = {"mm": 1.0, "in": 25.4}
HALF_STEP = {"mm": 0.0051, "in": 0.00051 * 25.4}
"""Rounding of a table's coordinates, mm."""


def holes_said_once(part: FlatPart, sheet: Sheet) -> list[str]:
    """What is wrong: holes not placed, placed twice or elsewhere, and counts that do not add up."""
    rows = table_rows(sheet, part)
    wrong = [] if counted(part, sheet) == len(part.holes) else ["the counts do not add up"]
    across, along = placed_in_view(part, sheet)
    for hole in part.holes:
        listed = [at for label, at in rows if label == hole.label]
        off = [max(abs(a - b) for a, b in zip(at, hole.at, strict=True)) for at in listed]
        drawn = [sum(abs(v - hole.at[k]) < 1e-6 for v in seen) for k, seen in ((0, across), (1, along))]
        if listed and (len(listed) > 1 or off[0] > HALF_STEP[part.units]):
            wrong.append(f"{hole.label}: its row is {listed}")
        if listed and drawn != [0, 0]:
            wrong.append(f"{hole.label}: in the table and in the view")
        if not listed and drawn != [1, 1]:
            wrong.append(f"{hole.label}: placed {drawn} times in the view")
    return wrong


def table_rows(sheet: Sheet, part: FlatPart) -> list[tuple[str, tuple[float, float]]]:
    """Rows of the table of hole places: label, and coordinates in mm from the first two columns."""
    found = []
    labels = {hole.label for hole in part.holes}
    for page in sheet.pages:
        texts = [item for item in page.items if isinstance(item, Text)]
        for first in texts:
            if first.text in labels and first.bold and first.anchor == "left":
                row = sorted((t for t in texts if t.at[1] == first.at[1]), key=lambda t: t.at[0])
                row = [t for t in row if t.at[0] > first.at[0]]
                if len(row) >= 2 and all(re.fullmatch(r"-?[\d.]+", t.text) for t in row[:2]):
                    x, y = (float(t.text) * MM[part.units] for t in row[:2])
                    found.append((first.text, (x, y)))
    return found


def placed_in_view(part: FlatPart, sheet: Sheet) -> tuple[list[float], list[float]]:
    """Coordinates from the datum edges that dimensions give, whose far end is the centre of a hole drawn."""
    found: tuple[list[float], list[float]] = ([], [])
    for page in sheet.pages:
        for dimension in page.dimensions:
            if dimension.kind in ("horizontal", "vertical") and _at_a_hole(dimension, page, part):
                found[0 if dimension.kind == "horizontal" else 1].append(dimension.value)
    return found


def counted(part: FlatPart, sheet: Sheet) -> int:
    """Sum of the counts of the groups: of the size table's rows, "6x"."""
    texts = [item for page in sheet.pages for item in page.items if isinstance(item, Text)]
    return sum(int(t.text[:-1]) for t in texts if re.fullmatch(r"\d+x", t.text))


def _at_a_hole(dimension: Dimension, page: Page, part: FlatPart) -> bool:
    far = dimension.points[1]
    radii = {round(hole.diameter_mm / 2 * dimension.scale, 6) for hole in part.holes}
    return any(
        isinstance(item, Circle)
        and round(item.radius, 6) in radii
        and max(abs(a - b) for a, b in zip(item.centre, far, strict=True)) < 1e-6
        for item in page.items
    )
