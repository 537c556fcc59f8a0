"""Supports: whether the clamps keep the plate from turning, and whether its weight lies between them."""

from __future__ import annotations

from functools import partial

import numpy as np
import numpy.typing as npt

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.axes import on_one_axis
from clampwright.checks.finding import Finding
from clampwright.checks.wording import at_least, shown
from clampwright.layout.placed import PlateLayout
from clampwright.layout.said import named_list
from clampwright.trade.tables import rule

Array = npt.NDArray[np.float64]

_line = partial(Finding, "SUPPORT-1", "supports not on one line")
_weight = partial(Finding, "SUPPORT-2", "weight between the clamps")


def spread(points: Array) -> tuple[float, float]:
    """Length and width of a pattern of points (n, 2) along and across its principal line, mm.

    The line is the eigenvector of the greater eigenvalue of the points' scatter matrix.

    >>> length, width = spread(np.array([[0.0, 0.0], [40.0, 0.0], [40.0, 10.0], [0.0, 10.0]]))
    >>> round(length, 6), round(width, 6)
    (40.0, 10.0)
    """
    centred = points - points.mean(axis=0)
    _, vectors = np.linalg.eigh(centred.T @ centred)
    extents = np.ptp(centred @ vectors, axis=0)
    return float(extents[1]), float(extents[0])


def one_line(layout: PlateLayout) -> tuple[Finding, ...]:
    """SUPPORT-1: two or more clamps, and the holes do not lie on one line that the plate can rock about."""
    found = partial(_line, where="plate", unit="", sources=(rule("support-spread-least").source,))
    least = rule("support-spread-least").value
    points = np.array([c.at for c in layout.clamps], dtype=float).reshape(-1, 2)
    length, width = spread(points) if len(points) > 1 else (0.0, 0.0)
    if length <= SAME_MM:
        apart = at_least(rule("support-apart").value, layout)
        says = "One bolt alone holds the plate: it can turn about that bolt."
        change = f"Add a second clamp at least {apart} away."
        return (found(verdict="fail", value=0.0, limit=least, says=says, change=change),)
    ratio = width / length
    if ratio >= least:
        says = (
            f"{len(points)} clamps spread over {shown(length, layout)} by {shown(width, layout)}: "
            "the plate cannot rock about a line."
        )
        return (found(verdict="pass", value=ratio, limit=least, says=says, change=""),)
    off = at_least(least * length, layout)
    change = f"Add or move a clamp so that one hole lies at least {off} off that line."
    labels = named_list(tuple(c.label for c in layout.clamps))
    nearly = "" if width < SAME_MM else "nearly "
    says = (
        f"Holes {labels} lie {nearly}on one line (within {shown(width, layout)} over {shown(length, layout)})"
    )
    if on_one_axis(layout.clamps, least * length):
        says = f"{says}, along their tube: only the grip of the cushions keeps the plate from swinging."
        return (found(verdict="fail", value=ratio, limit=least, says=says, change=change),)
    says = f"{says}: the plate can rock about it as far as the bands give."
    return (found(verdict="caution", value=ratio, limit=least, says=says, change=change),)


def outside_by(points: Array, at: Array) -> float:
    """How far a point lies outside the convex hull of points (n, 2), mm; 0 inside.

    By the half-planes of every two points: a point is in the hull where no line through two of them has
    all of them on its other side; outside, the nearest place lies on a segment between two of them.

    >>> square = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]])
    >>> outside_by(square, np.array([5.0, 5.0])), outside_by(square, np.array([13.0, 14.0]))
    (0.0, 5.0)
    """
    if len(points) == 1:
        return float(np.linalg.norm(at - points[0]))
    i, j = np.triu_indices(len(points), 1)
    start, along = points[i], points[j] - points[i]
    if _enclosed(points, at):
        return 0.0
    square = np.maximum((along**2).sum(axis=1), np.finfo(float).tiny)
    part = np.clip(((at - start) * along).sum(axis=1) / square, 0.0, 1.0)
    return float(np.linalg.norm(start + part[:, None] * along - at, axis=1).min())


def _enclosed(points: Array, at: Array) -> bool:
    """Whether the directions from a point to all others leave no gap of half a turn."""
    away = points - at
    if (np.linalg.norm(away, axis=1) == 0).any():
        return True
    angles = np.sort(np.arctan2(away[:, 1], away[:, 0]))
    gaps = np.diff(np.append(angles, angles[0] + 2 * np.pi))
    return bool(gaps.max() <= np.pi)


def weight_between(layout: PlateLayout) -> tuple[Finding, ...]:
    """SUPPORT-2: the centre of gravity of plate and components lies within the pattern of the clamps."""
    most = rule("weight-outside-most")
    points = np.array([c.at for c in layout.clamps], dtype=float).reshape(-1, 2)
    u, v, _ = layout.centre_of_gravity
    out = outside_by(points, np.array([u, v]))
    found = partial(_weight, where="plate", value=out, limit=most.value, unit="mm", sources=(most.source,))
    if out <= most.value:
        return (found(verdict="pass", says="The centre of gravity lies between the clamps.", change=""),)
    says = (
        f"The centre of gravity lies {shown(out, layout)} outside the pattern of the clamps: they are pried."
    )
    change = (
        f"Move the heaviest component, or a clamp, so that the weight comes {at_least(out, layout)} inward."
    )
    return (found(verdict="caution", says=says, change=change),)


CHECKS = (
    Check(
        "SUPPORT-1",
        "supports not on one line",
        "Width over length of the pattern of clamp holes; if one line, whether all sit on one tube.",
        one_line,
        rules=("support-spread-least", "support-apart", "support-line-angle"),
    ),
    Check(
        "SUPPORT-2",
        "weight between the clamps",
        "How far the centre of gravity of plate and components lies outside the hull of the clamp holes.",
        weight_between,
        rules=("weight-outside-most",),
    ),
)
