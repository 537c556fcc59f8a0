"""How one body drifts when the tubes are not where they were measured, cause by cause."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from clampwright.layout.bodies import Body, Box
from clampwright.quantities import Vec3
from clampwright.quantities.directions import unit
from clampwright.structure.tubes import Tube
from clampwright.structure.uncertainty import Uncertainty

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Drift:
    """What one standard deviation of each cause does to the places of one body: origin + matrix · place."""

    matrix: Array
    """Shape (3, 3, causes)."""
    origin: Array
    """What it does at the world's origin, mm, shape (3, causes)."""

    def at(self, place: Vec3) -> Array:
        """Displacement of a place of the body, shape (3, causes)."""
        found: Array = self.origin + np.einsum("ijc,j->ic", self.matrix, np.array(place))
        return found

    def towards(self, way: Vec3, places: Sequence[Vec3]) -> Array:
        """Displacement of several places along a unit vector, shape (places, causes)."""
        n = np.array(way)
        found: Array = np.array(places) @ np.tensordot(n, self.matrix, 1) + n @ self.origin
        return found

    def moved(self, body: Body, z: Array) -> Body:
        """A body of this drift where each cause errs by so many standard deviations, z (causes,)."""
        turn, shift = self.matrix @ z, self.origin @ z

        def place(p: Vec3) -> Vec3:
            x, y, w = (np.array(p) + shift + turn @ np.array(p)).tolist()
            return (x, y, w)

        if not isinstance(body, Box):
            return replace(body, start=place(body.start), end=place(body.end))
        i, j, k = (unit(_vec(np.array(axis) + turn @ np.array(axis))) for axis in body.axes)
        return Box(place(body.centre), (i, j, k), body.half)

    def most(self, centre: Vec3, radius_mm: float) -> float:
        """One standard deviation that no place within a ball exceeds in any direction, mm."""
        turn = float(np.sqrt(np.sum(np.square(self.matrix))))
        return float(np.sqrt(np.sum(np.square(self.at(centre))))) + radius_mm * turn


def _vec(a: Array) -> Vec3:
    x, y, z = a.tolist()
    return (x, y, z)


def rigid(twist: Array) -> Drift:
    """The drift of a rigid body from its twist: t + θ × p.

    >>> quarter = rigid(np.array([[0.0], [0.0], [1.0], [0.0], [0.0], [0.0]]))
    >>> quarter.at((2.0, 0.0, 0.0)).ravel().tolist()
    [0.0, 2.0, 0.0]
    """
    matrix = np.zeros((3, 3, twist.shape[1]))
    for i, j, k, sign in ((0, 1, 2, -1.0), (1, 2, 0, -1.0), (2, 0, 1, -1.0)):
        matrix[i, j], matrix[j, i] = sign * twist[k], -sign * twist[k]
    return Drift(matrix, np.array(twist[3:], dtype=float))


def of_tube(tube: Tube, uncertainty: Uncertainty, causes: int) -> Drift:
    """The drift of a tube: its axis goes with its ends, what lies beside the axis turns with it.

    With d the drift of its end less that of its start, a its direction and L its length, a place drifts by
    that of the start and (d aᵀ − a dᵀ (1 − a aᵀ))/L times its distance from there.
    """
    rows = np.zeros((6, causes))
    rows[:, : uncertainty.causes] = uncertainty.ends(tube.name)
    start, d = rows[:3], rows[3:] - rows[:3]
    a = np.array(tube.direction)
    beside = d - np.multiply.outer(a, a @ d)
    matrix = (np.einsum("ic,j->ijc", d, a) - np.einsum("i,jc->ijc", a, beside)) / tube.length_mm
    return Drift(matrix, start - np.einsum("ijc,j->ic", matrix, np.array(tube.start)))


def turned(drift: Drift, about: Drift, place: Vec3, turn: Array) -> Drift:
    """The drift of a body turned by a rotation about a line that itself drifts.

    Parameters
    ----------
    drift
        Of the body before it was turned.
    about
        Of what the line belongs to.
    place
        A place on the line, world.
    turn
        The rotation, shape (3, 3).
    """
    c = np.array(place)
    off = drift.matrix - about.matrix
    matrix = about.matrix + np.einsum("ij,jkc,lk->ilc", turn, off, turn)
    at_place = drift.at(place) - about.at(place)
    origin = about.origin + np.einsum("ij,jc->ic", turn, at_place)
    origin -= np.einsum("ijc,j->ic", matrix - about.matrix, c)
    return Drift(matrix, origin)


def slid(drift: Drift, by: Vec3) -> Drift:
    """The drift of a body that was shifted: that of the place it came from."""
    return Drift(drift.matrix, drift.origin - np.einsum("ijc,j->ic", drift.matrix, np.array(by)))
