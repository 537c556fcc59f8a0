"""Stations as a person can measure them: from the mark on a tube, where it has one."""

from __future__ import annotations

from collections.abc import Iterable

from clampwright.layout.said import named_list
from clampwright.quantities import show_length
from clampwright.structure.tubes import Tube


def from_mark_mm(tube: Tube, station_mm: float) -> float | None:
    """How far a station lies from the tube's mark, towards its end; None where it has no mark.

    Examples
    --------
    >>> marked = Tube("t", (0.0, 0.0, 0.0), (300.0, 400.0, 0.0), 19.05, mark_mm=80.0)
    >>> from_mark_mm(marked, 120.0), from_mark_mm(marked, 50.0)
    (40.0, -30.0)
    """
    return None if tube.mark_mm is None else station_mm - tube.mark_mm


def station_said(tube: Tube, station_mm: float, units: str) -> str:
    """A station in short: from the start, or from the mark where the tube has one.

    Examples
    --------
    >>> marked = Tube("t", (0.0, 0.0, 0.0), (300.0, 400.0, 0.0), 19.05, mark_mm=50.8)
    >>> station_said(marked, 76.2, "in"), station_said(marked, 25.4, "in")
    ('mark + 1.000 in', 'mark - 1.000 in')
    """
    off = from_mark_mm(tube, station_mm)
    if off is None:
        return show_length(station_mm, units)
    return signed_from_mark(off, show_length(abs(off), units))


def signed_from_mark(off_mm: float, shown: str) -> str:
    """ "mark + 1.000" or "mark - 1.000", with the length as it is shown; "at the mark" where that is none.

    Examples
    --------
    >>> signed_from_mark(-25.4, "1.000 in"), signed_from_mark(-1e-9, "0.000 in")
    ('mark - 1.000 in', 'at the mark')
    """
    if not float(shown.split()[0]):
        return "at the mark"
    return f"mark {'-' if off_mm < 0 else '+'} {shown}"


def mark_note(tubes: Iterable[Tube]) -> str:
    """What "mark +" means, and on which tubes; "" where none of them has a mark.

    Examples
    --------
    >>> mark_note([Tube("low", (0.0, 0.0, 0.0), (9.0, 0.0, 0.0), 1.0, 3.0)])
    'Stations on low count from the mark on the tube: mark + towards its end, mark - towards its start.'
    """
    names = tuple(dict.fromkeys(tube.name for tube in tubes if tube.mark_mm is not None))
    if not names:
        return ""
    return (
        f"Stations on {named_list(names)} count from the mark on the tube: mark + towards its end, mark - "
        "towards its start."
    )
