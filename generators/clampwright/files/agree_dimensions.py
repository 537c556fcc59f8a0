"""Whether dimensions of a drawing are sizes that its solid has, on points that far apart, and say so."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from itertools import combinations

from clampwright.quantities.kinds import INCH
from clampwright.sheets.drawing import Dimension
from clampwright.solids.features import Features, features_of
from clampwright.solids.round_faces import RoundFace, round_faces
from clampwright.solids.shapes import Shape

SAME_MM = 1e-6
SAME_RAD = 1e-6
_NUMBER = re.compile(r"\d+(?:\.(\d+))?")
_COUNT = re.compile(r"^(\d+)\s*[x×]\s+")
_BRACKET = re.compile(r"\[[^\]0-9]*(\d+(?:\.\d+)?)")


def dimensions_differing(dimensions: Sequence[Dimension], shape: Shape) -> Iterator[str]:
    """A sentence for each dimension that differs from its points, from its own words, or from the solid.

    A length must be how far two features of the solid lie apart, along an axis of its frame or, where it is
    aligned, in a plane of two of them. A diameter or radius must be that of so many round faces as are
    counted, or more. An angle must lie between two straight edges.
    """
    if not dimensions:
        return
    features, rounds = features_of(shape), round_faces(shape)
    for each in dimensions:
        where = f"dimension {each.text!r}"
        if not _on_its_points(each):
            yield f"{where}: its points are not {each.value:.6f} apart at its scale"
        if not _says_its_value(each):
            yield f"{where}: its value is {each.value:.6f}"
        if not _is_had(each, features, rounds):
            yield f"{where}: the solid has no such {each.kind} size as {each.value:.6f}"


def _on_its_points(each: Dimension) -> bool:
    a, b = each.points[0], each.points[1]
    if each.kind == "angle":
        first, second = (math.atan2(p[1] - a[1], p[0] - a[0]) for p in each.points[1:3])
        return abs(math.remainder(second - first - each.value, 2 * math.pi)) <= SAME_RAD
    across, up = abs(b[0] - a[0]), abs(b[1] - a[1])
    spans = {"horizontal": across, "vertical": up, "diameter": 2 * math.hypot(across, up)}
    return abs(spans.get(each.kind, math.hypot(across, up)) / each.scale - each.value) <= SAME_MM


def _says_its_value(each: Dimension) -> bool:
    """Whether the first number after the count is the value, rounded as it is printed; none says nothing."""
    text = _COUNT.sub("", each.text)
    bracket = _BRACKET.search(text)
    if bracket is not None and not _rounds_to(bracket[1], each.value):
        return False
    found = _NUMBER.search(text)
    if found is None:
        return True
    units = (math.degrees(each.value),) if each.kind == "angle" else (each.value, each.value / float(INCH))
    return any(_rounds_to(found.group(), value) for value in units)


def _rounds_to(printed: str, value: float) -> bool:
    decimals = len(printed.partition(".")[2])
    return abs(float(printed) - value) <= 0.5 * math.pow(10, -decimals) + SAME_MM


def _is_had(each: Dimension, features: Features, rounds: Sequence[RoundFace]) -> bool:
    if each.kind in ("diameter", "radius"):
        diameter = each.value * (2 if each.kind == "radius" else 1)
        counted = _COUNT.match(each.text)
        alike = [face for face in rounds if abs(face.diameter_mm - diameter) <= SAME_MM]
        wanted: int = int(counted[1]) if counted else 1
        return len(alike) >= wanted
    if each.kind == "angle":
        return any(_angle_is(each.value, a, b) for a, b in combinations(features.directions, 2))
    planes = ((0, 1), (0, 2), (1, 2)) if each.kind == "aligned" else ((0,), (1,), (2,))
    return any(_apart(each.value, features, plane) for plane in planes)


def _apart(value: float, features: Features, plane: tuple[int, ...]) -> bool:
    points = {tuple(round(point[k], 7) for k in plane) for point in features.points}
    return any(abs(math.dist(a, b) - value) <= SAME_MM for a, b in combinations(points, 2))


def _angle_is(value: float, a: Sequence[float], b: Sequence[float]) -> bool:
    between = math.acos(max(-1.0, min(1.0, sum(p * q for p, q in zip(a, b, strict=True)))))
    return min(abs(between - value), abs(math.pi - between - value)) <= SAME_RAD
