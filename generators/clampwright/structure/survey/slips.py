"""A blunder that looks like a plain slip: a line misread, digits swapped, the wrong side of a tube."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from clampwright.quantities import length_mm, show_length
from clampwright.structure.survey.wording import length
from clampwright.trade.tables import rule

_STEPS = {
    "mm": ("survey-slip-1cm", "survey-slip-5cm", "survey-slip-10cm", "survey-slip-1m"),
    "in": ("survey-slip-half-inch", "survey-slip-1-inch", "survey-slip-10-inches", "survey-slip-1-foot"),
}


def slip(read_mm: float, probably_mm: float, spread_mm: float, units: str, walls: Mapping[str, float]) -> str:
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

    Examples
    --------
    >>> slip(3826.0, 2831.0, 12.0, "mm", {})
    'exactly 1000.0 mm too much, it seems: a line misread'
    >>> slip(581.0, 518.4, 1.5, "mm", {})
    'digits swapped, it seems: 518 for 581'
    >>> slip(519.2, 500.3, 1.5, "mm", {"over the outsides": 519.3})
    'it reads as if taken over the outsides'
    """
    found = sorted(_looks(read_mm, probably_mm, spread_mm, units, walls))
    return ", or ".join(words for _, words in found[:2])


def _looks(
    read_mm: float, probably_mm: float, spread_mm: float, units: str, walls: Mapping[str, float]
) -> Iterator[tuple[float, str]]:
    """Everything that it may be, with how far that is off."""
    off = read_mm - probably_mm
    for how, reads in walls.items():
        if abs(read_mm - reads) <= spread_mm < abs(off):
            yield abs(read_mm - reads), f"it reads as if taken {how}"
    for key in _STEPS[units]:
        step = rule(key).value
        beside = abs(abs(off) - step)
        if beside <= spread_mm <= rule("survey-slip-sure").value * step:
            way = "too much" if off > 0 else "too little"
            yield beside, f"exactly {length(step, units)} {way}, it seems: a line misread"
    for meant in _swapped(read_mm, units):
        beside = abs(length_mm(meant, units) - probably_mm)
        if beside <= spread_mm < abs(off):
            yield beside, f"digits swapped, it seems: {meant} for {_whole(read_mm, units)}"


def _whole(mm: float, units: str) -> str:
    """The reading as it stands on paper, to whole units."""
    return str(round(float(show_length(mm, units).split(" ")[0])))


def _swapped(mm: float, units: str) -> Iterator[str]:
    digits = _whole(mm, units)
    for i in range(len(digits) - 1):
        if digits[i] != digits[i + 1]:
            yield digits[:i] + digits[i + 1] + digits[i] + digits[i + 2 :]
