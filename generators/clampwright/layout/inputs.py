"""Everything that may err under a layout: six coordinates a tube, its own causes, marks, as columns."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.layout.own_causes import OwnCause
from clampwright.structure.tubes import Tube
from clampwright.structure.uncertainty import Uncertainty

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Inputs:
    """Columns, in order: start x, y, z, end x, y, z of each tube, one for each own cause, one for each mark.

    That of a mark is how much farther along its tube it lies than its ends have it.
    """

    tubes: tuple[Tube, ...]
    own: tuple[OwnCause, ...]

    @property
    def count(self) -> int:
        """Number of columns."""
        return 6 * len(self.tubes) + len(self.own) + len(self.marked)

    @property
    def marked(self) -> tuple[str, ...]:
        """Names of the tubes that have a mark."""
        return tuple(tube.name for tube in self.tubes if tube.mark_mm is not None)

    def slip(self, tube: str) -> Array:
        """What each column does to how far a tube's mark lies off where its ends have it, shape (count,)."""
        found = np.zeros(self.count)
        if tube in self.marked:
            found[self.slip_column(tube)] = 1.0
        return found

    def slip_column(self, tube: str) -> int:
        """The column of a tube's mark."""
        return 6 * len(self.tubes) + len(self.own) + self.marked.index(tube)

    def ends(self, tube: str) -> Array:
        """What each column does to a tube's ends, shape (6, count)."""
        found = np.zeros((6, self.count))
        first = 6 * [t.name for t in self.tubes].index(tube)
        found[:, first : first + 6] = np.eye(6)
        return found

    def own_row(self, kind: str, of: str, axis: int = 0) -> Array:
        """What each column does to one of the layout's own figures, shape (count,); nothing where it does not
        err."""
        found = np.zeros(self.count)
        for i, cause in enumerate(self.own):
            if cause.kind == kind and cause.axis == axis and of in cause.of:
                found[6 * len(self.tubes) + i] = 1.0
        return found

    def factor(self, sure: Uncertainty) -> Array:
        """What one standard deviation of each cause does to each column, shape (count, causes).

        Causes are those of the uncertainty, then the own ones.
        """
        found = np.zeros((self.count, sure.causes + len(self.own)))
        for i, tube in enumerate(self.tubes):
            found[6 * i : 6 * i + 6, : sure.causes] = sure.ends(tube.name)
            mark = sure.mark(tube.name)
            if tube.mark_mm is not None and mark is not None:
                along = np.array(tube.direction) @ sure.point(tube, tube.mark_mm)
                found[self.slip_column(tube.name), : sure.causes] = mark - along
        for i, cause in enumerate(self.own):
            found[6 * len(self.tubes) + i, sure.causes + i] = cause.sigma_mm
        return found


def inputs(tubes: Sequence[Tube], own: Sequence[OwnCause]) -> Inputs:
    """Columns of some tubes (each once) and own causes.

    >>> inputs([Tube("t", (0.0, 0.0, 0.0), (9.0, 0.0, 0.0), 1.0)], []).count
    6
    """
    return Inputs(tuple({tube.name: tube for tube in tubes}.values()), tuple(own))
