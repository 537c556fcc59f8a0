"""Two tubes that lie in a plane, from how far apart they are: the everyday case."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.structure.survey.model import INSIDE, OUTSIDE
from clampwright.structure.tubes import Tube
from clampwright.structure.uncertainty import Uncertainty, coverage
from clampwright.trade.tables import rule

_OVER = {OUTSIDE: 1.0, INSIDE: -1.0}
"""How often the walls of both tubes are in a spacing; centre to centre has none."""


@dataclass(frozen=True, slots=True)
class TwoTubes:
    """Two tubes in a plane as they were measured.

    A spacing is taken square to the first tube at a station along it: over the far walls of both ("outside"),
    between their near walls ("inside"), or from axis to axis ("centre").
    """

    names: tuple[str, str]
    od_mm: tuple[float, float]
    length_mm: float
    """Along the first tube, from station 0: how much of both is of interest."""
    how: str
    spacings: tuple[tuple[float, float], ...]
    """(station, spacing), mm: two of them, or one and `splay_rad`."""
    splay_rad: float | None = None
    """Angle between them: positive where they move apart along the first, negative where they close in."""
    error_mm: float = 0.0
    """± (95 %) of each spacing, and of each station."""
    splay_error_rad: float = 0.0
    """± (95 %) of the angle."""
    out_of_plane_mm: float = 0.0
    """± (95 %) of each end of the second tube, off the plane."""


def splay(two: TwoTubes) -> float:
    """Angle (rad) by which the second tube leaves the first: measured, or tan θ = (m₂ - m₁) / (s₂ - s₁).

    Over the far or the near walls of both, r₁ + r₂ / cos θ is in both spacings alike, and drops out.

    >>> two = TwoTubes(("a", "b"), (20.0, 20.0), 400.0, "outside", ((0.0, 120.0), (300.0, 150.0)))
    >>> round(math.degrees(splay(two)), 3)
    5.711
    """
    if two.splay_rad is not None:
        return two.splay_rad
    (s1, m1), (s2, m2) = two.spacings
    return math.atan2((m2 - m1) * math.copysign(1.0, s2 - s1), abs(s2 - s1))


def apart(two: TwoTubes, station_mm: float) -> float:
    """Distance (mm) of the axes at a station, square to the first: m₁ + (x - s₁) tan θ ∓ (r₁ + r₂/cos θ).

    >>> two = TwoTubes(("a", "b"), (20.0, 20.0), 400.0, "inside", ((50.0, 80.0),), splay_rad=0.0)
    >>> apart(two, 300.0)
    100.0
    """
    station, spacing = two.spacings[0]
    angle = splay(two)
    return spacing + (station_mm - station) * math.tan(angle) - _OVER.get(two.how, 0.0) * _walls(two, angle)


def clear(two: TwoTubes, station_mm: float) -> float:
    """Clear distance (mm) between the tubes at a station, square to the first; negative where they overlap.

    >>> two = TwoTubes(("a", "b"), (20.0, 20.0), 400.0, "centre", ((50.0, 80.0),), splay_rad=0.0)
    >>> clear(two, 0.0)
    60.0
    """
    return apart(two, station_mm) - _walls(two, splay(two))


def touching(two: TwoTubes) -> tuple[float, float] | None:
    """The stations (mm) between which the tubes would overlap, within their length; None where nowhere.

    >>> two = TwoTubes(("a", "b"), (20.0, 20.0), 400.0, "centre", ((100.0, 40.0), (400.0, 100.0)))
    >>> [round(station, 2) for station in touching(two)]
    [0.0, 0.99]
    """
    first, last = clear(two, 0.0), clear(two, two.length_mm)
    if first >= 0 and last >= 0:
        return None
    if first < 0 and last < 0:
        return 0.0, two.length_mm
    meet = two.length_mm * first / (first - last)
    return (0.0, meet) if first < 0 else (meet, two.length_mm)


def tubes(two: TwoTubes) -> tuple[Tube, Tube]:
    """The two tubes: the first along +x from the origin, the second beside it at +y, both at z = 0.

    Each station of the first lies square across from that place of the second; it ends there too.

    >>> two = TwoTubes(("a", "b"), (20.0, 20.0), 400.0, "outside", ((0.0, 120.0), (400.0, 120.0)))
    >>> [(tube.start, tube.end) for tube in tubes(two)]
    [((0.0, 0.0, 0.0), (400.0, 0.0, 0.0)), ((0.0, 100.0, 0.0), (400.0, 100.0, 0.0))]
    """
    one, other = two.names
    length = two.length_mm
    return (
        Tube(one, (0.0, 0.0, 0.0), (length, 0.0, 0.0), two.od_mm[0]),
        Tube(other, (0.0, apart(two, 0.0), 0.0), (length, apart(two, length), 0.0), two.od_mm[1]),
    )


def uncertainty(two: TwoTubes, given: bool = True) -> Uncertainty:
    """How sure the second tube is, the first taken as the frame: one cause for each thing that was measured.

    The causes are: each spacing with its station, or the spacing and the angle; the outside diameters
    (± of calipers, rule `caliper-error`) where walls are measured over; and each end off the plane.

    >>> spacings = ((0.0, 120.0), (300.0, 120.0))
    >>> two = TwoTubes(("a", "b"), (20.0, 20.0), 300.0, "centre", spacings, error_mm=1.96)
    >>> uncertainty(two).ends("b")[1].tolist()
    [1.0, 0.0, 0.0, 0.0]
    """
    off = two.out_of_plane_mm / coverage()
    start, end = (_causes(two, station) for station in (0.0, two.length_mm))
    none = (0.0,) * (len(start) + 2)
    no_z = (0.0,) * len(start)
    second = (none, (*start, 0.0, 0.0), (*no_z, off, 0.0), none, (*end, 0.0, 0.0), (*no_z, 0.0, off))
    said = "two tubes in a plane, by their spacing" + (" and angle" if two.splay_rad is not None else "")
    return Uncertainty(two.names, (none,) * 6 + second, said, given, _called(two))


def _called(two: TwoTubes) -> tuple[str, ...]:
    """What each cause is."""
    one, other = two.names
    measured = ("their spacing", "their angle") if two.splay_rad is not None else ("spacing 1", "spacing 2")
    walls = (f"od of {one}", f"od of {other}") if two.how in _OVER else ()
    return (*measured, *walls, f"start of {other} off the plane", f"end of {other} off the plane")


def _walls(two: TwoTubes, angle: float) -> float:
    """What the walls of both add to the distance of the axes, square to the first: r₁ + r₂ / cos θ."""
    return two.od_mm[0] / 2 + two.od_mm[1] / 2 / math.cos(angle)


def _causes(two: TwoTubes, station: float) -> tuple[float, ...]:
    """What one standard deviation of each cause does to the distance of the axes at a station."""
    angle, over = splay(two), _OVER.get(two.how, 0.0)
    tan = math.tan(angle)
    turns = station - two.spacings[0][0] - over * two.od_mm[1] / 2 * math.sin(angle)
    sigma = two.error_mm / coverage() * math.hypot(1.0, tan)
    if two.splay_rad is not None:
        first = (sigma, turns * (1.0 + tan**2) * two.splay_error_rad / coverage())
    else:
        share = turns / (two.spacings[1][0] - two.spacings[0][0])
        first = (sigma * (1.0 - share), sigma * share)
    if not over:
        return first
    od = rule("caliper-error").value / coverage() / 2
    return (*first, -over * od, -over * od / math.cos(angle))
