"""Whether a round thing in a scan is a tube, and what a person has to look at before using it."""

from __future__ import annotations

import numpy as np

from clampwright.quantities import show_length
from clampwright.structure.found import NotTaken
from clampwright.structure.scan.cloud import Array
from clampwright.structure.scan.covered import Covered, edges
from clampwright.structure.scan.growing import Piece, skin
from clampwright.structure.scan.sample import Sample
from clampwright.structure.scan.settling import Fitted
from clampwright.structure.scan.straight import bow
from clampwright.trade.tables import rule

_ROUGH = 0.12
"""Roughness over radius beyond which a thing is not round."""
_FILLED = 0.35
"""Share of its skin that a tube has to have where it is covered at all."""
BENT = "a hose or a bent tube"
_RUNS_ON = 0.5
"""Share of the length over which skin has to run on past an edge for it to be a rounded corner."""


def too_thin_or_thick(radius: float, units: str = "mm") -> str:
    """Why a diameter is no tube's; "" where it can be one. Lengths are said in `units`."""
    od, least, most = 2 * radius, rule("scan-od-least").value, rule("scan-od-most").value
    if od < least:
        return f"thinner than {show_length(least, units)}: a bolt, a wire or a small line"
    if od > most:
        return f"thicker than {show_length(most, units)}"
    return ""


def refused(
    sample: Sample, piece: Piece, fitted: Fitted, skin_map: Covered, origin: Array, units: str = "mm"
) -> NotTaken | None:
    """Why a piece is no tube; None where it is one. `origin` is added to the place that is said."""
    why = _why(sample, piece, fitted, skin_map, units)
    if not why:
        return None
    middle = fitted.cylinder.point + 0.5 * (fitted.low + fitted.high) * fitted.cylinder.axis + origin
    place = ", ".join(show_length(float(x), units) for x in middle)
    od, long = (show_length(mm, units) for mm in (2 * fitted.cylinder.radius, fitted.high - fitted.low))
    return NotTaken(f"round, {od} thick and {long} long, about ({place})", why)


def _why(sample: Sample, piece: Piece, fitted: Fitted, skin_map: Covered, units: str) -> str:
    radius, long = fitted.cylinder.radius, fitted.high - fitted.low
    if why := too_thin_or_thick(radius, units):
        return why
    if fitted.inward:
        return "its skin faces inwards: a hole or a bore"
    if long < rule("scan-length-least").value * 2 * radius:
        return f"shorter than {rule('scan-length-least').value:g} of its diameters: a boss, a nut or a ball"
    if why := _why_straight(fitted, units):
        return why
    if fitted.sigma > _ROUGH * radius:
        return f"its skin is off by {show_length(fitted.sigma, units)}: not round"
    return _why_skin(sample, piece, fitted, skin_map, units)


def _why_skin(sample: Sample, piece: Piece, fitted: Fitted, skin_map: Covered, units: str) -> str:
    covered_deg = float(np.rad2deg(skin_map.angle))
    least = rule("scan-coverage-least").value
    if covered_deg < least or np.rad2deg(skin_map.widest_arc) < 0.75 * least:
        return f"only {covered_deg:.0f}° of it is skin (at least {least:g}°): scan it from another side"
    if skin_map.filled < _FILLED:
        share = 100 * skin_map.filled
        return f"only {share:.0f} % of its skin is there: points that happen to lie on a cylinder"
    if covered_deg < rule("scan-coverage-one-sided").value:
        runs = runs_on(sample, piece, fitted)
        if sum(runs) / 2 > _RUNS_ON or max(runs) > 0.8:
            return f"{covered_deg:.0f}° round, and its skin runs on into something else: a rounded corner"
    off = out_of_round(fitted)
    most = rule("scan-out-of-round-mesh" if sample.outward else "scan-out-of-round-points").value
    if off > most * fitted.cylinder.radius:
        return f"out of round by {show_length(off, units)}: a bar with flats, or a rounded corner"
    return ""


def _why_straight(fitted: Fitted, units: str) -> str:
    shape, od = bow(fitted), 2 * fitted.cylinder.radius
    if shape.tapered(od):
        return f"its diameter changes by {show_length(abs(shape.taper), units)} from end to end: a cone"
    if shape.bent(od):
        return f"its axis is an arc of about {show_length(shape.radius, units)}: {BENT}"
    return ""


def runs_on(sample: Sample, piece: Piece, fitted: Fitted) -> tuple[float, float]:
    """Over what share of the length other skin runs on past each edge of what is covered.

    Beside an edge, as much skin within 0.7 of a radius past it as on the near side of it.
    """
    cylinder, radius = fitted.cylinder, fitted.cylinder.radius
    gap = edges(cylinder, fitted.skin)
    if gap is None:
        return 0.0, 0.0
    near = np.flatnonzero(
        (
            np.abs(cylinder.stations(sample.points) - 0.5 * (fitted.low + fitted.high))
            < 0.5 * (fitted.high - fitted.low)
        )
        & (np.abs(cylinder.off_skin(sample.points)) < 0.9 * radius)
    )
    points = sample.points[near]
    on = skin(sample, cylinder, max(fitted.band, piece.band), near)
    station, angle = cylinder.stations(points), cylinder.angles(points)
    flat = (cylinder.off_skin(points) + radius) * np.exp(1j * angle)
    slices = max(3, int((fitted.high - fitted.low) / (1.5 * radius)))
    number = np.clip(
        (slices * (station - fitted.low) / (fitted.high - fitted.low)).astype(int), 0, slices - 1
    )
    shares = []
    for edge, past in ((gap[0], 1.0), (gap[1], -1.0)):
        beside = np.abs(flat - radius * np.exp(1j * edge)) < 0.7 * radius
        beyond = np.sin(past * (angle - edge)) > 0
        off_count = np.bincount(number[beside & beyond & ~on], minlength=slices)
        on_count = np.bincount(number[beside & ~beyond & on], minlength=slices)
        some = on_count > 0
        shares.append(float(np.mean(off_count[some] > 0.4 * on_count[some])) if some.any() else 0.0)
    return shares[0], shares[1]


def out_of_round(fitted: Fitted) -> float:
    """How far the skin lies off the circle, root mean square over the angle that is covered, mm.

    From the mean distance off in sectors of 10°, a shift and another radius taken away, less what the
    scatter in the sectors alone would give.
    """
    off, angle = fitted.cylinder.off_skin(fitted.skin), fitted.cylinder.angles(fitted.skin)
    number = np.floor((angle + np.pi) / (2 * np.pi) * 36).astype(int) % 36
    count = np.bincount(number, minlength=36)
    full = np.flatnonzero(count >= 5)
    mean = np.bincount(number, off, 36)[full] / count[full]
    square = np.bincount(number, off * off, 36)[full] / count[full] - mean * mean
    turn = (full + 0.5) / 36 * 2 * np.pi - np.pi
    terms = np.column_stack([np.ones(len(turn)), np.cos(turn), np.sin(turn)])
    if len(full) < 5:
        return 0.0
    left = mean - terms @ np.linalg.lstsq(terms, mean, rcond=None)[0]
    return float(np.sqrt(max(float(np.mean(left * left - square / count[full])), 0.0)))
