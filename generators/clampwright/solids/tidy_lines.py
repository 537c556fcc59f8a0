"""Lines of a view put in order: nothing lies over anything else, pieces in a row are one, corners meet.

An edge that is seen hides one that lies behind it in the picture; two that coincide are one.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from clampwright.quantities import Vec2
from clampwright.solids.chained import chained
from clampwright.solids.stretches import Stretch, joined, less
from clampwright.solids.view_lines import Chain, Edge, ViewArc

SAME_MM = 1e-5
"""Distance below which two lines of a picture count as one: far finer than a pen, coarser than the kernel."""
_WHOLE = 360.0


@dataclass(slots=True)
class _Straight:
    """An endless line through `at` along the unit `way`, and what of it is drawn."""

    at: Vec2
    way: Vec2
    seen: list[Stretch] = field(default_factory=list)
    hidden: list[Stretch] = field(default_factory=list)

    def along(self, p: Vec2) -> float:
        return (p[0] - self.at[0]) * self.way[0] + (p[1] - self.at[1]) * self.way[1]

    def off(self, p: Vec2) -> float:
        return abs((p[1] - self.at[1]) * self.way[0] - (p[0] - self.at[0]) * self.way[1])

    def point(self, along: float) -> Vec2:
        return self.at[0] + along * self.way[0], self.at[1] + along * self.way[1]


@dataclass(slots=True)
class _Round:
    """A circle, and what of it is drawn: degrees from 0 to 360."""

    centre: Vec2
    radius: float
    seen: list[Stretch] = field(default_factory=list)
    hidden: list[Stretch] = field(default_factory=list)


def tidy(seen: Iterable[Edge], hidden: Iterable[Edge]) -> tuple[tuple[Edge, ...], tuple[Edge, ...]]:
    """Seen and hidden edges without what lies over something else, always in the same order.

    Examples
    --------
    >>> tidy([((0.0, 0.0), (2.0, 0.0)), ((1.0, 0.0), (4.0, 0.0))], [((3.0, 0.0), (6.0, 0.0))])
    ((((0.0, 0.0), (4.0, 0.0)),), (((4.0, 0.0), (6.0, 0.0)),))
    """
    lines: list[_Straight] = []
    rounds: list[_Round] = []
    curves: tuple[list[Chain], list[Chain]] = ([], [])
    for behind, edges in enumerate((seen, hidden)):
        for edge in edges:
            _sort(edge, behind, lines, rounds, curves[behind])
    over = _alone(curves[0], [])
    under = _alone(curves[1], over)
    return (
        (*_straights(lines, False), *_arcs(rounds, False), *over),
        (*_straights(lines, True), *_arcs(rounds, True), *under),
    )


def _sort(edge: Edge, behind: int, lines: list[_Straight], rounds: list[_Round], curves: list[Chain]) -> None:
    if isinstance(edge, ViewArc):
        circle = _circle_of(edge, rounds)
        (circle.hidden if behind else circle.seen).extend(_turns(edge))
    elif (ends := _ends(edge)) is not None:
        if math.dist(*ends) > SAME_MM:
            line = _line_of(ends, lines)
            (line.hidden if behind else line.seen).append(_span(line, ends))
    else:
        curves.append(edge)


def _ends(chain: Chain) -> tuple[Vec2, Vec2] | None:
    """Ends of a chain that is straight (it may run to and fro); None where it is not."""
    first = chain[0]
    far = max(chain, key=lambda p: math.dist(p, first))
    if (long := math.dist(first, far)) <= SAME_MM:
        return first, first
    line = _Straight(first, ((far[0] - first[0]) / long, (far[1] - first[1]) / long))
    if any(line.off(p) > SAME_MM for p in chain):
        return None
    return min(chain, key=line.along), max(chain, key=line.along)


def _line_of(ends: tuple[Vec2, Vec2], lines: list[_Straight]) -> _Straight:
    a, b = sorted(ends)
    for line in lines:
        if line.off(a) <= SAME_MM and line.off(b) <= SAME_MM:
            return line
    long = math.dist(a, b)
    lines.append(_Straight(a, ((b[0] - a[0]) / long, (b[1] - a[1]) / long)))
    return lines[-1]


def _span(line: _Straight, ends: tuple[Vec2, Vec2]) -> Stretch:
    a, b = sorted(line.along(p) for p in ends)
    return a, b


def _straights(lines: Sequence[_Straight], behind: bool) -> tuple[Chain, ...]:
    pieces: list[tuple[Vec2, Vec2]] = []
    for line in lines:
        seen = joined(line.seen, SAME_MM)
        spans = less(joined(line.hidden, SAME_MM), seen, SAME_MM) if behind else seen
        pieces += [(line.point(low), line.point(high)) for low, high in spans]
    return chained(pieces, SAME_MM)


def _circle_of(arc: ViewArc, rounds: list[_Round]) -> _Round:
    for circle in rounds:
        near = math.dist(circle.centre, arc.centre) <= SAME_MM
        if near and abs(circle.radius - arc.radius) <= SAME_MM:
            return circle
    rounds.append(_Round(arc.centre, arc.radius))
    return rounds[-1]


def _turns(arc: ViewArc) -> Iterator[Stretch]:
    """What an arc covers of 0 to 360 degrees."""
    sweep = min(arc.end_deg - arc.start_deg, _WHOLE)
    start = arc.start_deg % _WHOLE
    yield start, min(start + sweep, _WHOLE)
    if start + sweep > _WHOLE:
        yield 0.0, start + sweep - _WHOLE


def _arcs(rounds: Sequence[_Round], behind: bool) -> Iterator[ViewArc]:
    for circle in sorted(rounds, key=lambda c: (c.centre, c.radius)):
        slack = math.degrees(SAME_MM / circle.radius)
        seen = joined(circle.seen, slack)
        spans = less(joined(circle.hidden, slack), seen, slack) if behind else seen
        for start, end in _over_the_top(spans, slack):
            yield ViewArc(circle.centre, circle.radius, start, end)


def _over_the_top(spans: Sequence[Stretch], slack: float) -> list[Stretch]:
    """Two stretches that meet at 0 degrees as one; a whole circle is 0 to 360."""
    spans = [span for span in spans if span[1] - span[0] > slack]
    if len(spans) == 1 and spans[0][1] - spans[0][0] >= _WHOLE - slack:
        return [(0.0, _WHOLE)]
    if len(spans) > 1 and spans[0][0] <= slack and spans[-1][1] >= _WHOLE - slack:
        return [*spans[1:-1], (spans[-1][0], spans[0][1] + _WHOLE)]
    return list(spans)


def _alone(curves: Sequence[Chain], others: Sequence[Chain]) -> list[Chain]:
    """Curves of which no point is off one that stands already."""
    kept: list[Chain] = []
    for curve in sorted(curves, key=len, reverse=True):
        if not any(_covers(other, curve) for other in (*others, *kept)):
            kept.append(curve)
    return kept


def _covers(curve: Chain, other: Chain) -> bool:
    """Whether every point of another curve lies on this one, within what chains stray from curves."""
    return all(_off(curve, p) <= _STRAY_MM for p in other)


_STRAY_MM = 0.02


def _off(curve: Chain, p: Vec2) -> float:
    return min(_to_piece(p, a, b) for a, b in pairwise(curve))


def _to_piece(p: Vec2, a: Vec2, b: Vec2) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    square = dx * dx + dy * dy
    share = 0.0 if square == 0 else ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square
    share = min(1.0, max(0.0, share))
    return math.dist(p, (a[0] + share * dx, a[1] + share * dy))
