"""How far a bolt hole in sheet may be off in size and place, from the bolt that passes it.

Size: within the published window of the bolt, no further below the drill than a drill or jet errs anyway.

Place: the bolt stands off the hole's centre by no more than the play of its holes, the smallest that the
drawing allows. Part of that is used up by what is unsure of the bolt's own place (`fit_up`). Both are taken
at 95 % and independent, so that the place may err by e = √(play² − unsure²). A shop holds ± t in each of
two coordinates. Square to a tube at the angle a from u that shifts the hole by up to t (|cos a| + |sin a|);
along it the clamp slides. A component's holes are held both ways: √2 t at the corner. Every hole then takes
its bolt with the part lying just where it was laid out, whatever the others' errors.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, hypot, sqrt

from clampwright.layout.fit_up import clearance_mm, largest_shank_mm
from clampwright.layout.placed import ClampPlace, FitUp, Frame, Hole
from clampwright.quantities import Vec2
from clampwright.recipe.model import Shop
from clampwright.trade.general_tolerances import general, none_given
from clampwright.trade.holes import HoleWindow, hole_window
from clampwright.trade.iso_fits import hole_class
from clampwright.trade.limits import Limits
from clampwright.trade.tables import rule

_STEP_MM = {"mm": 0.01, "in": 0.0127}
"""Last figure of a limit as it is printed: a hundredth of a millimetre, half a thousandth of an inch."""
_NOISE = 1e-9
_DECIMALS = 6


@dataclass(frozen=True, slots=True)
class Needed:
    """What the place of a hole is held to. `limits` None: the general tolerance is good enough."""

    limits: Limits | None
    too_tight: bool = False
    """No shop should be asked for it: the hole is better transferred in place."""
    off_mm: float | None = None
    """± in each coordinate that would do; None where nothing has to match."""


FREE = Needed(None)


def window(fastener: str) -> HoleWindow | None:
    """The published window, or None where no document gives one."""
    try:
        return hole_window(fastener)
    except LookupError:
        return None


def down(mm: float, units: str) -> float:
    """A limit rounded down to the last figure that a drawing in `units` prints of it.

    >>> down(0.1524, "mm"), down(0.1524, "in")
    (0.15, 0.1524)
    """
    step = _STEP_MM[units]
    return round(floor(mm / step + _NOISE) * step, _DECIMALS)


def size_limits(hole: Hole, shop: Shop, units: str) -> Limits | None:
    """Limits of a hole's diameter; None where the general tolerance holds, as for most lightening holes.

    Where no document gives a window, the general tolerance, but never below the bolt's largest shank.
    """
    if not hole.fastener:
        usual = general(shop, hole.diameter_mm)
        return usual if none_given(usual) else None
    found = window(hole.fastener)
    if found is None:
        return _over_the_shank(hole, shop)
    over = max(0.0, found.high_mm - hole.diameter_mm)
    under = max(0.0, min(hole.diameter_mm - found.low_mm, rule("hole-band-usual").value - over))
    inside = found.low_mm - _NOISE <= hole.diameter_mm <= found.high_mm + _NOISE
    why = f"so that {hole.fastener} passes and does not rattle" if inside else "as the recipe asks"
    return Limits(down(under, units), down(over, units), why, found.source)


def _over_the_shank(hole: Hole, shop: Shop) -> Limits | None:
    usual = general(shop, hole.diameter_mm)
    room = max(0.0, hole.diameter_mm - largest_shank_mm(hole.fastener))
    if usual.under_mm <= room:
        return usual if none_given(usual) else None
    return Limits(room, usual.over_mm, f"so that {hole.fastener} passes", "play-left-over")


def class_of(hole: Hole) -> str:
    """The coarsest class of ISO 286 that lies within a bolt hole's window; "" where there is none."""
    found = window(hole.fastener) if hole.fastener else None
    fit = found and hole_class(found.low_mm, found.high_mm, hole.diameter_mm)
    return fit.name if fit else ""


def least_mm(hole: Hole, size: Limits | None, shop: Shop) -> float:
    """The smallest that a hole may come out."""
    return hole.diameter_mm - (size or general(shop, hole.diameter_mm)).under_mm


def across(frame: Frame, clamp: ClampPlace) -> Vec2:
    """Direction square to a clamp's tube in the part's plane, unit."""
    u, v = (sum(a * b for a, b in zip(clamp.axis, way, strict=True)) for way in (frame.u, frame.v))
    long = hypot(u, v)
    return (-v / long, u / long)


def place_limits(
    hole: Hole,
    fit: FitUp,
    size: Limits | None,
    way: Vec2 | None,
    foot_hole_mm: float | None,
    shop: Shop,
    units: str,
) -> Needed:
    """What the place of a bolt hole that is made to size now is held to, from the datum edges.

    Parameters
    ----------
    hole, fit
        The hole, and how the fit-up plan makes it.
    size
        Limits of its diameter; None: the general tolerance.
    way
        Direction that counts, unit; None: every direction.
    foot_hole_mm
        Hole in the clamp's foot under it; None where there is no clamp.
    shop, units
        The general tolerance, and "mm" or "in": the step that a limit is rounded down to.
    """
    holes = [least_mm(hole, size, shop), *([foot_hole_mm] if foot_hole_mm is not None else [])]
    play, unsure = clearance_mm(hole.fastener, *holes), fit.uncertainty_mm
    share = sqrt(2.0) if way is None else abs(way[0]) + abs(way[1])
    off = sqrt(max(0.0, play**2 - unsure**2)) / share
    if widest(hole, shop) <= off + _NOISE:
        return Needed(None, off_mm=off)
    off = down(off, units)
    if off < rule("hole-place-least").value - _NOISE:
        return Needed(None, True, off)
    return Needed(Limits(off, off, _why(hole, way), "play-left-over"), off_mm=off)


def widest(hole: Hole, shop: Shop) -> float:
    """How far the general tolerance lets a hole stray in the one or the other coordinate, mm."""
    return max(general(shop, coordinate).over_mm for coordinate in hole.at)


def _why(hole: Hole, way: Vec2 | None) -> str:
    return f"so that {hole.owner} bolts on" if way is None else "so that its clamp's bolt passes"
