"""Which clamps the recipe asks for, tube by tube, each with its own size and dimensions."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.layout.cannot import CannotLayOut
from clampwright.recipe.model import ClampAt, Clamps, Measured, PlateJob, Recipe
from clampwright.structure.tubes import Structure, Tube
from clampwright.trade.clamps import LoopClamp, clamp_code_for, loop_clamp


@dataclass(frozen=True, slots=True)
class ClampWanted:
    """One clamp that is to be placed: `station_mm` None where the tool is to choose."""

    tube: str
    clamp: LoopClamp
    side: str
    station_mm: float | None
    line: int = 0


def held_tubes(clamps: Clamps, structure: Structure) -> tuple[Tube, ...]:
    """The tubes that carry clamps, in the order that letters them: `on`, then what only `at` names.

    >>> from clampwright.recipe.model import Measured
    >>> tubes = tuple(Tube(name, (0, 0, 0), (9, 0, 0), 19.05) for name in ("left", "right", "brace"))
    >>> both = Clamps(None, ("right", "left"), 2, "inboard", Measured(), None, ())
    >>> [tube.name for tube in held_tubes(both, Structure(tubes))]
    ['right', 'left']
    """
    on = clamps.on or structure.names
    if clamps.at:
        named = [at.tube for at in clamps.at]
        on = tuple(dict.fromkeys([*(name for name in on if name in named), *named]))
    return tuple(_tube(name, structure) for name in on)


def clamps_wanted(recipe: Recipe) -> tuple[tuple[ClampWanted, ...], tuple[tuple[str, str], ...]]:
    """The clamps in the order of their tubes, and what was assumed about them."""
    job = recipe.asked(PlateJob)
    zone, clamps = recipe.zone, job.clamps
    code = clamps.code or clamp_code_for(zone.temperature_c, zone.fluids)
    tubes = held_tubes(clamps, recipe.structure)
    wanted = tuple(_wanted(at, tube, clamps, code) for tube in tubes for at in _asked(tube, clamps))
    return wanted, () if clamps.code else (("clamps.code", f"{code} (by temperature and fluids)"),)


def _asked(tube: Tube, clamps: Clamps) -> list[ClampAt]:
    if clamps.at:
        return [at for at in clamps.at if at.tube == tube.name]
    return [ClampAt(tube.name, None, clamps.side, Measured(), None, 0)] * clamps.each


def _wanted(at: ClampAt, tube: Tube, clamps: Clamps, code: str) -> ClampWanted:
    if at.station_mm is not None and not 0 <= at.station_mm <= tube.length_mm:
        raise CannotLayOut(
            f"station {at.station_mm:.1f} mm lies off {tube.name}, which is {tube.length_mm:.1f} mm long",
            f"give a station between 0 and {tube.length_mm:.1f} mm",
            at.line,
        )
    own, common = at.measured, clamps.measured
    clamp = loop_clamp(
        tube.od_mm,
        code,
        dash=at.dash if at.dash is not None else clamps.dash,
        reach_mm=own.reach_mm if own.reach_mm is not None else common.reach_mm,
        seat_mm=own.seat_mm if own.seat_mm is not None else common.seat_mm,
        feet_mm=own.feet_mm if own.feet_mm is not None else common.feet_mm,
    )
    return ClampWanted(tube.name, clamp, at.side, at.station_mm, at.line)


def _tube(name: str, structure: Structure) -> Tube:
    try:
        return structure.tube(name)
    except LookupError as missing:
        raise CannotLayOut(str(missing), "correct the name in clamps.on or clamps.at") from missing
