"""The sketch on a survey's form: its points and tubes at a slant, or a scheme where no places are known."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from clampwright.quantities import Vec2, Vec3
from clampwright.sheets.canvas import Drawn, Picture
from clampwright.sheets.drawing import Box, Path, Pen
from clampwright.sheets.ink import BLACK, GREY, WHITE
from clampwright.sheets.structure_eyes import oblique
from clampwright.sheets.structure_shapes import Rod, Spot
from clampwright.sheets.structure_sides import Thing, slant
from clampwright.structure.survey.model import Distance, Survey
from clampwright.structure.uncertainty import Array

_ROUNDS = 300
_AROUND = 12.0
_DOT = 0.6
_PUSH, _STEP, _GRAVITY = 0.6, 0.1, 0.2
"""Distance that joined points settle at, longest step, pull to the middle a point: for looks only."""


@dataclass(frozen=True, slots=True)
class Sketch:
    """The sketch, and whether it is a scheme: what joins what, with no place or length to be read from it."""

    drawn: Drawn
    scheme: bool


def survey_sketch(survey: Survey, box: Box, places: Mapping[str, Vec3] | None = None) -> Sketch:
    """A survey's points and tubes in a box.

    Parameters
    ----------
    survey : Survey
        Points by their `rough` places.
    box : Box
        Room for it, mm.
    places : Mapping[str, Vec3] | None
        Places known better than by eye, mm.
    """
    known = {point.name: point.rough for point in survey.points if point.rough is not None} | dict(
        places or {}
    )
    if all(point.name in known for point in survey.points):
        return Sketch(slant(_thing(survey, known), box), False)
    return Sketch(_scheme(survey, scheme_places(survey, known), box), True)


def scheme_places(survey: Survey, known: Mapping[str, Vec3]) -> dict[str, Vec2]:
    """Places in the plane for the points: known ones as they look at a slant, the rest let go as on springs.

    Tubes and measured distances pull, all points push one another apart (Fruchterman and Reingold 1991); the
    start is a circle in the order of the names, so that the same survey gives the same scheme.
    """
    names = [point.name for point in survey.points]
    at, held = _start(names, known)
    pairs = _pairs(survey)
    joined = np.array([(names.index(a), names.index(b)) for a, b in pairs], dtype=int).reshape(-1, 2)
    for number in range(_ROUNDS):
        push = _forces(at, joined)
        push[held] = 0.0
        long = np.maximum(np.hypot(push[:, 0], push[:, 1]), 1e-9)
        most = _STEP * (1.0 - number / _ROUNDS)
        at = at + push * (np.minimum(long, most) / long)[:, None]
    return {name: (float(x), float(y)) for name, (x, y) in zip(names, at, strict=True)}


def _start(names: Sequence[str], known: Mapping[str, Vec3]) -> tuple[Array, list[int]]:
    turns = 2 * math.pi * np.arange(len(names)) / max(len(names), 1)
    at = np.stack([np.cos(turns), np.sin(turns)], axis=1)
    held = [n for n, name in enumerate(names) if name in known]
    if len(held) < 2:
        return at, []
    seen = np.array([oblique().eye.seen(known[names[n]]) for n in held], dtype=float)
    size = max(float(np.ptp(seen, axis=0).max()), 1.0)
    at[held] = 2.0 * (seen - seen.mean(axis=0)) / size
    return at, held


def _pairs(survey: Survey) -> list[tuple[str, str]]:
    """Pairs of points that a tube or a measured distance joins, each once, in a fixed order."""
    tubes = [(tube.start, tube.end) for tube in survey.tubes]
    taped = [(m.a, m.b) for m in survey.measurements if isinstance(m, Distance)]
    known = {point.name for point in survey.points}
    pairs = {(min(pair), max(pair)) for pair in (*tubes, *taped) if pair[0] != pair[1] and set(pair) <= known}
    return sorted(pairs)


def _forces(at: Array, joined: Array) -> Array:
    away = at[:, None, :] - at[None, :, :]
    apart = np.maximum(np.hypot(away[..., 0], away[..., 1]), 0.02)
    push = np.asarray((away * (_PUSH**2 / apart**2)[..., None]).sum(axis=1))
    push -= at * (len(at) * _GRAVITY)
    for a, b in joined:
        pull = (at[a] - at[b]) * (math.dist(at[a], at[b]) / _PUSH)
        push[a] -= pull
        push[b] += pull
    return push


def _thing(survey: Survey, known: Mapping[str, Vec3]) -> Thing:
    rods = tuple(
        Rod(tube.name, known[tube.start], known[tube.end], tube.od_mm / 2)
        for tube in survey.tubes
        if tube.start in known and tube.end in known
    )
    return Thing(rods, tuple(Spot(point.name, known[point.name]) for point in survey.points), 0)


def _scheme(survey: Survey, places: Mapping[str, Vec2], box: Box) -> Drawn:
    """Tubes as double lines between points; a scheme is drawn as large as its box."""
    xs, ys = ([point[axis] for point in places.values()] or [0.0] for axis in (0, 1))
    room = (box[2] - box[0] - 2 * _AROUND, box[3] - box[1] - 2 * _AROUND)
    scale = min(room[0] / max(max(xs) - min(xs), 1e-6), room[1] / max(max(ys) - min(ys), 1e-6))
    middle = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    picture = Picture(oblique().eye, box, scale, middle)
    for tube in survey.tubes:
        if tube.start in places and tube.end in places and tube.start != tube.end:
            _tube(picture, tube.name, picture.page(places[tube.start]), picture.page(places[tube.end]))
    for name, place in places.items():
        x, y = at = picture.page(place)
        picture.circles.append((*at, _DOT))
        diamond = ((x + _DOT, y), (x, y + _DOT), (x - _DOT, y), (x, y - _DOT))
        picture.items.append(Path(diamond, None, closed=True, fill=BLACK))
        picture.name([name], [(at, _DOT)], pale=True)
    return picture.finished()


def _tube(picture: Picture, name: str, a: Vec2, b: Vec2) -> None:
    long = max(math.dist(a, b), 1e-9)
    x, y = -(b[1] - a[1]) / long * 0.9, (b[0] - a[0]) / long * 0.9
    corners = ((a[0] + x, a[1] + y), (b[0] + x, b[1] + y), (b[0] - x, b[1] - y), (a[0] - x, a[1] - y))
    picture.ring(corners, Pen(0.2, GREY), WHITE)
    spots = [(a[0] + s * (b[0] - a[0]), a[1] + s * (b[1] - a[1])) for s in (0.5, 0.4, 0.6, 0.3, 0.7)]
    picture.name([name], [(spot, 1.0) for spot in spots])
