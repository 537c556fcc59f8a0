"""The order in which a hand takes a survey: the datum's marks, then ring by ring from these, then spares."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from clampwright.structure.survey.model import Along, Distance, Measurement, Survey, SurveyPoint
from clampwright.structure.survey.residuals import finds_up
from clampwright.structure.survey.rigidity import measured_at, usual_error
from clampwright.trade.tables import rule


@dataclass(frozen=True, slots=True)
class Wanted:
    """A measurement that could be planned."""

    measurement: Distance | Along
    checks: str = ""
    """What it is good for where the figure is held without it; "": then it is not taken."""


def base(survey: Survey) -> tuple[str, ...]:
    """The three points that all others are measured from: the datum's, then marks that lie on no tube."""
    datum = survey.datum
    named = [datum.origin, datum.through, *([datum.in_plane] if datum.in_plane and not datum.level else [])]
    shared = set(_tubes(survey, datum.origin)) & set(_tubes(survey, datum.through))
    loose_ones = [p.name for p in survey.points if not _tubes(survey, p.name)]
    ends = [end for tube in survey.tubes for end in (tube.start, tube.end)]
    for name in (*loose_ones, *ends, *(p.name for p in survey.points)):
        if len(named) < 3 and name not in named and not shared & set(_tubes(survey, name)):
            named.append(name)
    return tuple(named)


def sequence(survey: Survey) -> tuple[str, ...]:
    """Every point in the order in which its turn comes: base, other marks, then tube by tube."""
    order = [*base(survey), *(p.name for p in survey.points if not _tubes(survey, p.name))]
    for tube in survey.tubes:
        order += [tube.start, tube.end, *(p.name for p in _between(survey, tube.name))]
    return tuple(dict.fromkeys((*order, *(p.name for p in survey.points))))


def by_hand(survey: Survey) -> tuple[Wanted, ...]:
    """What holds the figure as the how-to says, and each tube's length, in order; none that was taken."""
    return _new(survey, _by_hand(survey))


def spares(survey: Survey) -> tuple[Wanted, ...]:
    """Distances between rings of tubes that stand next to each other in the survey, then of the next but one.

    Far ends first, then diagonals: these check a ring along the tube too, and not only across.
    """
    return _new(survey, _spares(survey))


def every_distance(survey: Survey) -> tuple[Wanted, ...]:
    """Every distance that was not taken, in the order in which points have their turn; heights after them."""
    turn = {name: i for i, name in enumerate(sequence(survey))}
    pairs = sorted(combinations(turn, 2), key=lambda pair: (turn[pair[1]], turn[pair[0]]))
    wanted = [_taped(survey, *pair, f"checks {pair[0]} and {pair[1]}") for pair in pairs]
    return _new(survey, iter([*wanted, *_heights(survey, tuple(turn)[1:])]))


def _by_hand(survey: Survey) -> Iterator[Wanted]:
    marks = base(survey)
    for a, b in combinations(marks, 2):
        yield _taped(survey, a, b, "checks the datum")
    yield from _heights(
        survey, _plumbed(survey, marks), "checks which way is up" if survey.datum.level else ""
    )
    met = set(marks)
    for point in survey.points:
        if not _tubes(survey, point.name) and point.name not in met:
            met.add(point.name)
            yield from (_taped(survey, mark, point.name) for mark in marks)
    for tube in survey.tubes:
        for end in (tube.start, tube.end):
            if end not in met:
                met.add(end)
                yield from (_taped(survey, mark, end) for mark in marks)
        yield _taped(survey, tube.start, tube.end, f"length of {tube.name}: checks both ends")
        for point in _between(survey, tube.name):
            yield from _on_the_tube(survey, point, (tube.start, tube.end), marks)


def _on_the_tube(
    survey: Survey, point: SurveyPoint, ends: tuple[str, str], marks: tuple[str, ...]
) -> Iterator[Wanted]:
    """Along the tube from an end; a mark on the skin from the base too, which tells its side."""
    checks = "" if measured_at(survey, point.name) > len(marks) else f"checks {point.name}"
    if point.skin_of is None:
        yield from (_taped(survey, end, point.name, checks) for end in ends if end != point.name)
        return
    yield _taped(survey, ends[0], point.name, checks)
    yield from (_taped(survey, mark, point.name, checks) for mark in marks if mark != point.name)


def _spares(survey: Survey) -> Iterator[Wanted]:
    rings = [(tube.start, tube.end) for tube in survey.tubes] or [
        (p.name, p.name) for p in survey.points if p.name not in base(survey)
    ]
    count, marks = len(rings), set(base(survey))
    for apart in range(1, max(count // 2 + 1, 2)):
        for one, other in ((1, 1), (0, 1), (1, 0), (0, 0)):
            for i in range(count if 2 * apart < count else count - apart):
                a, b = _as_met(rings, (i, one), ((i + apart) % count, other))
                if a != b and not marks & {a, b} and not set(_tubes(survey, a)) & set(_tubes(survey, b)):
                    yield _taped(survey, a, b, f"spare: checks {a} and {b}")


def _as_met(rings: list[tuple[str, str]], one: tuple[int, int], other: tuple[int, int]) -> tuple[str, str]:
    (i, a), (j, b) = sorted((one, other))
    return rings[i][a], rings[j][b]


def _taped(survey: Survey, a: str, b: str, checks: str = "") -> Wanted:
    return Wanted(Distance(a, b, 0.0, usual_error(survey)), checks)


def _plumbed(survey: Survey, marks: tuple[str, ...]) -> tuple[str, ...]:
    """Points whose heights are taken: across at the base, then rings: marks on a wall stand too upright."""
    far = [tube.end for tube in survey.tubes] + [tube.start for tube in survey.tubes[:1]]
    rings = [name for name in dict.fromkeys(far) if name not in marks]
    others = [p.name for p in survey.points if p.name not in (*marks, *rings)]
    return (*marks[1:2], *(*rings, *others, *marks[2:])[: round(rule("survey-plan-heights").value)])


def _heights(survey: Survey, names: tuple[str, ...], checks: str = "") -> Iterator[Wanted]:
    """Heights over the datum's origin, where the figure has a way up."""
    if not survey.datum.level and not finds_up(survey):
        return
    error = rule("survey-height-inch" if survey.units == "in" else "survey-height-metric").value
    for name in names:
        yield Wanted(Along(survey.datum.origin, name, "z", 0.0, error, plumb=True), checks)


def _new(survey: Survey, wanted: Iterator[Wanted]) -> tuple[Wanted, ...]:
    """Without what was taken, and none twice."""
    taken = {key for m in survey.measurements if (key := key_of(m)) is not None}
    kept: dict[tuple[str, frozenset[str]], Wanted] = {}
    for each in wanted:
        key = key_of(each.measurement)
        if key is not None and key not in taken and len(key[1]) == 2:
            kept.setdefault(key, each)
    return tuple(kept.values())


def key_of(m: Measurement) -> tuple[str, frozenset[str]] | None:
    """The two points of a distance or a height, whichever way it is taken; None for anything else."""
    if isinstance(m, Distance):
        return "distance", frozenset((m.a, m.b))
    if isinstance(m, Along) and m.axis == "z":
        return "height", frozenset((m.a, m.b))
    return None


def _tubes(survey: Survey, name: str) -> tuple[str, ...]:
    """Tubes that a point lies on: ends, axis or skin."""
    point = survey.point(name)
    ends = [tube.name for tube in survey.tubes if name in (tube.start, tube.end)]
    return tuple(dict.fromkeys((*ends, *point.axis_of, *([point.skin_of] if point.skin_of else []))))


def _between(survey: Survey, tube: str) -> list[SurveyPoint]:
    """Points on a tube that are not its ends, in the survey's order."""
    ends = (survey.tube(tube).start, survey.tube(tube).end)
    return [p for p in survey.points if tube in (*p.axis_of, p.skin_of) and p.name not in ends]


def on_tube(survey: Survey, tube: str) -> tuple[str, ...]:
    """Every point of a tube: ends, axis, skin."""
    found = survey.tube(tube)
    return (found.start, found.end, *(p.name for p in _between(survey, tube)))
