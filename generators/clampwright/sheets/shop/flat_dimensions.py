"""Dimensions of a flat pattern: overall sizes, radii, and the holes' places in the view or in the table."""

from __future__ import annotations

import math
from collections.abc import Iterator

from clampwright.layout.outline import Arc
from clampwright.layout.shop.told import FlatPart, Limits
from clampwright.sheets.shop.bend_lines import bend_places
from clampwright.sheets.shop.datum_edges import datum_arrows, datum_lines
from clampwright.sheets.shop.dimensioning.callouts import Target
from clampwright.sheets.shop.dimensioning.led import Led
from clampwright.sheets.shop.dimensioning.linear import Length
from clampwright.sheets.shop.dimensioning.wording import length
from clampwright.sheets.shop.drawn_view import DrawnView
from clampwright.sheets.shop.flat_labels import flat_labels
from clampwright.sheets.shop.hole_groups import hole_groups
from clampwright.sheets.shop.hole_places import Where, in_rows, place_holes
from clampwright.sheets.shop.outline_told import circle, farthest, is_box
from clampwright.trade.general_tolerances import general, is_most, none_given


def dimension_flat(drawn: DrawnView, part: FlatPart, where: Where) -> None:
    """Add to a drawn flat view its dimensions, and the radii and labels that are to be placed later."""
    if where == "view":
        place_holes(drawn, part)
    _overall(drawn, part, where)
    drawn.led += _radii(drawn, part)
    if where == "view":
        drawn.led += _diameters(drawn, part)
    drawn.labels += flat_labels(drawn, part)


def _overall(drawn: DrawnView, part: FlatPart, where: Where) -> None:
    width, height = _overall_lengths(drawn, part)
    across, along = bend_places(drawn, part)
    if circle(part.outline) is not None:
        width, height = [], []
    if where == "table":
        drawn.add(datum_arrows(drawn, [*across, *width], [*along, *height]))
    rows = where == "view" and in_rows(part)
    if not rows:
        drawn.add(datum_lines(drawn, part, down=where == "table" and not width))
    drawn.lanes([*across, *width], "above" if rows else "below")
    drawn.lanes([*along, *height], "right" if rows else "left")


def _overall_lengths(drawn: DrawnView, part: FlatPart) -> tuple[list[Length], list[Length]]:
    o, units, s = part.outline, part.units, drawn.scale
    x0, y0, x1, y1 = o.box()
    left, right = (farthest(o, way, (0.0, -1.0)) for way in ((-1.0, 0.0), (1.0, 0.0)))
    low, high = (farthest(o, way, (-1.0, 0.0)) for way in ((0.0, -1.0), (0.0, 1.0)))
    wide, tall = (length(far, units, limits=_own(far, part)) for far in (x1 - x0, y1 - y0))
    across = Length("horizontal", (drawn.point(left), drawn.point(right)), x1 - x0, wide, s)
    along = Length("vertical", (drawn.point(low), drawn.point(high)), y1 - y0, tall, s)
    return [across], [along]


def _own(far_mm: float, part: FlatPart) -> Limits | None:
    """Limits that stand beside an overall size because the general tolerance gives it none."""
    usual = general(part.shop, far_mm)
    return usual if none_given(usual) else None


def _radii(drawn: DrawnView, part: FlatPart) -> Iterator[Led]:
    whole = circle(part.outline)
    if whole is not None:
        size = 2 * whole.radius_mm
        target = Target(drawn.point(whole.centre), whole.radius_mm * drawn.scale)
        yield Led("diameter", (target,), size, length(size, part.units, sign="Ø"), drawn.scale)
        return
    arcs = [piece for piece in part.outline.pieces if isinstance(piece, Arc)]
    if not arcs or not is_box(part.outline):
        return
    r = arcs[0].radius_mm
    targets = tuple(_arc_target(drawn, arc) for arc in arcs)
    words = length(r, part.units, sign="R", count=len(arcs), most=is_most(part.shop, r))
    yield Led("radius", targets, r, words, drawn.scale)


def _arc_target(drawn: DrawnView, arc: Arc) -> Target:
    first = math.degrees(arc.start_angle if arc.ccw else arc.end_angle)
    return Target(
        drawn.point(arc.centre), arc.radius_mm * drawn.scale, first, first + math.degrees(arc.sweep)
    )


def _diameters(drawn: DrawnView, part: FlatPart) -> Iterator[Led]:
    for group in hole_groups(part.holes):
        like, s = group.like, drawn.scale
        targets = tuple(Target(drawn.point(h.at), h.diameter_mm / 2 * s) for h in group.holes)
        words = length(like.diameter_mm, part.units, sign="Ø", count=len(group.holes), limits=like.size)
        yield Led("diameter", targets, like.diameter_mm, words, s)
