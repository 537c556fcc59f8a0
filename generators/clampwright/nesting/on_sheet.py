"""Outlines and holes of laid parts where they lie on the sheet."""

from __future__ import annotations

from clampwright.layout.outline import Arc, Line, Outline
from clampwright.nesting.nested import Laid, turning
from clampwright.quantities import Vec2

Box = tuple[float, float, float, float]


def outline_on_sheet(laid: Laid) -> Outline:
    """The contour of a laid part, in the sheet's coordinates: lines and true arcs."""
    return _carried(laid.part.outline, laid.turn_rad, laid.at)


def turned_box(outline: Outline, turn_rad: float) -> Box:
    """Box of an outline turned about its datum corner, with the bulge of its arcs."""
    return _carried(outline, turn_rad, (0.0, 0.0)).box()


def holes_on_sheet(laid: Laid) -> tuple[tuple[Vec2, float], ...]:
    """Centre on the sheet and diameter to cut, mm, of each hole, in the part's order."""
    return tuple((laid.place(hole.at), hole.made_mm) for hole in laid.part.holes)


def _carried(outline: Outline, turn_rad: float, by: Vec2) -> Outline:
    c, s = turning(turn_rad)

    def place(p: Vec2) -> Vec2:
        return by[0] + c * p[0] - s * p[1], by[1] + s * p[0] + c * p[1]

    return Outline(
        tuple(
            Arc(place(piece.start), place(piece.end), place(piece.centre), piece.ccw)
            if isinstance(piece, Arc)
            else Line(place(piece.start), place(piece.end))
            for piece in outline.pieces
        )
    )
