"""Makers of outlines: rounded rectangle, rounded hull of discs, polygon with rounded corners."""

from __future__ import annotations

import math
from collections.abc import Sequence

from clampwright.layout.outline import Arc, Line, Outline
from clampwright.quantities import Vec2
from clampwright.trade.tables import rule

Disc = tuple[Vec2, float]
"""Centre and radius of a round area that an outline must take in, mm."""

_SAME = 1e-9
"""Millimetres or radians below which two places or directions are one."""
_LEVEL = 1e-8
"""Radians between two lines that touch the same disc, below which they are one line."""
_SHORT = 1e-6
"""Millimetres of line or arc that are not worth a piece of their own."""
_KINK = 0.02
"""Radians of turn that are no corner (as `outline` counts them)."""
_ALMOST = 0.01
"""A disc that stands out of another by less, mm, is held by it: the arc would be a sliver."""


def rounded_rectangle(box: tuple[float, float, float, float], radius_mm: float) -> Outline:
    """Rectangle (u_min, v_min, u_max, v_max) with equal corner radii, at most half its shorter side.

    >>> round(rounded_rectangle((0.0, 0.0, 10.0, 6.0), 1.0).area_mm2() - (60 - 4 + math.pi), 9)
    0.0
    """
    u0, v0, u1, v1 = box
    r = max(0.0, min(radius_mm, (u1 - u0) / 2, (v1 - v0) / 2))
    return _joined(
        [
            Arc((u1 - r, v0), (u1, v0 + r), (u1 - r, v0 + r), True),
            Arc((u1, v1 - r), (u1 - r, v1), (u1 - r, v1 - r), True),
            Arc((u0 + r, v1), (u0, v1 - r), (u0 + r, v1 - r), True),
            Arc((u0, v0 + r), (u0 + r, v0), (u0 + r, v0 + r), True),
        ]
    )


def rounded_hull(discs: Sequence[Disc]) -> Outline:
    """Convex hull of discs of any radii: arcs of the discs, joined by the lines that touch two of them.

    The hull's reach in direction e is the greatest c·e + r of all discs. Going round, disc j takes over
    from disc i where (c_j − c_i)·e = r_i − r_j.

    >>> belt = rounded_hull([((0.0, 0.0), 2.0), ((10.0, 0.0), 2.0)])
    >>> round(belt.area_mm2() - (40 + 4 * math.pi), 9), belt.box()
    (0.0, (-2.0, -2.0, 12.0, 2.0))
    """
    outer = _not_within_another(discs)
    if len(outer) == 1:
        return _circle(*outer[0])
    lowest = max(range(len(outer)), key=lambda i: (outer[i][1] - outer[i][0][1], outer[i][0][0]))
    turns = [_takes_over(outer, lowest, -math.pi / 2)]
    while len(turns) < 2 * len(outer):
        follower, angle = _takes_over(outer, *turns[-1])
        if angle > turns[0][1] + 2 * math.pi - _LEVEL:
            break
        turns.append((follower, angle))
    return _hull_of(outer, turns)


def filleted_polygon(points: Sequence[Vec2], radius_mm: float) -> Outline:
    """Polygon with every corner rounded; a radius too large for its sides is made smaller at that corner.

    A corner that turns by t takes r·tan(t/2) of each side, and may have at most half of a side. Concave
    corners are rounded the same way. Clockwise points are reversed; points on a straight line are left out.

    >>> el = [(0.0, 0.0), (9.0, 0.0), (9.0, 4.0), (4.0, 4.0), (4.0, 9.0), (0.0, 9.0)]
    >>> shape = filleted_polygon(el, 1.0)
    >>> shape.least_inside_radius(), round(shape.area_mm2() + 4 * (1 - math.pi / 4), 9)
    (1.0, 56.0)
    """
    corners = _proper_corners(points)
    if _doubled_area(corners) < 0:
        corners.reverse()
    before, after = corners[-1:] + corners[:-1], corners[1:] + corners[:1]
    arcs = [_fillet(a, b, c, radius_mm) for a, b, c in zip(before, corners, after, strict=True)]
    return _joined(arcs)


def snapped(disc: Disc, increment: float) -> Disc:
    """The smallest disc with centre and radius on the increment's grid that takes this disc in (about).

    >>> snapped(((1.1, 0.0), 2.0), 0.5)
    ((1.0, 0.0), 2.5)
    """
    if increment <= 0:
        return disc
    (u, v), radius = disc
    on_grid = (round(u / increment) * increment, round(v / increment) * increment)
    needed = radius + math.dist(on_grid, (u, v))
    return on_grid, math.ceil(needed / increment - 1e-6) * increment


def _joined(arcs: Sequence[Arc]) -> Outline:
    """Arcs in order, with the lines between them; lines without length and arcs too short to cut left out.

    Where an arc is left out its two lines meet: a kink of arc over radius, which takes arc²/(8 radius) off.
    """
    pieces: list[Line | Arc] = []
    for arc, following in zip(arcs, [*arcs[1:], arcs[0]], strict=True):
        if not _sliver(arc):
            pieces.append(arc)
        if math.dist(arc.end, following.start) > _SHORT:
            pieces.append(Line(arc.end, following.start))
    return _closed(pieces)


def _sliver(arc: Arc) -> bool:
    """Whether an arc is too short to cut and turns so little that a kink in its place is no corner."""
    length = math.dist(arc.start, arc.end)
    return length <= _SHORT or (length < rule("cut-piece-least").value and length < _KINK * arc.radius_mm)


def _closed(pieces: list[Line | Arc]) -> Outline:
    """Make each piece start exactly where the last one ended."""
    ends = [pieces[-1].end, *(p.end for p in pieces[:-1])]
    chain: list[Line | Arc] = []
    for piece, start in zip(pieces, ends, strict=True):
        if isinstance(piece, Line):
            chain.append(Line(start, piece.end))
        else:
            chain.append(Arc(start, piece.end, piece.centre, piece.ccw))
    return Outline(tuple(chain))


def _circle(centre: Vec2, radius: float) -> Outline:
    right, left = (centre[0] + radius, centre[1]), (centre[0] - radius, centre[1])
    return Outline((Arc(right, left, centre, True), Arc(left, right, centre, True)))


def _not_within_another(discs: Sequence[Disc]) -> list[Disc]:
    """The discs that no other disc holds; of equal ones the first."""
    kept: list[Disc] = []
    for centre, radius in sorted(discs, key=lambda d: -d[1]):
        if all(math.dist(centre, c) + radius > r + _ALMOST for c, r in kept):
            kept.append((centre, radius))
    return kept


def _takes_over(discs: list[Disc], at: int, angle: float) -> tuple[int, float]:
    """Which disc is next to be outermost, turning on from `angle`, and from where.

    Where one line touches several discs, the one it touches last.
    """
    (u, v), radius = discs[at]
    found = []
    for j, ((uj, vj), rj) in enumerate(discs):
        apart = math.hypot(uj - u, vj - v)
        if j == at or apart <= abs(radius - rj):
            continue
        lean = math.acos((radius - rj) / apart)
        turn = (math.atan2(vj - v, uj - u) - lean - angle) % (2 * math.pi)
        onward = apart * math.sin(lean)
        found.append((turn - 2 * math.pi if turn > 2 * math.pi - _LEVEL else turn, onward, j))
    least = min(turn for turn, _, _ in found)
    turn, _, follower = max((f for f in found if f[0] <= least + _LEVEL), key=lambda f: f[1])
    return follower, angle + turn


def _hull_of(discs: list[Disc], turns: list[tuple[int, float]]) -> Outline:
    arcs = []
    for (i, start), (_, end) in zip(turns, turns[1:] + turns[:1], strict=True):
        centre, radius = discs[i]
        arcs.append(Arc(_on(centre, radius, start), _on(centre, radius, end), centre, True))
    return _joined(arcs)


def _on(centre: Vec2, radius: float, angle: float) -> Vec2:
    return centre[0] + radius * math.cos(angle), centre[1] + radius * math.sin(angle)


def _proper_corners(points: Sequence[Vec2]) -> list[Vec2]:
    """Points without repeats and without those on a straight line between their neighbours."""
    distinct = [p for i, p in enumerate(points) if math.dist(p, points[i - 1]) > _SAME]
    before, after = distinct[-1:] + distinct[:-1], distinct[1:] + distinct[:1]
    return [b for a, b, c in zip(before, distinct, after, strict=True) if abs(_turn(a, b, c)) > _SAME]


def _doubled_area(points: Sequence[Vec2]) -> float:
    return sum(p[0] * q[1] - p[1] * q[0] for p, q in zip(points, [*points[1:], points[0]], strict=True))


def _turn(a: Vec2, b: Vec2, c: Vec2) -> float:
    """Change of heading at b, radians: positive to the left."""
    heading = math.atan2(b[1] - a[1], b[0] - a[0])
    return math.remainder(math.atan2(c[1] - b[1], c[0] - b[0]) - heading, 2 * math.pi)


def _fillet(a: Vec2, b: Vec2, c: Vec2, radius: float) -> Arc:
    """The arc that rounds corner b; without radius where there is no room."""
    turn = _turn(a, b, c)
    back, on = math.dist(a, b), math.dist(b, c)
    room = min(back, on) / 2
    tangent = math.tan(abs(turn) / 2)
    radius = min(radius, room / tangent)
    take = radius * tangent
    start = (b[0] + (a[0] - b[0]) * take / back, b[1] + (a[1] - b[1]) * take / back)
    end = (b[0] + (c[0] - b[0]) * take / on, b[1] + (c[1] - b[1]) * take / on)
    left = math.copysign(radius, turn)
    centre = (start[0] - left * (b[1] - a[1]) / back, start[1] + left * (b[0] - a[0]) / back)
    return Arc(start, end, centre, turn > 0)
