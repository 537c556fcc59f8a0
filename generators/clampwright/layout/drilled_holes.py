"""Finished diameter, drill and pilot of every hole, and the letters that label them."""

from __future__ import annotations

from dataclasses import dataclass, replace

from clampwright.layout.cannot import CannotLayOut
from clampwright.trade.holes import hole_window, nearest_drill, pilot_drill
from clampwright.trade.tables import rule

STEP_DRILL = "step drill"
HOLE_SAW = "hole saw"
_LIGHTENING = "L"


@dataclass(frozen=True, slots=True)
class Finish:
    """How one hole ends up: diameter, and the drills that bring it there (no pilot: "")."""

    diameter_mm: float
    drill: str
    pilot: str


def bolt_hole(fastener: str, hole_mm: float | None, line: int = 0) -> Finish:
    """Hole for a bolt or screw: as asked, else by the drill of its window.

    Raises
    ------
    CannotLayOut
        No hole was asked for and no document gives one.

    >>> bolt_hole("AN3", None).drill
    '#11'
    """
    if hole_mm is not None:
        return finish(hole_mm)
    try:
        drill = hole_window(fastener).drill
    except LookupError as missing:
        raise CannotLayOut(
            f"no document in the tables gives a hole for {fastener}",
            "measure the fastener and give its hole: a drill size or a diameter",
            line,
        ) from missing
    return finish(drill.diameter_mm)


def finish(diameter_mm: float) -> Finish:
    """Drill and pilot for a diameter: a drill of the list where one has it, else a step drill or a hole saw.

    >>> finish(50.0).drill, finish(14.13).drill
    ('hole saw', 'step drill')
    """
    nearest = nearest_drill(diameter_mm)
    drill = nearest.size
    if abs(nearest.diameter_mm - diameter_mm) > rule("hole-size-tolerance").value:
        drill = STEP_DRILL if diameter_mm <= rule("step-drill-most").value else HOLE_SAW
    return Finish(diameter_mm, drill, _pilot(diameter_mm))


def cut_out(diameter_mm: float) -> Finish:
    """Finish of a lightening hole: as `finish`, and never without a drill that starts it.

    >>> cut_out(50.0)
    Finish(diameter_mm=50.0, drill='hole saw', pilot='1/4')
    """
    made = finish(diameter_mm)
    started = made.pilot or diameter_mm <= rule("hole-saw-pilot").value
    return made if started else replace(made, pilot=nearest_drill(rule("hole-saw-pilot").value).size)


def _pilot(diameter_mm: float) -> str:
    try:
        return pilot_drill(diameter_mm).size
    except LookupError:
        return ""


def letters(count: int) -> tuple[str, ...]:
    """Letters for tubes and then for components; L is kept for lightening holes.

    >>> letters(13)[10:]
    ('K', 'M', 'N')
    """
    found: list[str] = []
    number = 0
    while len(found) < count:
        text, rest = "", number
        while rest >= 0:
            text, rest = chr(ord("A") + rest % 26) + text, rest // 26 - 1
        if text != _LIGHTENING:
            found.append(text)
        number += 1
    return tuple(found)
