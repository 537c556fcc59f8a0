"""What the place of each hole in sheet is held to, and which holes are piloted for want of such a limit.

One decision for all: the fit-up plan has it, and drawing, drill sheet, cutting files and checks follow.
"""

from __future__ import annotations

from dataclasses import replace

from clampwright.layout.fit_up import NOW, PILOT
from clampwright.layout.placed import FitUp, FitUpPlan, Hole, PlateLayout
from clampwright.layout.shop import edge_room
from clampwright.layout.shop.hole_limits import FREE, Needed, across, down, place_limits, size_limits, widest
from clampwright.quantities import show_length
from clampwright.trade.general_tolerances import general, none_given
from clampwright.trade.limits import Limits
from clampwright.trade.tables import rule

_LARGER = "To drill it now, ask for a larger hole: that leaves more for the place."


def planned_for_a_shop(layout: PlateLayout) -> FitUpPlan:
    """The fit-up plan, with holes piloted whose place no shop should be asked to hold so closely."""
    holes = {hole.label: hole for hole in layout.holes}
    fits = tuple(_fit(fit, holes.get(fit.hole), layout) for fit in layout.fit_up.holes)
    return replace(layout.fit_up, holes=fits)


def _fit(fit: FitUp, hole: Hole | None, layout: PlateLayout) -> FitUp:
    if hole is None or not _to_match(hole, fit, layout).too_tight:
        return fit
    least = show_length(rule("hole-place-least").value, layout.recipe.units)
    why = (
        f"{fit.why} The least hole that its limits allow leaves its place less than ± {least}: "
        "no shop is asked for that."
    )
    return replace(fit, way=PILOT, why=why, cure=_LARGER)


def place_needed(hole: Hole, fit: FitUp | None, layout: PlateLayout) -> Limits | None:
    """Limits of a hole's place from the datum edges; None where the general tolerance is good enough.

    The closest of what its bolt needs, what its edge distance needs, and where ISO 2768-1 gives nothing for
    one of its coordinates what stands in for that.
    """
    shop, units = layout.recipe.shop, layout.recipe.units
    found = [limits for limits in (_to_match(hole, fit, layout).limits, _at_edge(hole, layout)) if limits]
    found += [usual for at in hole.at if none_given(usual := general(shop, at))]
    if not found:
        return None
    least = min(found, key=lambda limits: limits.over_mm)
    off = down(least.over_mm, units)
    return replace(least, under_mm=off, over_mm=off)


def outline_alone(hole: Hole, layout: PlateLayout) -> bool:
    """Whether a hole may lose its edge distance even where it is at its place, by the outline alone."""
    room = edge_room.edge_room(hole, layout.outline, layout.recipe.shop)
    return (
        bool(hole.fastener)
        and room.nominal
        and down(room.off_mm, layout.recipe.units) < rule("hole-place-least").value
    )


def _to_match(hole: Hole, fit: FitUp | None, layout: PlateLayout) -> Needed:
    """What its bolt needs; nothing where it is marked or filed at the fit anyway, or stands alone."""
    if fit is None or fit.way != NOW or not hole.fastener:
        return FREE
    shop, units = layout.recipe.shop, layout.recipe.units
    size = size_limits(hole, shop, units)
    clamp = next(
        (each for each in layout.clamps if hole.purpose == "clamp" and each.label == hole.owner), None
    )
    if clamp is not None:
        way = across(layout.frame, clamp)
        return place_limits(hole, fit, size, way, clamp.clamp.foot_hole_mm, shop, units)
    part = next((each for each in layout.components if each.name == hole.owner), None)
    if part is None or len(part.holes) < 2:
        return FREE
    return place_limits(hole, fit, size, None, None, shop, units)


def _at_edge(hole: Hole, layout: PlateLayout) -> Limits | None:
    """What its edge distance needs; of a pilot, too: where it is drilled, the hole is opened."""
    shop, least = layout.recipe.shop, rule("hole-place-least").value
    room = edge_room.edge_room(hole, layout.outline, shop)
    off = max(least, down(room.off_mm, layout.recipe.units))
    if not hole.fastener or not room.nominal or widest(hole, shop) <= off:
        return None
    return Limits(off, off, edge_room.WHY, edge_room.SOURCE)
