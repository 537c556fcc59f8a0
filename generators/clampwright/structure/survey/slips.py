"""A blunder that looks like a plain slip: a line misread, digits swapped, another unit, the wrong walls."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping

from clampwright.quantities import length_mm, show_fraction
from clampwright.trade.tables import rule

_STEPS = {
    "mm": ("survey-slip-1cm", "survey-slip-5cm", "survey-slip-10cm", "survey-slip-1m"),
    "in": ("survey-slip-half-inch", "survey-slip-1-inch", "survey-slip-10-inches", "survey-slip-1-foot"),
}
_CALLED = {
    "survey-slip-1cm": "1 cm",
    "survey-slip-5cm": "5 cm",
    "survey-slip-10cm": "10 cm",
    "survey-slip-1m": "1 m",
    "survey-slip-half-inch": "1/2 in",
    "survey-slip-1-inch": "1 in",
    "survey-slip-10-inches": "10 in",
    "survey-slip-1-foot": "1 ft",
}
_HELD_AT = ("survey-slip-10cm", "survey-slip-1-inch", "survey-slip-10-inches")
"""Marks at which a tape is held where its hook is of no use."""


def slip(
    read_mm: float,
    probably_mm: float,
    spread_mm: float,
    units: str,
    walls: Mapping[str, float],
    estimate_mm: float | None = None,
) -> str:
    """What a blunder looks like; "" where it looks like nothing in particular.

    Parameters
    ----------
    read_mm, probably_mm
        What was read, and what it should be by all the others.
    spread_mm
        ± (95 %) of their difference.
    units
        "mm" or "in": the tape's.
    walls
        What it would read taken in other ways: "over the outsides", "centre to centre", in mm.
    estimate_mm
        ± (95 %) of what it should be; None: as `spread_mm`.

    Examples
    --------
    >>> slip(3826.0, 2831.0, 12.0, "mm", {})
    '1 m too much would explain it: a line misread?'
    >>> slip(533.4, 508.3, 1.5, "in", {})
    '1 in too much would explain it: was the tape held at its 1 in mark and that not taken off?'
    >>> slip(581.0, 518.4, 1.5, "mm", {})
    'digits swapped would explain it: 518 for 581'
    >>> slip(541.3375, 312.9, 1.5, "in", {})
    'digits swapped would explain it: 12-5/16 for 21-5/16'
    >>> slip(-58.0, 58.9, 3.0, "mm", {}).partition(":")[0]
    'it fits with the other sign'
    >>> slip(519.2, 500.3, 1.5, "mm", {"over the outsides": 519.3})
    'it reads as if taken over the outsides'
    >>> slip(12903.2, 508.3, 1.5, "in", {})
    '508 in a file in inches: mm? Then write "508 mm"'
    """
    near = spread_mm if estimate_mm is None else estimate_mm
    unit = _another_unit(read_mm, probably_mm, spread_mm, units)
    if unit:
        return unit
    found = [
        *_otherwise(read_mm, probably_mm, spread_mm, walls),
        *_stepped(read_mm - probably_mm, spread_mm, near, units),
        *_swapped(read_mm, probably_mm, spread_mm, units),
        *_other_sign(read_mm, probably_mm, spread_mm),
    ]
    return ", or ".join(words for _, words in sorted(found)[:2])


def slip_of_angle(read_rad: float, probably_rad: float, spread_rad: float, *, slope: bool) -> str:
    """What a blunder in a slope or an angle looks like; "" where it looks like nothing in particular.

    >>> slip_of_angle(math.radians(-0.14), -0.14, 0.01, slope=True)
    '-0.14 fits in radians: write "-0.14 rad"'
    >>> slip_of_angle(0.14, -0.142, 0.01, slope=True)
    'it fits with the other sign: slopes are from start to end, positive where the tube rises'
    >>> slip_of_angle(0.5, math.pi - 0.502, 0.01, slope=False)
    'it fits the supplement: angles are between directions from start to end'
    """
    if abs(read_rad - probably_rad) <= spread_rad:
        return ""
    number = math.degrees(read_rad)
    if abs(number - probably_rad) <= spread_rad and abs(number) > spread_rad:
        return f'{number:.4g} fits in radians: write "{number:.4g} rad"'
    if slope and abs(read_rad + probably_rad) <= spread_rad:
        return "it fits with the other sign: slopes are from start to end, positive where the tube rises"
    if not slope and abs(math.pi - read_rad - probably_rad) <= spread_rad:
        return "it fits the supplement: angles are between directions from start to end"
    return ""


def _another_unit(read_mm: float, probably_mm: float, spread_mm: float, units: str) -> str:
    """Millimetres typed into a file in inches, or the other way round."""
    near = max(spread_mm, rule("survey-unit-mistaken").value * abs(probably_mm))
    inch = length_mm(1.0, "in")
    if units == "in" and abs(read_mm / inch - probably_mm) <= near:
        return f'{_number(read_mm / inch)} in a file in inches: mm? Then write "{_number(read_mm / inch)} mm"'
    if units == "mm" and abs(read_mm * inch - probably_mm) <= near:
        return f'{_number(read_mm)} in a file in mm: inches? Then write "{_number(read_mm)} in"'
    return ""


def _number(value: float) -> str:
    return f"{round(value, 4):.6g}"


def _otherwise(
    read_mm: float, probably_mm: float, spread_mm: float, walls: Mapping[str, float]
) -> Iterator[tuple[float, str]]:
    """Taken over other walls, with how far that is off."""
    for how, reads in walls.items():
        if abs(read_mm - reads) <= spread_mm < abs(read_mm - probably_mm):
            yield abs(read_mm - reads), f"it reads as if taken {how}"


def _stepped(off_mm: float, spread_mm: float, near_mm: float, units: str) -> Iterator[tuple[float, str]]:
    """A round size too much or too little, where the others say so within their ±."""
    for key in _STEPS[units]:
        step = rule(key).value
        beside = abs(abs(off_mm) - step)
        if beside > near_mm or spread_mm > rule("survey-slip-sure").value * step:
            continue
        way, called = "too much" if off_mm > 0 else "too little", _CALLED[key]
        held = f"was the tape held at its {called} mark and that not taken off?"
        why = held if key in _HELD_AT and off_mm > 0 else "a line misread?"
        yield beside, f"{called} {way} would explain it: {why}"


def _other_sign(read_mm: float, probably_mm: float, spread_mm: float) -> Iterator[tuple[float, str]]:
    """Up taken for down; a distance has no sign."""
    beside = abs(read_mm + probably_mm)
    if beside <= spread_mm < abs(read_mm - probably_mm):
        yield (
            beside,
            "it fits with the other sign: positive is where the second point lies higher, or farther along "
            "the axis, than the first",
        )


def _swapped(read_mm: float, probably_mm: float, spread_mm: float, units: str) -> Iterator[tuple[float, str]]:
    """Two digits of the whole number that changed places; the sign and the fraction were written right."""
    sign = -1.0 if read_mm < 0 else 1.0
    whole, fraction = divmod(round(abs(read_mm) / length_mm(1.0, units), 6), 1.0)
    digits = f"{whole:.0f}"
    for i in range(len(digits) - 1):
        meant = digits[:i] + digits[i + 1] + digits[i] + digits[i + 2 :]
        meant_mm = sign * length_mm(float(meant) + fraction, units)
        beside = abs(meant_mm - probably_mm)
        if meant != digits and beside <= spread_mm < abs(read_mm - probably_mm):
            words = f"{_written(meant_mm, units)} for {_written(read_mm, units)}"
            yield beside, f"digits swapped would explain it: {words}"


def _written(mm: float, units: str) -> str:
    """As it stands in the survey: a fraction of an inch where it is one.

    >>> _written(541.3375, "in"), _written(-541.0, "mm")
    ('21-5/16', '-541')
    """
    if units == "in" and abs(mm / length_mm(1.0, "in") * 64 % 1 - 0.5) > 0.49:
        return show_fraction(mm)
    return _number(mm / length_mm(1.0, units))
