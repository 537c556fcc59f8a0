"""From a survey to its equations: which row every measurement and every condition becomes."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial

import numpy as np

from clampwright.structure.survey import kinds
from clampwright.structure.survey.equations import Equations, Numbers, Term
from clampwright.structure.survey.kinds import Array, Reading
from clampwright.structure.survey.model import (
    CENTRE,
    OUTSIDE,
    Along,
    Between,
    Distance,
    Measurement,
    Plumb,
    Slope,
    Survey,
)
from clampwright.structure.survey.units import SPAN
from clampwright.structure.uncertainty import coverage
from clampwright.trade.tables import rule

_AXES = ("x", "y", "z")
_CONDITION = -1


@dataclass(slots=True)
class _Kind:
    """Rows of one kind as they are collected."""

    rows: list[int] = field(default_factory=list)
    places: list[tuple[int, ...]] = field(default_factory=list)
    extra: list[tuple[float, ...]] = field(default_factory=list)


@dataclass(slots=True)
class _Rows:
    """Everything collected so far."""

    survey: Survey
    numbers: dict[str, int]
    kinds: dict[str, _Kind] = field(default_factory=dict)
    measured: list[float] = field(default_factory=list)
    sigma: list[float] = field(default_factory=list)
    of: list[int] = field(default_factory=list)
    about: list[str] = field(default_factory=list)

    def add(
        self,
        kind: str,
        places: tuple[int, ...],
        value: float,
        error: float,
        of: int = _CONDITION,
        extra: tuple[float, ...] = (),
        about: str = "",
    ) -> None:
        """One row; `error` is ± at 95 %."""
        group = self.kinds.setdefault(kind, _Kind())
        group.rows.append(len(self.measured))
        group.places.append(places)
        group.extra.append(extra)
        self.measured.append(value)
        self.sigma.append(error / coverage())
        self.of.append(of)
        self.about.append(about)

    def ends(self, tube: str) -> tuple[int, int]:
        """Numbers of a tube's ends."""
        found = self.survey.tube(tube)
        return self.numbers[found.start], self.numbers[found.end]


def equations(survey: Survey) -> Equations:
    """The survey's equations: its measurements, and the conditions that hold points to tubes.

    The frame is fixed by leaving out coordinates of the datum's points, not by weights. Where the frame is
    not level and something was measured by plumb or level, the upward vector is found along with the points.
    """
    numbers = {point.name: number for number, point in enumerate(survey.points)}
    rows = _Rows(survey, numbers)
    for number, measurement in enumerate(survey.measurements):
        add_measurement(rows, number, measurement)
    _hold_to_tubes(rows)
    if finds_up(survey):
        rows.add("length", (len(numbers),), SPAN, SPAN * 1e-6, about="the upward vector's length")
    return _gathered(rows, free_columns(survey))


def rows_of(survey: Survey, measurements: tuple[Measurement, ...], free: Numbers) -> Equations:
    """Equations of other measurements on the same points, in the same columns, without conditions."""
    numbers = {point.name: number for number, point in enumerate(survey.points)}
    rows = _Rows(survey, numbers)
    for number, measurement in enumerate(measurements):
        add_measurement(rows, number, measurement)
    return _gathered(rows, free)


def uses_up(measurement: Measurement) -> bool:
    """Whether a measurement is taken against gravity, whatever the frame's axes are."""
    plumb_height = isinstance(measurement, Along) and measurement.plumb
    return plumb_height or isinstance(measurement, Plumb | Slope)


def finds_up(survey: Survey) -> bool:
    """Whether the direction of gravity has to be found: something feels it, and the frame is not level."""
    return not survey.datum.level and any(uses_up(m) for m in survey.measurements)


def add_measurement(rows: _Rows, number: int, measurement: Measurement) -> None:
    """The row or rows of one measurement."""
    at, up = rows.numbers, len(rows.numbers)
    match measurement:
        case Distance(a=a, b=b, value_mm=value, error_mm=error, how=how):
            if how == CENTRE:
                rows.add("centre", (at[a], at[b]), value, error, number)
            else:
                places, extra = _walls(rows, measurement)
                rows.add("walls", places, value, error, number, extra)
        case Along(a=a, b=b, axis=axis, value_mm=value, error_mm=error, plumb=plumb):
            if plumb and not rows.survey.datum.level:
                rows.add("rise", (at[a], at[b], up), value, error, number)
            else:
                axis = "z" if plumb else axis
                rows.add("along", (at[a], at[b]), value, error, number, _unit(axis))
        case Plumb(a=a, b=b, error_mm=error):
            rows.add("plumb1", (at[a], at[b], up), 0.0, error, number)
            rows.add("plumb2", (at[a], at[b], up), 0.0, error, number)
        case Slope(tube=tube, value_rad=value, error_rad=error):
            rows.add("slope", (*rows.ends(tube), up), value, error, number)
        case Between(one=one, other=other, value_rad=value, error_rad=error):
            rows.add("between", (*rows.ends(one), *rows.ends(other)), value, error, number)


def _walls(rows: _Rows, distance: Distance) -> tuple[tuple[int, ...], tuple[float, ...]]:
    """Places and radii of a distance over walls; a point on no tube has the radius 0."""
    a, b = rows.numbers[distance.a], rows.numbers[distance.b]
    places, radii = [a, b], []
    for tube in distance.over:
        places += rows.ends(tube) if tube else (a, b)
        radii.append(rows.survey.tube(tube).od_mm / 2 if tube else 0.0)
    return tuple(places), (*radii, 1.0 if distance.how == OUTSIDE else -1.0)


def _hold_to_tubes(rows: _Rows) -> None:
    """Points between a tube's ends on its axis, marks on its skin."""
    near_axis, near_skin = rule("survey-axis-off").value, rule("survey-skin-off").value
    for point in rows.survey.points:
        at = rows.numbers[point.name]
        for tube in point.axis_of:
            ends = rows.ends(tube)
            if at not in ends:
                about = f"{point.name} on the axis of {tube}"
                rows.add("axis1", (at, *ends), 0.0, near_axis, about=about)
                rows.add("axis2", (at, *ends), 0.0, near_axis, about=about)
        if point.skin_of is not None:
            radius = rows.survey.tube(point.skin_of).od_mm / 2
            about = f"{point.name} on the skin of {point.skin_of}"
            rows.add("skin", (at, *rows.ends(point.skin_of)), radius, near_skin, about=about)


def _gathered(rows: _Rows, free: Numbers) -> Equations:
    return Equations(
        tuple(_term(name, kind) for name, kind in rows.kinds.items()),
        np.array(rows.measured, dtype=float),
        np.array(rows.sigma, dtype=float),
        np.array(rows.of, dtype=np.intp),
        tuple(rows.about),
        free,
        len(rows.numbers) + 1,
        _small(rows.survey),
    )


def _small(survey: Survey) -> float:
    """Motion d square to a typical distance L that lengthens it by its own ±: d²/2L = ±."""
    taken = [m for m in survey.measurements if isinstance(m, Distance)]
    if not taken:
        return SPAN
    far, error = (float(np.median([getattr(m, of) for m in taken])) for of in ("value_mm", "error_mm"))
    return float(np.sqrt(2.0 * max(far, error) * error * rule("survey-loose-bend").value))


def _term(name: str, kind: _Kind) -> Term:
    extra = np.array(kind.extra, dtype=float)
    return Term(np.array(kind.rows), np.array(kind.places), _reads(name, extra))


def _reads(name: str, extra: Array) -> Callable[[Array], Reading]:
    plain: dict[str, Callable[[Array], Reading]] = {
        "centre": kinds.centre,
        "rise": kinds.along_up,
        "plumb1": partial(kinds.across_up, part=0),
        "plumb2": partial(kinds.across_up, part=1),
        "axis1": partial(kinds.off_axis, part=0),
        "axis2": partial(kinds.off_axis, part=1),
        "skin": kinds.from_axis,
        "slope": kinds.slope,
        "between": kinds.between,
        "length": kinds.length_of,
    }
    if name == "walls":
        return partial(kinds.over_walls, radii=extra[:, :2], sign=extra[:, 2])
    if name == "along":
        return partial(kinds.along_axis, axes=extra)
    return plain[name]


def _unit(axis: str) -> tuple[float, float, float]:
    x, y, z = (1.0 if axis == name else 0.0 for name in _AXES)
    return x, y, z


def free_columns(survey: Survey) -> Numbers:
    """Every coordinate that the datum does not fix, the upward vector's last."""
    numbers = {point.name: number for number, point in enumerate(survey.points)}
    datum, fixed = survey.datum, set()
    first = _AXES.index(datum.axis)
    fixed |= {3 * numbers[datum.origin] + axis for axis in range(3)}
    through = 3 * numbers[datum.through]
    if datum.level:
        fixed.add(through + (1 if first == 0 else 0))
    else:
        fixed |= {through + axis for axis in range(3) if axis != first}
        if datum.in_plane is not None and datum.plane_axis is not None:
            held = {first, _AXES.index(datum.plane_axis)}
            fixed |= {3 * numbers[datum.in_plane] + axis for axis in range(3) if axis not in held}
    if not finds_up(survey):
        fixed |= {3 * len(numbers) + axis for axis in range(3)}
    return np.array([c for c in range(3 * (len(numbers) + 1)) if c not in fixed], dtype=np.intp)
