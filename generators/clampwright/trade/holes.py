"""Holes and drills: windows for each bolt, the drill list, pilots."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from clampwright.quantities.kinds import INCH
from clampwright.trade.fasteners import fastener_names
from clampwright.trade.naming import did_you_mean
from clampwright.trade.tables import Row, load


@dataclass(frozen=True, slots=True)
class Drill:
    """A drill that can be bought. `size` is "#11", "F", "3/16" or "6.6 mm"."""

    size: str
    diameter_mm: float
    source: str


@dataclass(frozen=True, slots=True)
class HoleWindow:
    """Least and greatest diameter of a finished hole for `fastener`, and the drill to use."""

    fastener: str
    low_mm: float
    high_mm: float
    drill: Drill
    source: str
    drill_source: str = ""


def drills(metric: bool | None = None) -> tuple[Drill, ...]:
    """Drills in order of diameter: all, only inch sizes (False) or only metric (True).

    Where two have the same diameter (1/4 and E) the fraction comes first.

    Examples
    --------
    >>> drills(metric=False)[-1].size, len(drills(metric=True))
    ('1', 121)
    """
    return _inch_drills() if metric is False else _metric_drills() if metric else _all_drills()


def drill(size: str) -> Drill:
    """A drill by its size: "#11", "F", "3/16", "3/16 in" or "6.6 mm".

    Raises
    ------
    LookupError
        Where there is no such drill; the message suggests the nearest.

    Examples
    --------
    >>> round(drill("#10").diameter_mm / 25.4, 4), drill("6.6mm").diameter_mm
    (0.1935, 6.6)
    """
    found = _by_size().get(_plain_size(size))
    if found is None:
        raise LookupError(f"no drill {size!r}{_nearest_hint(size)}")
    return found


def nearest_drill(diameter_mm: float, metric: bool | None = None) -> Drill:
    """The drill nearest to a diameter.

    Examples
    --------
    >>> nearest_drill(4.9, metric=False).size, nearest_drill(6.35, metric=False).size
    ('#10', '1/4')
    """
    return min(drills(metric), key=lambda each: abs(each.diameter_mm - diameter_mm))


def hole_window(fastener: str) -> HoleWindow:
    """Window for a bolt ("AN3", "M5") or a screw size ("#8").

    Raises
    ------
    LookupError
        Where no document gives one; the message names the nearest fasteners.

    Examples
    --------
    >>> window = hole_window("AN3")
    >>> round(window.low_mm / 25.4, 3), round(window.high_mm / 25.4, 3), window.drill.size
    (0.191, 0.197, '#11')
    """
    found = _windows().get(fastener)
    if found is None:
        raise LookupError(f"no hole window for {fastener!r}{did_you_mean(fastener, fastener_names())}")
    return found


def pilot_drill(final_mm: float) -> Drill:
    """The pilot drill for a final diameter (common practice).

    Raises
    ------
    LookupError
        For a hole so small that it is drilled at once, or larger than the table of pilots goes.

    Examples
    --------
    >>> pilot_drill(drill("#11").diameter_mm).size
    '#40'
    """
    for row in load("pilots").rows:
        pilot = drill(row.text("pilot"))
        if pilot.diameter_mm < final_mm <= row.number("final_most"):
            return pilot
    raise LookupError(
        f"no pilot for a hole of {final_mm:.2f} mm: drill it at once, or cut it with a saw or jet"
    )


def _plain_size(size: str) -> str:
    """One way of writing a size: "NO. 11", "3/16 in", "6.60mm", "f" as in the table."""
    text = re.sub(r"\s+", " ", size.strip())
    text = re.sub(r"^(?:no\.?|number)\s*(?=\d)", "#", text, flags=re.IGNORECASE)
    text = re.sub(r"^letter\s+", "", text, flags=re.IGNORECASE)
    text = re.sub(r"(?<=\d)\s?(?:in\.?|\"|″)$", "", text)
    metric = re.fullmatch(r"(\d{1,3}(?:\.\d{1,6})?) ?mm", text, re.ASCII)
    if metric:
        tenths = Fraction(metric[1]) * 10
        return f"{float(metric[1]):.1f} mm" if tenths.denominator == 1 else f"{metric[1]} mm"
    return text.upper() if len(text) == 1 else text.replace(" ", "")


def _nearest_hint(size: str) -> str:
    length = re.fullmatch(
        r"(?:(\d{1,3})/(\d{1,3})|(\d{0,3}\.\d{1,6}|\d{1,3}))( mm)?", _plain_size(size), re.ASCII
    )
    if length and int(length[2] or 1):
        number = Fraction(int(length[1]), int(length[2])) if length[1] else Fraction(length[3])
        near = nearest_drill(float(number if length[4] else number * INCH), bool(length[4]))
        return f"; nearest {near.size}"
    return did_you_mean(_plain_size(size), _by_size())


@cache
def _inch_drills() -> tuple[Drill, ...]:
    found = (_drill(row) for row in load("drills_inch").rows)
    return tuple(sorted(found, key=lambda each: (each.diameter_mm, "/" not in each.size)))


@cache
def _metric_drills() -> tuple[Drill, ...]:
    return tuple(
        sorted((_drill(row) for row in load("drills_metric").rows), key=lambda each: each.diameter_mm)
    )


@cache
def _all_drills() -> tuple[Drill, ...]:
    return tuple(sorted((*_inch_drills(), *_metric_drills()), key=lambda each: each.diameter_mm))


@cache
def _by_size() -> dict[str, Drill]:
    return {each.size: each for each in _all_drills()}


def _drill(row: Row) -> Drill:
    return Drill(row.text("size"), row.number("diameter"), row.source())


@cache
def _windows() -> dict[str, HoleWindow]:
    rows = [*load("hole_windows").rows, *load("hole_windows_metric").rows]
    return {row.text("fastener"): _window(row) for row in rows}


def _window(row: Row) -> HoleWindow:
    return HoleWindow(
        fastener=row.text("fastener"),
        low_mm=row.number("low"),
        high_mm=row.number("high"),
        drill=drill(row.text("drill")),
        source=row.source(),
        drill_source=row.source("drill"),
    )
