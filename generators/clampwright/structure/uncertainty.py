"""How sure the tubes are: how the measured ends of all of them err together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.structure.tubes import Tube
from clampwright.trade.tables import rule

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Uncertainty:
    """Covariance of the ends of the tubes as a factor F: the covariance is F Fᵀ.

    `factor_mm` has six rows a tube, in the order of `tubes`: start x, y, z, end x, y, z. Every column is one
    independent cause of error, and holds what one standard deviation of it does to each coordinate.
    """

    tubes: tuple[str, ...]
    factor_mm: tuple[tuple[float, ...], ...]
    said: str
    """Where it comes from, a phrase: "tape survey oddlark-mount, 31 measurements"."""
    given: bool = True
    """False where it rests on a default that nobody measured."""
    causes_are: tuple[str, ...] = ()
    """What each cause is, one a column, where that is known: the measurement "A-C"; empty where it is not."""
    marks_mm: tuple[tuple[str, tuple[float, ...]], ...] = ()
    """Of each tube whose mark was measured apart from its ends, by name: what one standard deviation of each
    cause does to the mark's place along the tube, columns as in `factor_mm`."""

    @property
    def causes(self) -> int:
        """Number of independent causes of error: columns of the factor."""
        return len(self.factor_mm[0]) if self.factor_mm else 0

    def ends(self, tube: str) -> Array:
        """Rows of one tube, shape (6, causes): start x, y, z, end x, y, z.

        Raises
        ------
        ValueError
            No such tube.
        """
        first = 6 * self.tubes.index(tube)
        return np.array(self.factor_mm[first : first + 6], dtype=float)

    def mark(self, tube: str) -> Array | None:
        """What each cause does to a mark along its tube, shape (causes,); None: it moves as the ends do.

        >>> one = Uncertainty(("t",), ((0.0,),) * 6, "by hand", marks_mm=(("t", (0.5,)),))
        >>> one.mark("t").tolist(), one.mark("u")
        ([0.5], None)
        """
        row = dict(self.marks_mm).get(tube)
        return None if row is None else np.array(row, dtype=float)

    def point(self, tube: Tube, station_mm: float) -> Array:
        """What each cause does to a point of the axis, shape (3, causes); beyond the ends as well.

        A straight tube's axis moves between its ends as they do: (1 - t) start + t end.

        >>> x, rest = ((1.0, 0.0), (0.0, 1.0)), ((0.0, 0.0), (0.0, 0.0))
        >>> ends = Uncertainty(("t",), (x[0], *rest, x[1], *rest), "by hand")
        >>> ends.point(Tube("t", (0.0, 0.0, 0.0), (0.0, 0.0, 100.0), 19.05), 25.0)[0].tolist()
        [0.75, 0.25]
        """
        share = station_mm / tube.length_mm
        rows = self.ends(tube.name)
        return (1.0 - share) * rows[:3] + share * rows[3:]


def independent(tubes: Sequence[Tube], error_mm: float, said: str, *, given: bool = True) -> Uncertainty:
    """Every end point known to ± `error_mm` (95 %) in each coordinate, apart from the others.

    Ends of several tubes at the very same coordinates are one point that was measured once.

    >>> one = Tube("a", (0.0, 0.0, 0.0), (9.0, 0.0, 0.0), 1.0)
    >>> independent((one, Tube("b", (9.0, 0.0, 0.0), (9.0, 9.0, 0.0), 1.0)), 1.96, "by hand").causes
    9
    """
    points = list(dict.fromkeys(point for tube in tubes for point in (tube.start, tube.end)))
    sigma = error_mm / coverage()
    rows = []
    for tube in tubes:
        for point in (tube.start, tube.end):
            first = 3 * points.index(point)
            rows += [
                tuple(sigma if column == first + axis else 0.0 for column in range(3 * len(points)))
                for axis in range(3)
            ]
    return Uncertainty(tuple(tube.name for tube in tubes), tuple(rows), said, given)


def coverage() -> float:
    """Standard deviations that 95 % of a normal spread lie within: rule `coverage-95`."""
    return rule("coverage-95").value


def plus_minus(rows: Array) -> float:
    """± (95 %) of a quantity, from what each cause does to it (one row of a factor).

    >>> round(plus_minus(np.array([3.0, 4.0])), 3)
    9.8
    """
    return coverage() * float(np.sqrt(np.sum(np.square(rows))))
