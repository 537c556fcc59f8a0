"""Surveys, solved surveys and found tubes made by hand for the sheets about them."""

from __future__ import annotations

import math
from dataclasses import replace
from itertools import pairwise

import numpy as np
from sheets.survey.how_to_mount import MARKS, distances, plus_minus, rings

from clampwright.quantities import Vec3
from clampwright.structure.found import Found, FoundTube, NotTaken
from clampwright.structure.survey.model import (
    Along,
    Datum,
    Distance,
    Plumb,
    Slope,
    Survey,
    SurveyPoint,
    SurveyTube,
)
from clampwright.structure.survey.solved import Blunder, Judged, Mirror, Next, Placed, SolvedSurvey
from clampwright.structure.tubes import Structure, Tube
from clampwright.structure.uncertainty import Uncertainty

TAPE = 25.4 / 16
DATUM = Datum("F1", "y", "F2", plane_axis="z", in_plane="F3")


def mount(units: str = "in", rough: bool = True) -> Survey:
    """The example mount with two rings a tube, measured as the how-to says."""
    at = rings()
    names = dict(zip((n for n in at if n not in MARKS), _letters(), strict=False))
    names |= {name: name for name in MARKS}
    tubes = dict.fromkeys(name[:-2] for name in at if name not in MARKS)
    points = tuple(
        SurveyPoint(short, () if name in MARKS else (name[:-2],), rough=_place(at, name) if rough else None)
        for name, short in sorted(names.items(), key=lambda item: item[1])
    )
    return Survey(
        "oddlark-mount",
        "Engine mount of the Oddlark, by tape",
        units,
        points,
        tuple(SurveyTube(t, names[f"{t} 1"], names[f"{t} 2"], 19.05) for t in tubes),
        tuple(
            Distance(names[a], names[b], float(np.linalg.norm(at[a] - at[b])), TAPE) for a, b in distances(at)
        ),
        DATUM,
        digest="3f9a1c2b",
    )


def wanted(survey: Survey) -> tuple[Next, ...]:
    """Its distances as measurements that are worth taking."""
    return tuple(
        Next(m.a, m.b, f"{m.a}-{m.b}, centre to centre", f"Holds {m.b} fast.", None)
        for m in survey.measurements
        if isinstance(m, Distance)
    )


def solved(survey: Survey, slip: bool = False, loose: bool = False) -> SolvedSurvey:
    """What that comes to; `slip`: with a blunder and a mirror image, `loose`: not rigid."""
    at = {point.name: point.rough for point in survey.points}
    sure = plus_minus({name: np.array(place) for name, place in at.items()}, _pairs(survey), TAPE)
    judged = tuple(_judged(m, number, slip) for number, m in enumerate(survey.measurements))
    says = ("Measure B-F2 again: the others contradict it.",) if slip else ()
    says = ("It can still move in 2 ways: K and L.",) if loose else says
    structure = None if slip or loose else _structure(survey, {n: np.max(v) for n, v in sure.items()})
    return SolvedSurvey(
        survey,
        tuple(Placed(n, p, tuple(float(v) for v in sure[n])) for n, p in at.items()),  # type: ignore[arg-type]
        judged,
        (_blunder(judged[0]),) if slip else (),
        ("K", "L") if loose else (),
        2 if loose else 0,
        (Mirror("B", ("B", "K"), (1.0, 2.0, 3.0), (-1.0, 2.0, 3.0), "Is B forward of F1? Write sides."),)
        if slip
        else (),
        wanted(survey)[:5],
        27,
        0.94,
        1.24,
        None if loose else 2.33,
        structure,
        says,
    )


def odd_measurements(survey: Survey) -> Survey:
    """With a height, a plumb line and a slope as well."""
    a, b = survey.points[0].name, survey.points[1].name
    more = (Along(a, b, "z", -63.5, 2.0), Plumb(a, b, 2.0), Slope(survey.tubes[0].name, -0.14, 0.005))
    return replace(survey, measurements=(*survey.measurements, *more))


def many(count: int = 40, long: bool = False) -> Structure:
    """So many tubes in a cage, with long names where asked."""
    ring = [(300 * math.cos(t / 7 * math.pi), 300 * math.sin(t / 7 * math.pi)) for t in range(14)]
    knots: list[Vec3] = [(250.0 * level, x, y) for level in range(4) for x, y in ring]
    word = "the tube that runs to the upper isolator number {}" if long else "t{}"
    pairs = list(pairwise(knots))[:count]
    return Structure(tuple(Tube(word.format(n), a, b, 19.05) for n, (a, b) in enumerate(pairs)))


def found(count: int = 8, source: str = "frame.step") -> Found:
    """Tubes found in a file: every other one with doubts."""
    tubes = many(count).tubes
    return Found(
        source,
        "in",
        "guessed from the size: look at the lengths",
        tuple(_found(number, tube) for number, tube in enumerate(tubes, 1)),
        (NotTaken("four rounded strips of 90°", "rounded corners of a square rail"),),
        (750.0, 600.0, 600.0),
        1_000_000,
    )


def _found(number: int, tube: Tube) -> FoundTube:
    doubts = ("Seen from one side only.",) if number % 2 else ()
    sure = (1.1, math.radians(0.05), 0.4) if number % 2 else (0.0, 0.0, 0.0)
    return FoundTube(
        number, tube, tube.od_mm - 0.07, 0.1 * (number % 2), "3/4 in", 16.57, 3.3, *sure, 900, (), doubts
    )


def _letters() -> list[str]:
    alphabet = "ABCDEGHJKLMNPQRSTUVW"
    return list(alphabet)


def _place(at: dict[str, np.ndarray], name: str) -> Vec3:  # type: ignore[type-arg]
    x, y, z = (float(value) for value in at[name])
    return (x, y, z)


def _pairs(survey: Survey) -> list[tuple[str, str]]:
    return [(m.a, m.b) for m in survey.measurements if isinstance(m, Distance)]


def _judged(m: object, number: int, slip: bool) -> Judged:
    residual = 0.9 * math.sin(2.3 * number)
    if slip and number == 0:
        residual = 25.4
    if isinstance(m, Slope):
        return Judged(m, f"slope of {m.tube}", m.value_rad + 0.002, -0.002, 0.4, 1.1, 0.02)
    if isinstance(m, Plumb | Along):
        return Judged(m, f"height {m.b} over {m.a}", 0.4, 0.4, 0.0, None, None)
    assert isinstance(m, Distance)
    score = abs(residual) / (TAPE / 1.96)
    return Judged(m, f"{m.a}-{m.b}", m.value_mm - residual, residual, 0.3, score, 6.2)


def _blunder(judged: Judged) -> Blunder:
    says = "The tape was probably read an inch too long."
    return Blunder(judged.name, judged.measurement, 711.2, 685.8, 1.9, ("B-F3", "C-F1"), says)


def _structure(survey: Survey, sure: dict[str, float]) -> Structure:
    at = {point.name: point.rough for point in survey.points}
    tubes = tuple(Tube(t.name, at[t.start], at[t.end], t.od_mm, 0.0) for t in survey.tubes)  # type: ignore[arg-type]
    rows: list[tuple[float, ...]] = []
    for number, tube in enumerate(survey.tubes):
        for end, point in enumerate((tube.start, tube.end)):
            for axis in range(3):
                row = np.zeros(6 * len(tubes))
                row[6 * number + 3 * end + axis] = sure[point] / 1.96 * (2.0 if axis == 2 else 1.0)
                rows.append(tuple(row))
    return Structure(tubes, uncertainty=Uncertainty(tuple(t.name for t in tubes), tuple(rows), "by hand"))
