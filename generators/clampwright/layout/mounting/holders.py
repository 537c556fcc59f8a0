"""The tubes that may carry the component, each with the clamp that it would carry."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.station_room import Room, room
from clampwright.recipe.bushing_model import BushingJob, ClampsOn
from clampwright.recipe.model import Measured, Recipe
from clampwright.structure.nodes import nodes
from clampwright.structure.tubes import Tube
from clampwright.trade.clamps import LoopClamp, clamp_code_for, loop_clamp
from clampwright.trade.tables import rule

Notes = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class Holder:
    """A tube, the clamp that closes on it, and the stretches of it that are clear of welds and ends."""

    tube: Tube
    clamp: LoopClamp
    room: Room

    @property
    def apart_mm(self) -> float:
        """Least distance between the stations of two clamps on it: a band and rule `clamp-clearance`."""
        return self.clamp.band_width_mm + rule("clamp-clearance").value


def holders(
    recipe: Recipe, on: tuple[str, ...] | None = None, dashes: Mapping[str, int] | None = None
) -> tuple[Holder, ...]:
    """The tubes named in `clamps.on` (or others), in order, without those too short for a clamp.

    Parameters
    ----------
    recipe
        Of a component on bushings.
    on
        Names of other tubes to look at in their place.
    dashes
        Clamp sizes to try in place of the recipe's, by tube.

    Raises
    ------
    CannotLayOut
        No tube of them is long enough for a clamp, or no clamp of the family closes on one of them.
    """
    clamps, found, short = recipe.asked(BushingJob).clamps, nodes(recipe.structure), []
    made = []
    for name in clamps.on if on is None else on:
        tube = _tube(name, recipe)
        clamp = _clamp(tube, clamps, clamp_code(recipe), (dashes or {}).get(name))
        try:
            made.append(Holder(tube, clamp, room(tube, found, clamp.band_width_mm)))
        except CannotLayOut as too_short:
            short.append(too_short)
    if not made:
        raise short[0]
    return tuple(made)


def clamp_code(recipe: Recipe) -> str:
    """Band and cushion: as asked, else by the zone's temperature and fluids."""
    code = recipe.asked(BushingJob).clamps.code
    return code or clamp_code_for(recipe.zone.temperature_c, recipe.zone.fluids)


def code_note(recipe: Recipe) -> Notes:
    """What was assumed about band and cushion."""
    if recipe.asked(BushingJob).clamps.code:
        return ()
    return (("clamps.code", f"{clamp_code(recipe)} (by temperature and fluids)"),)


def _clamp(tube: Tube, clamps: ClampsOn, code: str, dash: int | None) -> LoopClamp:
    own = {name: (measured, size) for name, measured, size in clamps.own}
    measured, size = own.get(tube.name, (Measured(), None))
    common = clamps.measured
    if dash is None:
        dash = size if size is not None else clamps.dash
        reach = measured.reach_mm if measured.reach_mm is not None else common.reach_mm
        seat = measured.seat_mm if measured.seat_mm is not None else common.seat_mm
    else:
        reach = seat = None
    feet = measured.feet_mm if measured.feet_mm is not None else common.feet_mm
    try:
        return loop_clamp(tube.od_mm, code, dash=dash, reach_mm=reach, seat_mm=seat, feet_mm=feet)
    except LookupError as missing:
        raise CannotLayOut(
            f"no clamp closes on {tube.name}: {missing}", f"leave {tube.name} out of clamps.on"
        ) from missing


def _tube(name: str, recipe: Recipe) -> Tube:
    try:
        return recipe.structure.tube(name)
    except LookupError as missing:
        raise CannotLayOut(str(missing), "correct the name in clamps.on") from missing
