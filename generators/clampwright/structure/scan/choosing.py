"""Which round pieces of a scan are tubes: each fitted, judged, and held against the others."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from clampwright.structure.found import NotTaken
from clampwright.structure.scan.cloud import Array, Cloud
from clampwright.structure.scan.covered import Covered, covered
from clampwright.structure.scan.growing import Piece
from clampwright.structure.scan.judging import BENT, refused, too_thin_or_thick
from clampwright.structure.scan.sample import Sample
from clampwright.structure.scan.settling import Fitted, settled, upright
from clampwright.trade.tables import rule

_ALONG = math.cos(math.radians(15.0))
_GOES_ON = math.cos(math.radians(25.0))


@dataclass(frozen=True, slots=True, eq=False)
class Chosen:
    """A tube: its fit, where it has skin, and its bore where a mesh shows it."""

    fitted: Fitted
    skin: Covered
    bore: float | None = None


def chosen(
    cloud: Cloud, sample: Sample, pieces: list[Piece], origin: Array, units: str = "mm"
) -> tuple[list[Chosen], list[NotTaken]]:
    """Tubes, and what was not taken for one; `origin` is added to places that are said, in `units`."""
    cloud, pieces = _right_side_out(cloud, pieces)
    taken: list[Chosen] = []
    bends: list[Fitted] = []
    not_taken: list[NotTaken] = []
    for piece in pieces:
        fitted = settled(cloud, sample, piece, _meeting(piece, pieces))
        if fitted is None or _is_a_bore(fitted, taken):
            continue
        fitted = upright(fitted)
        skin = covered(fitted.cylinder, fitted.skin, fitted.low, fitted.high)
        why = refused(sample, piece, fitted, skin, origin, units)
        if why is None:
            taken.append(Chosen(fitted, skin))
        elif BENT in why.why:
            bends.append(fitted)
        if why is not None and _worth_saying(fitted, skin):
            not_taken.append(why)
    return _off_bends(taken, bends), not_taken


def _right_side_out(cloud: Cloud, pieces: list[Piece]) -> tuple[Cloud, list[Piece]]:
    """A mesh in which every round thing faces its axis is inside out: its facets are turned over."""
    if cloud.facets is None or not pieces or not all(piece.inward for piece in pieces):
        return cloud, pieces
    turned = [replace(piece, inward=False) for piece in pieces]
    return Cloud(cloud.points, cloud.facets[:, ::-1], cloud.left_out), turned


def _worth_saying(fitted: Fitted, skin: Covered) -> bool:
    """Whether a person would look for it among the tubes: long, as thick as one, and no groove or edge."""
    long = fitted.high - fitted.low > rule("scan-length-least").value * 2 * fitted.cylinder.radius
    edge = skin.angle < math.pi and (fitted.inward or too_thin_or_thick(fitted.cylinder.radius) != "")
    return long and not edge


def _meeting(piece: Piece, pieces: list[Piece]) -> list[Piece]:
    """Other pieces long enough to be tubes that do not lie along this one."""
    least = rule("scan-length-least").value
    return [
        other
        for other in pieces
        if other.length > least * 2 * other.cylinder.radius
        and abs(float(other.cylinder.axis @ piece.cylinder.axis)) < _ALONG
    ]


def _is_a_bore(fitted: Fitted, taken: list[Chosen]) -> bool:
    """Whether it is the bore of a tube, or noise inside one; the bore of a mesh is noted with its tube."""
    for number, tube in enumerate(taken):
        outer = tube.fitted
        away, station = _ends(fitted, outer)
        radius = outer.cylinder.radius
        inside = (station > outer.low - radius) & (station < outer.high + radius)
        if fitted.cylinder.radius < radius and inside.all() and away.max() < 0.1 * radius:
            if fitted.inward:
                taken[number] = replace(tube, bore=2 * fitted.cylinder.radius)
            return True
    return False


def _off_bends(taken: list[Chosen], bends: list[Fitted]) -> list[Chosen]:
    """Tubes without those short pieces that go on into a bend of the same thickness: a hose in pieces."""
    short = 1.25 * rule("scan-length-short").value
    left, last = taken, -1
    while len(left) != last:
        last, kept = len(left), []
        for tube in left:
            long = tube.fitted.high - tube.fitted.low
            if long < short * 2 * tube.fitted.cylinder.radius and any(
                _on_from(tube.fitted, b) for b in bends
            ):
                bends = [*bends, tube.fitted]
            else:
                kept.append(tube)
        left = kept
    return left


def _on_from(fitted: Fitted, bend: Fitted) -> bool:
    """Whether a piece starts about where a bend of the same thickness ends, in about its direction."""
    radius = bend.cylinder.radius
    if abs(fitted.cylinder.radius - radius) > 0.1 * radius:
        return False
    ends = [[f.cylinder.point + s * f.cylinder.axis for s in (f.low, f.high)] for f in (fitted, bend)]
    apart = min(float(np.linalg.norm(a - b)) for a in ends[0] for b in ends[1])
    return apart < 6.0 * radius and abs(float(fitted.cylinder.axis @ bend.cylinder.axis)) > _GOES_ON


def _ends(fitted: Fitted, outer: Fitted) -> tuple[Array, Array]:
    """Distances of the ends from another axis, and their stations along it."""
    ends = np.array([fitted.cylinder.point + s * fitted.cylinder.axis for s in (fitted.low, fitted.high)])
    return outer.cylinder.outward(ends)[1], outer.cylinder.stations(ends)
