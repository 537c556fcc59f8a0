"""Round faces and corners of a solid in a STEP file, out of its text (ISO 10303-42).

A face that goes all the way round is told by its two rims: edges that end where they begin, on circles of the
surface's own radius.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from clampwright.files.part21 import Argument, NotPart21, Part21, Record, Ref, Word
from clampwright.quantities import Vec3
from clampwright.quantities.directions import along, unit

SAME_MM = 1e-6
"""Places and sizes in a file agree within this."""


@dataclass(frozen=True, slots=True)
class Round:
    """A face of a cylinder, mm."""

    diameter_mm: float
    start: Vec3
    """Where its axis passes one end, and the other."""
    end: Vec3
    hollow: bool
    whole: bool
    """It goes all the way round."""
    through: bool
    """Hollow, and no flat face closes an end."""


def rounds_of(file: Part21, solid: int) -> Iterator[Round]:
    """Every cylindrical face of a solid.

    Raises `NotPart21` where a rim's radius is not its face's, or its centre lies off the axis.
    """
    faces = [file.one(face) for face in _faces(file, solid)]
    lids = _lids(file, faces)
    for face in faces:
        surface = file.one(face.arguments[2])
        if surface.kind == "CYLINDRICAL_SURFACE":
            yield _round(file, face, surface, lids)


def corners_of(file: Part21, solid: int) -> list[Vec3]:
    """Every vertex of a solid's faces."""
    edges = {edge for face in _faces(file, solid) for edge in _edges(file, file.one(face))}
    return [point for edge in edges for point in _ends(file, edge)]


def _faces(file: Part21, solid: int) -> tuple[Argument, ...]:
    shell = file.one(file.records(solid)[0].arguments[1])
    faces = shell.arguments[1]
    return faces if isinstance(faces, tuple) else ()


def _edges(file: Part21, face: Record) -> list[int]:
    """Numbers of the edges of a face, through its bounds and loops."""
    found = []
    for bound in _list(face.arguments[1]):
        loop = file.one(file.one(bound).arguments[1])
        for turned in _list(loop.arguments[1]) if loop.kind == "EDGE_LOOP" else ():
            edge = file.one(turned).arguments[3]
            if isinstance(edge, Ref):
                found.append(edge.to)
    return found


def _lids(file: Part21, faces: list[Record]) -> set[int]:
    """Edges that are the only bound of a flat face."""
    found = set()
    for face in faces:
        if len(_list(face.arguments[1])) == 1 and file.one(face.arguments[2]).kind == "PLANE":
            edges = _edges(file, face)
            if len(edges) == 1:
                found.add(edges[0])
    return found


def _round(file: Part21, face: Record, surface: Record, lids: set[int]) -> Round:
    at, ahead = _axis(file, surface.arguments[1])
    radius = _float(surface.arguments[2])
    hollow = face.arguments[3] == Word("F")
    edges: dict[int, int] = defaultdict(int)
    for edge in _edges(file, face):
        edges[edge] += 1
    for edge in edges:
        _refuse_other_circle(file, edge, at, ahead, radius)
    rims = [edge for edge in edges if _is_rim(file, edge)]
    heights = [_height(point, at, ahead) for edge in edges for point in _ends(file, edge)]
    return Round(
        2 * radius,
        along(at, (ahead, min(heights))),
        along(at, (ahead, max(heights))),
        hollow,
        len(rims) == 2,
        hollow and not any(rim in lids for rim in rims),
    )


def _is_rim(file: Part21, edge: int) -> bool:
    record = file.records(edge)[0]
    return record.arguments[1] == record.arguments[2] and file.one(record.arguments[3]).kind == "CIRCLE"


def _refuse_other_circle(file: Part21, edge: int, at: Vec3, ahead: Vec3, radius: float) -> None:
    curve = file.one(file.records(edge)[0].arguments[3])
    if curve.kind != "CIRCLE":
        return
    centre, _ = _axis(file, curve.arguments[1])
    off = math.dist(centre, along(at, (ahead, _height(centre, at, ahead))))
    if abs(_float(curve.arguments[2]) - radius) > SAME_MM or off > SAME_MM:
        raise NotPart21(
            f"edge #{edge} is a circle of radius {curve.arguments[2]} on a cylinder of radius {radius:g}, "
            f"{off:.6f} mm off its axis"
        )


def _ends(file: Part21, edge: int) -> tuple[Vec3, Vec3]:
    record = file.records(edge)[0]
    first, last = (_point(file, file.one(vertex).arguments[1]) for vertex in record.arguments[1:3])
    return first, last


def _axis(file: Part21, placement: Argument) -> tuple[Vec3, Vec3]:
    """Place and direction of the z of a placement."""
    arguments = file.one(placement).arguments
    return _point(file, arguments[1]), unit(_point(file, arguments[2]))


def _point(file: Part21, argument: Argument) -> Vec3:
    x, y, z = (_float(each) for each in _list(file.one(argument).arguments[1]))
    return x, y, z


def _height(point: Vec3, at: Vec3, ahead: Vec3) -> float:
    return math.fsum((p - a) * d for p, a, d in zip(point, at, ahead, strict=True))


def _float(argument: Argument) -> float:
    if not isinstance(argument, float):
        raise TypeError(f"a real was expected, not {argument!r}")
    return argument


def _list(argument: Argument) -> tuple[Argument, ...]:
    return argument if isinstance(argument, tuple) else ()
