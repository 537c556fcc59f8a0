"""How sure a fitted tube is, from the scatter of patches of its skin.

Noise of a scan is alike from point to point, so that a thousand points are not a thousand measurements. The
skin is cut into patches, and the fit repeated (to first order) with each left out in turn: what that does to
it is what the next scan would do, if noise is alike within a patch and not from patch to patch. To it comes
what no number of points averages out: skin that reads high or low all over (paint, spray), and skin at the
edges of what the scanner saw, which it met at a slant (rule `scan-systematic-share` of the roughness each);
and what a smooth skin hides: software smooths a mesh, and paint covers metal, so that both ends of the axis
and the diameter are off by a least amount, each for itself (rule `scan-floor`).

Source: delete-one-group jackknife, as in Efron, The Jackknife, the Bootstrap and Other
Resampling Plans (1982).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from clampwright.structure.scan.cloud import Array, Indices
from clampwright.structure.scan.covered import edges
from clampwright.structure.scan.cylinder import slopes, square_to
from clampwright.structure.scan.settling import Fitted
from clampwright.structure.uncertainty import coverage
from clampwright.trade.tables import rule

_SECTORS = 4
_SLICES = 12
_SHORTEST_MM = 20.0
"""Shortest slice: noise of a scanner is alike over some millimetres."""
_PATCHES_LEAST = 14
_RINGS_LEAST = 8
_EDGE = np.deg2rad(20.0)


@dataclass(frozen=True, slots=True, eq=False)
class Spread:
    """Covariance (5, 5) of shift along u and v, tilt along u and v, radius, and what else may be off."""

    scatter: Array
    """From the scatter of the points."""
    causes: Array
    """Columns (5, c): what one standard deviation of each systematic cause does."""
    patches: int

    @property
    def covariance(self) -> Array:
        """Of both together."""
        return np.asarray(self.scatter + self.causes @ self.causes.T)

    @property
    def od_plus_minus(self) -> float:
        """± (95 %) of the diameter."""
        return 2.0 * coverage() * float(np.sqrt(self.covariance[4, 4]))

    @property
    def angle_plus_minus(self) -> float:
        """± (95 %) of the axis' direction: of its worse component."""
        return coverage() * float(np.sqrt(np.linalg.eigvalsh(self.covariance[2:4, 2:4])[-1]))

    def across(self, station: float) -> float:
        """± (95 %) of a place of the axis, square to it, in the worse direction."""
        pick = np.array([[1, 0, station, 0, 0], [0, 1, 0, station, 0]], dtype=float)
        return coverage() * float(np.sqrt(np.linalg.eigvalsh(pick @ self.covariance @ pick.T)[-1]))


def spread(fitted: Fitted) -> Spread:
    """How sure a fitted tube is."""
    slope = slopes(fitted.cylinder, fitted.points)
    weight = fitted.weights * fitted.trust
    normal = np.einsum("n,ni,nj->ij", weight, slope, slope)
    scatter, patches = _left_out(fitted, slope, weight, normal)
    causes = np.column_stack([_systematic(fitted, slope, weight, normal), _floor(fitted)])
    return Spread(scatter, causes, patches)


def factor(fitted: Fitted, how: Spread) -> tuple[tuple[float, ...], ...]:
    """Six rows (start x, y, z, end x, y, z), a column for each cause: as in `Uncertainty.factor_mm`.

    Columns: what scatter does (two shifts and two tilts), each systematic cause, and where along the axis
    the skin starts and ends.
    """
    along_errors = ends_along(fitted)
    u, v = square_to(fitted.cylinder.axis)
    values, vectors = np.linalg.eigh(how.scatter[:4, :4])
    columns = np.concatenate([vectors * np.sqrt(np.maximum(values, 0.0)), how.causes[:4]], axis=1)
    rows = []
    for end, station in enumerate((fitted.low, fitted.high)):
        across = np.outer(u, columns[0] + station * columns[2]) + np.outer(
            v, columns[1] + station * columns[3]
        )
        along = np.zeros((3, 2))
        along[:, end] = fitted.cylinder.axis * along_errors[end] / coverage()
        rows.append(np.concatenate([across, along], axis=1))
    return tuple(tuple(float(x) for x in row) for row in np.concatenate(rows))


def ends_along(fitted: Fitted) -> tuple[float, float]:
    """± (95 %) of where the skin starts and ends, along the axis; never under rule `scan-floor`."""
    first, last = (float(np.hypot(error, rule("scan-floor").value)) for error in fitted.end_error)
    return first, last


def _left_out(fitted: Fitted, slope: Array, weight: Array, normal: Array) -> tuple[Array, int]:
    """Covariance by leaving out patches in turn, then whole rings: no parameter is surer than by any of them,
    nor than points that err each on its own would make it."""
    off = fitted.cylinder.off_skin(fitted.points)
    number, rings = patches(fitted)
    count = int(number.max()) + 1
    scatter = _jackknife(number, slope, weight, off, normal)
    others = [_independent(slope, weight, off, normal)]
    if int(rings.max()) + 1 >= _RINGS_LEAST:
        others.append(_jackknife(rings, slope, weight, off, normal))
    most = np.max([np.diag(each) for each in (scatter, *others)], axis=0)
    larger = np.sqrt(most / np.diag(scatter))
    scatter = scatter * np.outer(larger, larger)
    return scatter * (_few(count - 5) / _yield(fitted.trust, weight)) ** 2, count


def _jackknife(number: Indices, slope: Array, weight: Array, off: Array, normal: Array) -> Array:
    """Covariance from what leaving out each group of points does."""
    count = int(number.max()) + 1
    pull = np.stack([np.bincount(number, weight * slope[:, i] * off, count) for i in range(5)], axis=1)
    hold = np.empty((count, 5, 5))
    for i in range(5):
        for j in range(5):
            hold[:, i, j] = np.bincount(number, weight * slope[:, i] * slope[:, j], count)
    left = normal - hold + 1e-9 * np.diag(np.diag(normal))
    step = np.linalg.solve(left, pull[..., None])[..., 0]
    return np.asarray((count - 1) / count * np.einsum("bi,bj->ij", step, step) + 1e-18 * np.eye(5))


def _yield(trust: Array, weight: Array) -> float:
    """How far the robust fit gives to a change of the points, over what its weights alone would say.

    Tukey's ψ(r) = r (1 - u²)² has the slope (1 - u²)(1 - 5 u²), against the weight (1 - u²)².
    """
    inside = np.sqrt(trust)
    slope = np.where(trust > 0, inside * (5.0 * inside - 4.0), 0.0)
    base = weight / np.maximum(trust, 1e-12)
    return float(np.clip(np.sum(base * slope) / np.sum(weight), 0.5, 1.0))


def _independent(slope: Array, weight: Array, off: Array, normal: Array) -> Array:
    inverse = np.linalg.pinv(normal)
    meat = np.einsum("n,ni,nj->ij", np.square(weight * off), slope, slope)
    return np.asarray(inverse @ meat @ inverse)


def _few(freedoms: int) -> float:
    """Student's factor of a spread that few patches tell, over that of many."""
    from scipy.special import stdtrit

    return float(stdtrit(max(freedoms, 1), 0.975)) / coverage()


def patches(fitted: Fitted) -> tuple[Indices, Indices]:
    """Numbers (n,) of the patch and of the slice along the axis that each point lies in.

    Slices are a diameter long or more, sectors a quarter of the turn, or less for enough patches.
    """
    long = float(np.ptp(fitted.cylinder.stations(fitted.points)))
    slices = int(np.clip(long / max(2.0 * fitted.cylinder.radius, _SHORTEST_MM), 3, _SLICES))
    rings = _ring(fitted, slices)
    turn = (fitted.cylinder.angles(fitted.points) - _middle_of_gap(fitted)) % (2 * np.pi)
    seen = float(np.clip(np.ptp(turn) / (2 * np.pi), 0.1, 1.0))
    sectors = int(np.clip(np.ceil(_PATCHES_LEAST / ((int(rings.max()) + 1) * seen)), _SECTORS, 4 * _SECTORS))
    sector = np.minimum((sectors * turn / (2 * np.pi)).astype(np.int64), sectors - 1)
    return _counted(rings * sectors + sector), rings


def _ring(fitted: Fitted, slices: int) -> Indices:
    """Number (n,) of the slice along the axis that each point lies in."""
    station = fitted.cylinder.stations(fitted.points)
    long = max(float(np.ptp(station)), 1e-9)
    return _counted(np.minimum((slices * (station - station.min()) / long).astype(np.int64), slices - 1))


def _counted(number: Indices) -> Indices:
    return np.asarray(np.unique(number, return_inverse=True)[1].reshape(-1), dtype=np.int64)


def _middle_of_gap(fitted: Fitted) -> float:
    """The middle of the widest angle without skin: patches are cut from there on."""
    gap = edges(fitted.cylinder, fitted.skin)
    return 0.0 if gap is None else gap[0] + 0.5 * ((gap[1] - gap[0]) % (2 * np.pi))


def _systematic(fitted: Fitted, slope: Array, weight: Array, normal: Array) -> Array:
    """Columns: all skin off by a share of the roughness (radius only), then each edge of what was seen."""
    off = rule("scan-systematic-share").value * fitted.rms
    columns = [np.array([0.0, 0.0, 0.0, 0.0, off])]
    gap = edges(fitted.cylinder, fitted.skin)
    if gap is not None:
        angle = fitted.cylinder.angles(fitted.points)
        inverse = np.linalg.pinv(normal)
        for edge in gap:
            apart = np.abs((angle - edge + np.pi) % (2 * np.pi) - np.pi)
            columns.append(inverse @ (slope.T @ (weight * off * (apart < _EDGE))))
    return np.column_stack(columns)


def _floor(fitted: Fitted) -> Array:
    """Columns: the radius, then each end of the axis along u and along v while the other end stays.

    A shift a and a tilt b move the axis by a + b t at station t: b = 1 / (t1 - t2), a = -b t2 move it by 1
    at t1 and by nothing at t2.
    """
    off = rule("scan-floor").value / coverage()
    columns = [np.array([0.0, 0.0, 0.0, 0.0, 0.5 * off])]
    for here, there in ((fitted.low, fitted.high), (fitted.high, fitted.low)):
        tilt = off / (here - there)
        columns.append(np.array([-tilt * there, 0.0, tilt, 0.0, 0.0]))
        columns.append(np.array([0.0, -tilt * there, 0.0, tilt, 0.0]))
    return np.column_stack(columns)
