"""Sheets that drawings stand on: size, border, drawing space, grid reference, widths of lines."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from clampwright.recipe.model import Shop
from clampwright.sheets.drawing import Box
from clampwright.trade.tables import Row, load

_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ"
"""I and O are left out: they are read as figures."""


@dataclass(frozen=True, slots=True)
class Zone:
    """A field of the grid reference along one edge: its name, and where it begins and ends, mm."""

    name: str
    start: float
    end: float


@dataclass(frozen=True, slots=True)
class DrawingSheet:
    """A drawing sheet as it lies before the eye, trimmed."""

    name: str
    """"A3" (ISO) or "B" (ANSI)."""
    standard: str
    """"iso" or "ansi"."""
    width_mm: float
    height_mm: float
    landscape: bool
    space: Box
    """The drawing space, inside the frame."""
    columns: tuple[Zone, ...]
    """Fields from left to right; none where the standard asks for none."""
    rows: tuple[Zone, ...]
    """Fields from bottom to top."""
    wide_mm: float
    """Width of outlines."""
    narrow_mm: float
    """Width of dimension, hidden, centre and hatch lines."""
    source: str
    """A key of sources.toml."""

    @property
    def said(self) -> str:
        """Name and size as a title block says it.

        >>> drawing_sheet("A3").said, drawing_sheet("B").said
        ('A3, 420 x 297 mm', 'B, 17 x 11 in')
        """
        per, unit = (25.4, "in") if self.standard == "ansi" else (1.0, "mm")
        return f"{self.name}, {self.width_mm / per:g} x {self.height_mm / per:g} {unit}"


def drawing_sheet(name: str) -> DrawingSheet:
    """The sheet by its name.

    Parameters
    ----------
    name : str
        "A4" (upright), "A3", "A2", "A1", "A0" of ISO 5457; "A" (upright), "B", "C", "D" of ASME Y14.1.

    Raises
    ------
    KeyError
        For a sheet that the tables do not know.

    Examples
    --------
    >>> drawing_sheet("A3").space
    (20.0, 10.0, 410.0, 287.0)
    """
    return _sheets()[name]


def sheets_of(shop: Shop) -> tuple[DrawingSheet, ...]:
    """The sheets that a shop's drawings may stand on, smallest first.

    Examples
    --------
    >>> from clampwright.recipe.shop import usual_shop
    >>> [sheet.name for sheet in sheets_of(usual_shop("in"))]
    ['A', 'B', 'C', 'D']
    """
    found = [sheet for sheet in _sheets().values() if sheet.standard == shop.drawing]
    return tuple(sorted(found, key=lambda sheet: sheet.width_mm * sheet.height_mm))


@cache
def _sheets() -> dict[str, DrawingSheet]:
    standards = ("iso", "ansi")
    sheets = [_sheet(row, name) for name in standards for row in load(f"drawing_sheets_{name}").rows]
    return {sheet.name: sheet for sheet in sheets}


def _sheet(row: Row, standard: str) -> DrawingSheet:
    wide, high = row.number("width"), row.number("height")
    left, right, bottom, top = (row.number(f"frame_{side}") for side in ("left", "right", "bottom", "top"))
    space = (left, bottom, wide - right, high - top)
    columns, rows = _zones(row, space)
    return DrawingSheet(
        name=row.text("name"),
        standard=standard,
        width_mm=wide,
        height_mm=high,
        landscape=wide > high,
        space=space,
        columns=columns if standard == "iso" else _renamed(columns),
        rows=_renamed(rows) if standard == "iso" else rows,
        wide_mm=row.number("line_wide"),
        narrow_mm=row.number("line_narrow"),
        source=row.source(),
    )


def _zones(row: Row, space: Box) -> tuple[tuple[Zone, ...], tuple[Zone, ...]]:
    """Columns numbered from the left, rows lettered from the bottom."""
    columns, rows = row.whole("field_columns"), row.whole("field_rows")
    if not columns:
        return (), ()
    across = _fields(row.number("width"), row.number("field_length"), columns, space[0], space[2])
    along = _fields(row.number("height"), row.number("field_height"), rows, space[1], space[3])
    numbered = tuple(Zone(str(n), *ends) for n, ends in enumerate(across, 1))
    return numbered, tuple(Zone(letter, *ends) for letter, ends in zip(_LETTERS, along, strict=False))


def _fields(size: float, long: float, count: int, start: float, end: float) -> list[tuple[float, float]]:
    """Fields of one length from the middle of the sheet outwards; those at the corners run to the frame."""
    inner = [size / 2 + long * (n - count / 2) for n in range(1, count)]
    return list(zip([start, *inner], [*inner, end], strict=True))


def _renamed(zones: tuple[Zone, ...]) -> tuple[Zone, ...]:
    """The same fields, named from the other end."""
    names = [zone.name for zone in reversed(zones)]
    return tuple(Zone(name, zone.start, zone.end) for name, zone in zip(names, zones, strict=True))
