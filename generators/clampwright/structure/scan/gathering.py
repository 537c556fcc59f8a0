"""Every piece of tube in a scan: candidates grown one after another, pieces in line put together."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from clampwright.structure.scan.candidates import candidates
from clampwright.structure.scan.cloud import Indices
from clampwright.structure.scan.cylinder import Cylinder, fit_robustly
from clampwright.structure.scan.growing import Piece, grow
from clampwright.structure.scan.sample import Sample
from clampwright.structure.wording import counted
from clampwright.trade.tables import rule

Step = Callable[[str, float | None], None]

_FAILS_MOST = 200
"""Attempts in a row that come to nothing before the search ends."""
_FIT_MOST = 4000


def gathered(sample: Sample, step: Step) -> list[Piece]:
    """Pieces of round skin, longest first; what is no tube among them is not judged here."""
    least, most = 0.4 * rule("scan-od-least").value, 0.5 * rule("scan-od-most").value
    gap = rule("scan-gap-most").value
    all_of_them = candidates(sample, least, most)
    free = np.ones(len(sample.points), dtype=bool)
    tried = np.zeros(len(sample.points), dtype=bool)
    pieces: list[Piece] = []
    fails, count = 0, max(len(all_of_them.score), 1)
    for number, seed in enumerate(all_of_them.seed):
        if tried[seed] or not free[seed]:
            continue
        tried[seed] = True
        piece = grow(sample, all_of_them.cylinder(number), int(seed), free, gap)
        fails += 1
        if piece is not None:
            tried[piece.on] = True
            if _worth(piece):
                pieces.append(piece)
                free[_belongs(sample, piece)] = False
                fails = 0
                step(f"{counted(len(pieces), 'round piece')} so far", number / count)
        if fails > _FAILS_MOST:
            break
    return sorted(_in_line(sample, pieces), key=lambda piece: (piece.inward, -piece.length))


def _worth(piece: Piece) -> bool:
    """Whether a piece takes its points away from others: long or all round, and smooth."""
    radius = piece.cylinder.radius
    return piece.length > 1.0 * radius and piece.sigma < 0.12 * radius


def _belongs(sample: Sample, piece: Piece) -> Indices:
    """Points of the sample on a piece, and those that noise lifted a little farther off it."""
    station = piece.cylinder.stations(sample.points)
    near = np.flatnonzero((station >= piece.low) & (station <= piece.high))
    off = np.abs(piece.cylinder.off_skin(sample.points[near]))
    out, _ = piece.cylinder.outward(sample.points[near])
    facing = np.einsum("ij,ij->i", out, sample.normals[near])
    right = np.ones(len(near), dtype=bool) if not sample.outward else (facing < 0) == piece.inward
    return np.asarray(near[(off < 1.3 * piece.band) & right], dtype=np.int64)


def _in_line(sample: Sample, pieces: list[Piece]) -> list[Piece]:
    """Pieces that lie in line and are equally thick put together, across gaps up to rule `scan-gap-most`."""
    left = sorted(pieces, key=lambda piece: -piece.length)
    done: list[Piece] = []
    while left:
        first, rest = left[0], left[1:]
        number, both = _next_in_line(sample, first, rest)
        if both is None:
            done.append(first)
            left = rest
        else:
            left = [both, *rest[:number], *rest[number + 1 :]]
    return done


def _next_in_line(sample: Sample, piece: Piece, others: list[Piece]) -> tuple[int, Piece | None]:
    """The first of some pieces that goes with a piece, and both as one."""
    for number, other in enumerate(others):
        both = _together(sample, piece, other)
        if both is not None:
            return number, both
    return 0, None


def _together(sample: Sample, piece: Piece, other: Piece) -> Piece | None:
    """Two pieces as one; None where they are two things."""
    radius = piece.cylinder.radius
    if piece.inward != other.inward or abs(other.cylinder.radius - radius) > 0.15 * radius:
        return None
    ends = np.array([other.cylinder.point + s * other.cylinder.axis for s in (other.low, other.high)])
    away, station = piece.cylinder.outward(ends)[1], piece.cylinder.stations(ends)
    gap = max(float(station.min()) - piece.high, piece.low - float(station.max()), 0.0)
    lean = 0.1 * radius + 0.05 * (gap + other.length)
    if gap > rule("scan-gap-most").value * 2 * radius or float(away.max()) > lean:
        return None
    on = np.concatenate([piece.on, other.on])
    some = sample.points[on[:: max(1, len(on) // _FIT_MOST)]]
    found, _, sigma = fit_robustly(some, piece.cylinder)
    rough = max(piece.sigma, 0.01 * radius)
    off = np.abs(found.off_skin(sample.points[other.on]))
    if sigma > 1.4 * rough or float(np.median(off)) > 1.5 * max(rough, other.sigma):
        return None
    return _remade(sample, piece, found, on, sigma)


def _remade(sample: Sample, piece: Piece, found: Cylinder, on: Indices, sigma: float) -> Piece:
    station = found.stations(sample.points[on])
    return replace(
        piece, cylinder=found, low=float(station.min()), high=float(station.max()), on=on, sigma=sigma
    )
