"""One clamp under a body that its bolt goes through: what moves with the body, and what with its tube."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.layout.inputs import Inputs
from clampwright.layout.joined import Loop
from clampwright.layout.own_causes import REACH, SEAT
from clampwright.quantities import Vec3
from clampwright.structure.tubes import Tube

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Linear:
    """A figure's change: what a twist of the body does (6,) and what the inputs do (count,)."""

    twist: Array
    inputs: Array

    def __add__(self, other: Linear) -> Linear:
        """The sum of two."""
        return Linear(self.twist + other.twist, self.inputs + other.inputs)

    def times(self, share: float) -> Linear:
        """A multiple."""
        return Linear(share * self.twist, share * self.inputs)

    def after(self, twists: Array) -> Array:
        """What each input comes to when the body takes these twists (6, count)."""
        return np.asarray(self.inputs + self.twist @ twists, dtype=float)


@dataclass(frozen=True, slots=True)
class ClampRows:
    """The four figures of one clamp, and how it moves.

    With a the tube's direction, n the body's (towards which the clamp's bolt looks), w = n × a made unit:
    """

    across: Linear
    """Bolt axis from its place turn · reach beside the tube, along w."""
    station: Linear
    """Where the clamp ends on its tube, counted from the tube's mark, or start."""
    gap: Linear
    """Length to be filled between foot and body."""
    tilt: Linear
    """n · a."""
    centre: Array
    """Displacement of the tube's point at the clamp's station, shape (3, count)."""
    turned: Array
    """Change of the tube's direction, shape (3, count)."""
    axes: tuple[Array, Array, Array]
    """a, n, w."""
    at: Array
    """The clamp's centre."""


@dataclass(frozen=True, slots=True)
class Body:
    """The rigid body that the bolts go through.

    Its twists here are six numbers in millimetres: rotation times `radius_mm`, then the displacement of
    `origin`.
    """

    n: Array
    origin: Array
    radius_mm: float

    def along(self, point: Array, way: Array) -> Array:
        """Row of a point's displacement along a direction: d·(t + θ × r)."""
        return np.concatenate([np.cross(point - self.origin, way) / self.radius_mm, way])

    def turning(self, axis: Array) -> Array:
        """Row of θ · axis."""
        return np.concatenate([axis / self.radius_mm, np.zeros(3)])

    def world(self, twists: Array) -> Array:
        """Twists as `Settled` has them: rotation (rad), then the displacement of the world's origin."""
        turn = twists[:3] / self.radius_mm
        return np.vstack([turn, twists[3:] - np.cross(turn, self.origin, axis=0)])

    def twists(self, world: Array) -> Array:
        """The same, back."""
        shift = world[3:] + np.cross(world[:3], self.origin, axis=0)
        return np.vstack([world[:3] * self.radius_mm, shift])


def clamp_rows(
    loop: Loop, tube: Tube, ends: Array, n: Array, body: Body, given: Inputs, *, along_bolt: bool = False
) -> ClampRows:
    """The figures of a clamp, linear in the body's twist and in what errs.

    Parameters
    ----------
    loop, tube
        The clamp and its tube or line.
    ends
        What the inputs do to the tube's ends, shape (6, count).
    n
        The body's direction towards which this clamp's bolt looks: `body.n`, or against it.
    body, given
        What the bolt goes through, and everything that may err.
    along_bolt
        Whether a tilted seat counts along the bolt (1/cos, a pair of clamps), not square to the part (cos).
    """
    a, c, rho = np.array(tube.direction), np.array(loop.centre), loop.turn * loop.clamp.reach_mm
    tau = float(n @ a)
    cos = math.sqrt(1.0 - tau * tau)
    w = np.cross(n, a) / cos
    f = np.cross(w, n)
    turned = (np.eye(3) - np.outer(a, a)) @ (ends[3:] - ends[:3]) / tube.length_mm
    mark = 0.0 if tube.mark_mm is None else tube.mark_mm
    share = mark / tube.length_mm
    marked = (1.0 - share) * ends[:3] + share * ends[3:] + np.outer(a, given.slip(tube.name))
    centre = marked + (loop.station_mm - mark) * turned
    bolt = c + rho * w
    reach, seat = given.own_row(REACH, loop.label), given.own_row(SEAT, loop.label)
    across = Linear(body.along(bolt, w), -w @ centre - loop.turn * reach)
    lean = Linear(tau / cos * body.turning(np.cross(n, w)), -(w @ turned) / cos)
    slid = Linear(body.along(bolt, f), -f @ centre) + lean.times(-rho)
    station = slid.times(1.0 / cos)
    tilt = Linear(cos * body.turning(w), n @ turned)
    factor, slope = (1.0 / cos, tau / cos**3) if along_bolt else (cos, -tau / cos)
    height = Linear(body.along(c, n), -n @ centre) + station.times(-tau)
    gap = height + Linear(np.zeros(6), -factor * seat) + tilt.times(-slope * loop.clamp.seat_mm)
    return ClampRows(across, station, gap, tilt, centre, turned, (a, n, w), c)


def clamp_twist(rows: ClampRows, body: Body, twists: Array) -> Array:
    """Twist of the clamp in the world, when the body takes these twists: it follows its tube, slides along
    it, and turns about it so that its bolt stays as square to the body as it can. Shape (6, count)."""
    a, n, w = rows.axes
    tau = float(n @ a)
    cos = math.sqrt(1.0 - tau * tau)
    leaned = (body.turning(np.cross(n, w)) @ twists - tau * (w @ rows.turned)) / cos
    turn = np.cross(a, rows.turned, axis=0) - np.outer(a, leaned)
    shift = rows.centre + np.outer(a, rows.station.after(twists))
    return np.vstack([turn, shift - np.cross(turn, rows.at, axis=0)])


def shifted(rows: ClampRows, way: Vec3, by: Array) -> ClampRows:
    """The same where the body's own hole is off by this much (count,) in a direction of its plane."""
    _, n, w = rows.axes
    f, d = np.cross(w, n), np.array(way)
    cos = math.sqrt(1.0 - float(n @ rows.axes[0]) ** 2)
    across = rows.across + Linear(np.zeros(6), float(d @ w) * by)
    station = rows.station + Linear(np.zeros(6), float(d @ f) / cos * by)
    slope = -float(n @ rows.axes[0]) * float(d @ f) / cos
    gap = rows.gap + Linear(np.zeros(6), slope * by)
    return ClampRows(across, station, gap, rows.tilt, rows.centre, rows.turned, rows.axes, rows.at)
