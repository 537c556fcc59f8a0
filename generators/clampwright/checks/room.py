"""Room: a body, what it must stay clear of, and the words once the distance and its ± are known.

The ± of a distance takes as long as the distance itself, so it is worked out only for what is told and for
what could fall below its limit within the most that anything in the layout may be off.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from clampwright.checks.asked import SAME_MM, telling
from clampwright.checks.finding import Finding
from clampwright.checks.nearest_body import FAR, nearest_first, surely
from clampwright.layout.bodies import Body, bound, clearance
from clampwright.layout.clearance_known import Clear, Side, clear_along, clear_between
from clampwright.layout.drift import Drift
from clampwright.layout.drifts import Drifts, drifts
from clampwright.layout.joined import Joined, Named
from clampwright.quantities import Vec3

Words = Callable[[Named | None, Clear], Finding]


@dataclass(frozen=True, slots=True)
class Room:
    """A body and all that it must stay clear of by a limit."""

    body: Named
    """`owner` says what it goes with when the tubes are not where they were measured."""
    others: Sequence[Named]
    limit_mm: float
    words: Words
    """The finding on the nearest of the others; None where there is none."""


@dataclass(frozen=True, slots=True)
class _Near:
    other: Named | None
    mm: float


def told(rooms: Iterable[Room], layout: Joined, more: Iterable[Finding] = ()) -> tuple[Finding, ...]:
    """Of findings about room, those that do not pass, least first; where all pass, the one with least room.

    What passes as it stands but not at worst is a caution; of several such that rest on the same measuring
    only the one with least to spare is told.

    Parameters
    ----------
    rooms
        What is looked at.
    layout
        What they are of.
    more
        Findings of the same family that no ± enters.
    """
    looked = [(room, _nearest(room)) for room in rooms]
    least = min((near.mm for _, near in looked), default=FAR)
    findings = list(more)
    for room, near in looked:
        if near.other is None:
            findings.append(room.words(None, Clear(0.0)))
        elif near.mm <= least or near.mm < room.limit_mm + drifts(layout).most(room.body) + most_off(layout):
            findings.append(room.words(*_worst(room, near, drifts(layout))))
    return telling(one_doubt(findings))


def one_doubt(findings: Sequence[Finding]) -> list[Finding]:
    """The findings, but of those that only the ± puts below their limit the one with least to spare."""
    doubts = {id(f): _spare(f) for f in findings if f.verdict == "caution" and _spare(f) is not None}
    least = min(doubts, key=lambda key: doubts[key] or 0.0, default=None)
    return [f for f in findings if id(f) not in doubts or id(f) == least]


def _spare(finding: Finding) -> float | None:
    """What is left of a distance at worst, beyond its limit; None where it is not kept as it stands."""
    value, limit, off = finding.value, finding.limit, finding.plus_minus
    if value is None or limit is None or off is None or value < limit - SAME_MM:
        return None
    return value - limit - off


def known(one: Named, other: Named, layout: Joined) -> Clear:
    """The distance of two bodies of a layout with its ±."""
    return _known(one, other, drifts(layout))


def known_along(one: Named, other: Named, mm: float, places: tuple[Vec3, Vec3], layout: Joined) -> Clear:
    """A distance with its ± that lies along the line from one place to another, a body at each."""
    all_drifts = drifts(layout)
    return clear_along(mm, *places, *_sides(one, other, all_drifts), all_drifts)


def from_fixed(body: Body, drift: Drift, fixed: Named, layout: Joined) -> Clear:
    """The distance of a body, with its ±, from a panel or keep-out."""
    return clear_between(Side(body, drift), Side(fixed.body, None, fixed.what), drifts(layout))


def most_off(layout: Joined) -> float:
    """± (95 %) that no place of a tube, or of what the layout adds, exceeds in any direction."""
    return drifts(layout).most_mm


def _sides(one: Named, other: Named, all_drifts: Drifts) -> tuple[Side, Side]:
    return Side(one.body, all_drifts.of(one), one.what), Side(other.body, all_drifts.of(other), other.what)


def _known(one: Named, other: Named, all_drifts: Drifts) -> Clear:
    return clear_between(*_sides(one, other, all_drifts), all_drifts)


def _nearest(room: Room) -> _Near:
    best = _Near(None, FAR)
    for least, other in nearest_first(room.body.body, room.others):
        if least >= best.mm:
            break
        clear = clearance(room.body.body, other.body)
        best = _Near(other, clear) if clear < best.mm else best
    return best


def _worst(room: Room, near: _Near, all_drifts: Drifts) -> tuple[Named, Clear]:
    """The nearest of the others, or another that keeps its limit as it stands and may come below it."""
    assert near.other is not None
    first = _known(room.body, near.other, all_drifts)
    if first.mm < room.limit_mm - SAME_MM:
        return near.other, first
    could = room.limit_mm + all_drifts.most(room.body)
    worst = (near.other, first)
    for other in room.others:
        if other is not near.other and surely(bound(room.body.body), other.body) < could + all_drifts.most(
            other
        ):
            clear = _known(room.body, other, all_drifts)
            below = min(room.limit_mm, worst[1].worst_mm)
            worst = (other, clear) if clear.worst_mm < below - SAME_MM else worst
    return worst
