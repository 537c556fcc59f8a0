"""A tape survey as it was measured: points, tubes between them, and every measurement with its ±."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.quantities import Vec3

CENTRE, OUTSIDE, INSIDE = "centre", "outside", "inside"


@dataclass(frozen=True, slots=True)
class SurveyPoint:
    """A place that things are measured from.

    On a tube's axis (`axis_of`: a weld node, a tube's end, the middle of a ring drawn round it), on a tube's
    skin (`skin_of`: a pen mark on the paint, half the outside diameter from the axis), or neither: a mark on
    the firewall, a bench, the floor.
    """

    name: str
    axis_of: tuple[str, ...] = ()
    skin_of: str | None = None
    rough: Vec3 | None = None
    """Where it is by eye, within a hand's width, in the frame: a start for the search, and the builder's own
    answer to which of two mirror images it is."""
    line: int = 0


@dataclass(frozen=True, slots=True)
class SurveyTube:
    """A tube between two points of its axis."""

    name: str
    start: str
    end: str
    od_mm: float
    mark: str | None = None
    """A point on it (axis or skin) that its stations are counted from; None: from its start."""
    line: int = 0
    beyond_mm: tuple[float, float] | None = None
    """How far it runs on beyond `start` and beyond `end`, to where axes meet or it ends; None: not said."""


@dataclass(frozen=True, slots=True)
class Distance:
    """Tape or calipers between two points.

    "centre": between the points themselves. "outside" and "inside": along the line through both points,
    over the far or the near walls of the tubes that they lie on the axis of: |ab| ± (r_a / sin α_a + r_b /
    sin α_b), α the angle between that line and the tube's axis. `over` names those tubes (a's, b's); ""
    where that point lies on no tube and nothing is to be added.
    """

    a: str
    b: str
    value_mm: float
    error_mm: float
    """± at 95 %."""
    how: str = CENTRE
    over: tuple[str, str] = ("", "")
    line: int = 0


@dataclass(frozen=True, slots=True)
class Along:
    """How much farther `b` lies along an axis of the frame than `a`: heights by level, offsets by square."""

    a: str
    b: str
    axis: str
    """"x", "y" or "z"; z is plumb where the frame is level."""
    value_mm: float
    """Coordinate of b less that of a."""
    error_mm: float
    line: int = 0
    plumb: bool = False
    """True: taken by level or plumb bob, straight up, even where the frame is not level; `axis` is "z"."""


@dataclass(frozen=True, slots=True)
class Plumb:
    """`b` hangs straight above or below `a`: x and y are the same."""

    a: str
    b: str
    error_mm: float
    line: int = 0


@dataclass(frozen=True, slots=True)
class Slope:
    """Angle that a tube rises from level, start to end, by digital level: positive where it rises."""

    tube: str
    value_rad: float
    error_rad: float
    line: int = 0


@dataclass(frozen=True, slots=True)
class Between:
    """Angle between two tubes' directions, both from start to end: 0 to π."""

    one: str
    other: str
    value_rad: float
    error_rad: float
    line: int = 0


Measurement = Distance | Along | Plumb | Slope | Between


@dataclass(frozen=True, slots=True)
class Datum:
    """The frame: its origin, a point that fixes one axis, and what fixes the turn about that axis."""

    origin: str
    axis: str
    """"x", "y" or "z": the axis on whose positive side `through` lies. With `level`, horizontally so."""
    through: str
    level: bool = False
    """True: z is plumb, and `axis` is x or y, level."""
    plane_axis: str | None = None
    """Not level: `in_plane` lies in the plane of `axis` and this axis, on this one's positive side."""
    in_plane: str | None = None


@dataclass(frozen=True, slots=True)
class Side:
    """What the builder says to settle a mirror image: `point` lies farther along `toward` than `than`."""

    point: str
    toward: Vec3
    than: str
    line: int = 0


@dataclass(frozen=True, slots=True)
class Survey:
    """Everything measured on one structure."""

    name: str
    about: str
    units: str
    """"mm" or "in", of what people are shown."""
    points: tuple[SurveyPoint, ...]
    tubes: tuple[SurveyTube, ...]
    measurements: tuple[Measurement, ...]
    datum: Datum
    sides: tuple[Side, ...] = ()
    digest: str = ""
    tape_mm: float | None = None
    """± (95 %) of one reading of the tape; None: a default by rule."""
    assumed: tuple[tuple[str, str], ...] = ()
    """(key, value and why) of everything that the survey leaves out and the reader filled in."""

    def point(self, name: str) -> SurveyPoint:
        """The point with this name; LookupError where there is none."""
        for point in self.points:
            if point.name == name:
                return point
        raise LookupError(f'no point is called "{name}"')

    def tube(self, name: str) -> SurveyTube:
        """The tube with this name; LookupError where there is none."""
        for tube in self.tubes:
            if tube.name == name:
                return tube
        raise LookupError(f'no tube is called "{name}"')
