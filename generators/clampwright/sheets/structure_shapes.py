"""What the pictures of a structure are made of: rods and spots with their names, and how sure they are."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from clampwright.layout.bodies import Cylinder
from clampwright.quantities import Vec2, Vec3
from clampwright.sheets.silhouettes import Eye, silhouette
from clampwright.structure.tubes import Structure, Tube
from clampwright.structure.uncertainty import Array, coverage
from clampwright.trade.tables import rule

_RIM = 36


@dataclass(frozen=True, slots=True)
class Rod:
    """A tube in a picture: its name, the ends of its axis, its radius, and the place of its mark."""

    name: str
    start: Vec3
    end: Vec3
    radius_mm: float
    mark: Vec3 | None = None

    def at(self, share: float) -> Vec3:
        """The point of the axis that lies `share` of the way from start to end."""
        x, y, z = ((1.0 - share) * a + share * b for a, b in zip(self.start, self.end, strict=True))
        return (x, y, z)

    def outline(self, eye: Eye) -> tuple[Vec2, ...]:
        """Corners of its outline in a view; a rod without length looks like a disc."""
        if math.dist(self.start, self.end) < 1e-6:
            x, y = eye.seen(self.start)
            turns = (2 * math.pi * n / _RIM for n in range(_RIM))
            return tuple((x + self.radius_mm * math.cos(t), y + self.radius_mm * math.sin(t)) for t in turns)
        return silhouette(Cylinder(self.start, self.end, self.radius_mm), eye)


@dataclass(frozen=True, slots=True)
class Spot:
    """A point in a picture. `rows_mm`: what each cause does to it (3, causes), one standard deviation."""

    name: str
    at: Vec3
    rows_mm: tuple[tuple[float, ...], ...] = ()


def rods(tubes: Iterable[Tube]) -> tuple[Rod, ...]:
    """The tubes as rods.

    >>> rods([Tube("t", (0.0, 0.0, 0.0), (9.0, 0.0, 0.0), 2.0, mark_mm=3.0)])[0].mark
    (3.0, 0.0, 0.0)
    """
    return tuple(
        Rod(t.name, t.start, t.end, t.od_mm / 2, None if t.mark_mm is None else t.point(t.mark_mm))
        for t in tubes
    )


def ends(structure: Structure) -> tuple[Spot, ...]:
    """The ends of the tubes with what is known of them; nothing where no uncertainty was worked out."""
    sure = structure.uncertainty
    if sure is None:
        return ()
    known = [tube for tube in structure.tubes if tube.name in sure.tubes]
    spots = [
        Spot("", point, _rows(rows))
        for tube in known
        for point, rows in zip((tube.start, tube.end), np.split(sure.ends(tube.name), 2), strict=True)
    ]
    return tuple(dict.fromkeys(spots))


def placed(name: str, at: Vec3, plus_minus_mm: Vec3) -> Spot:
    """A spot of which only the ± (95 %) of each coordinate is known, as if they erred apart."""
    x, y, z = (each / coverage() for each in plus_minus_mm)
    return Spot(name, at, ((x, 0.0, 0.0), (0.0, y, 0.0), (0.0, 0.0, z)))


def merged(named: Sequence[Spot], sure: Sequence[Spot]) -> tuple[Spot, ...]:
    """Named spots with the better knowledge of the nameless ones at the same place, and those left over."""
    known = {_key(spot.at): spot for spot in sure}
    kept = [replace(s, rows_mm=known.pop(_key(s.at)).rows_mm) if _key(s.at) in known else s for s in named]
    return (*kept, *known.values())


def ellipse(spot: Spot, eye: Eye, times: float = 1.0) -> tuple[Vec2, ...]:
    """The region of a view that holds the spot in 95 of 100 surveys, drawn `times` as large, mm.

    Points p + k L (cos t, sin t) with L Lᵀ = P F Fᵀ Pᵀ, P the view and k² = -2 ln 0.05 (rule
    `coverage-95-plane`): the ellipse of a normal spread in a plane. A spot that nothing is known of has none.

    >>> sure = Spot("A", (0.0, 0.0, 0.0), ((1.0, 0.0), (0.0, 2.0), (0.0, 0.0)))
    >>> x, y = ellipse(sure, Eye((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)))[0]
    >>> round(abs(x), 3), round(abs(y), 3)
    (0.0, 4.895)
    """
    if not spot.rows_mm:
        return ()
    x, y = eye.seen(spot.at)
    long, short, way = _axes(spot, eye)
    k = rule("coverage-95-plane").value * times
    c, s = way
    turns = [2 * math.pi * n / _RIM for n in range(_RIM)]
    arms = [(k * long * math.cos(t), k * short * math.sin(t)) for t in turns]
    return tuple((x + c * a - s * b, y + s * a + c * b) for a, b in arms)


def half_length(spot: Spot, eye: Eye) -> float:
    """Longer half axis of its ellipse in a view, mm; 0 where nothing is known."""
    return rule("coverage-95-plane").value * _axes(spot, eye)[0] if spot.rows_mm else 0.0


def _axes(spot: Spot, eye: Eye) -> tuple[float, float, Vec2]:
    """Standard deviations along and across the direction in which a view shows the spot to err most."""
    seen = np.array([eye.right, eye.up]) @ np.array(spot.rows_mm, dtype=float)
    values, ways = np.linalg.eigh(seen @ seen.T)
    short, long = (math.sqrt(max(float(value), 0.0)) for value in values)
    return long, short, (float(ways[0, 1]), float(ways[1, 1]))


def _rows(rows: Array) -> tuple[tuple[float, ...], ...]:
    return tuple(tuple(float(value) for value in row) for row in rows)


def _key(at: Vec3) -> tuple[float, ...]:
    return tuple(round(each, 4) + 0.0 for each in at)
