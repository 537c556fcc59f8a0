"""Labels of a flat pattern: holes, corners of the outline, bend lines."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.layout.shop.told import FlatPart
from clampwright.sheets.shop.dimensioning.callouts import Callout, Target
from clampwright.sheets.shop.dimensioning.style import LABEL, LETTER
from clampwright.sheets.shop.drawn_view import DrawnView
from clampwright.sheets.shop.outline_told import circle, corners, is_box


def flat_labels(drawn: DrawnView, part: FlatPart) -> list[Callout]:
    """Labels that are to be placed, of holes first."""
    return [*_hole_labels(drawn, part), *_corner_labels(drawn, part), *_bend_labels(drawn, part)]


def _hole_labels(drawn: DrawnView, part: FlatPart) -> Iterator[Callout]:
    for hole in part.holes:
        target = Target(drawn.point(hole.at), hole.diameter_mm / 2 * drawn.scale)
        yield Callout((hole.label,), (target,), arrow=False, size_mm=LABEL, bold=True)


def _corner_labels(drawn: DrawnView, part: FlatPart) -> Iterator[Callout]:
    if is_box(part.outline) or circle(part.outline) is not None:
        return
    for corner in corners(part.outline):
        yield Callout((corner.label,), (Target(drawn.point(corner.mark)),), arrow=False, size_mm=LABEL)


def _bend_labels(drawn: DrawnView, part: FlatPart) -> Iterator[Callout]:
    for bend in part.bends:
        (ax, ay), (bx, by) = bend.start, bend.end
        shares = (0.5, 0.3, 0.7, 0.15, 0.85)
        points = tuple(drawn.point((ax + f * (bx - ax), ay + f * (by - ay))) for f in shares)
        yield Callout((bend.label,), tuple(Target(p) for p in points), arrow=False, size_mm=LETTER, bold=True)
