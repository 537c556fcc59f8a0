"""Recipes of one bay against each other: clamps on one tube, and all that they add, on one structure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from itertools import combinations
from math import dist, hypot

from clampwright.checks.added import added
from clampwright.checks.asked import SAME_MM, Check, telling
from clampwright.checks.finding import Finding
from clampwright.checks.naming_bodies import uncapital
from clampwright.checks.room import one_doubt
from clampwright.checks.wording import at_least, at_most, shown
from clampwright.layout.bodies import bound, clearance
from clampwright.layout.drifts import drifts
from clampwright.layout.joined import Joined, Loop, Named
from clampwright.layout.known_to import known
from clampwright.quantities.directions import cross, dot, minus, unit
from clampwright.structure.tubes import Tube
from clampwright.trade.tables import rule

_on_tube = partial(Finding, "BAY-1", "clamps of two recipes on one tube", unit="mm")
_bodies = partial(Finding, "BAY-2", "what two recipes add to the bay", unit="mm")
_tubes = partial(Finding, "BAY-3", "one structure for the bay", unit="mm")

_BETWEEN, _OF = " / ", ": "

Pair = tuple[Joined, Joined]


def recipes_of(finding: Finding) -> tuple[str, ...]:
    """Names of the two recipes that a finding of a bay is about.

    >>> recipes_of(_tubes("coil: A1 / hose: B1", "pass", 9.0, 3.0, says="", change="", sources=()))
    ('coil', 'hose')
    """
    return tuple(each.split(_OF)[0] for each in finding.where.split(_BETWEEN))


def clamps_on_one_tube(layouts: Sequence[Joined]) -> tuple[Finding, ...]:
    """BAY-1: bands of clamps of two recipes stay clear of each other along the tube that they share.

    So they do along a line that both hold. What is free between two is their distance along the tube less
    half of each band's width; the two with least room stand for a pass of two recipes.
    """
    return _told(_clamps_of(pair) for pair in _comparable(layouts))


def _clamps_of(pair: Pair) -> Iterator[Finding]:
    one, other = pair
    held = {*one.recipe.structure.names, *_one_line(pair)}
    for a in one.loops:
        for b in other.loops:
            if a.tube == b.tube and a.tube in held:
                yield _two_clamps(a, b, pair)


def _two_clamps(a: Loop, b: Loop, pair: Pair) -> Finding:
    one, other = pair
    limit = rule("clamp-clearance")
    free = abs(dot(minus(a.centre, b.centre), a.axis)) - (a.clamp.band_width_mm + b.clamp.band_width_mm) / 2
    off = sum(_station_off(each, layout) for each, layout in zip((a, b), pair, strict=True))
    found = partial(
        _on_tube,
        where=_where(one, a.label, other, b.label),
        value=free,
        limit=limit.value,
        sources=(limit.source,),
        plus_minus=off,
    )
    says = f"{_named(one, a.label)} and {_named(other, b.label)} on {a.tube} are {shown(free, one)} apart"
    slide = f"Slide {_named(other, b.label)} along {a.tube}, away from {_named(one, a.label)}, by"
    if free <= SAME_MM:
        says = f"{_named(one, a.label)} and {_named(other, b.label)} lie on each other on {a.tube}."
        return found(verdict="fail", says=says, change=f"{slide} {at_least(limit.value - free, one)}.")
    return _judged(found, says, free, off, limit.value, slide, one)


def _station_off(loop: Loop, layout: Joined) -> float:
    """± of a clamp's station, mm; nothing where nothing is known."""
    each = known(loop.label, layout.known_to)
    return 0.0 if each is None else each.station_mm


def bodies_of_two_recipes(layouts: Sequence[Joined]) -> tuple[Finding, ...]:
    """BAY-2: clamps, bolts, bushings, parts and lines of two recipes stay clear of each other.

    Left out is what BAY-1 looks at, and a line that both hold: one of the same name, outside diameter and
    axis. Of each clamp, bolt, part or line of the first the nearest body of the second stands.
    """
    return _told(_things_of(pair) for pair in _comparable(layouts))


def _things_of(pair: Pair) -> Iterator[Finding]:
    """Of each thing of the first recipe the nearest of the second: all pairs would be a list nobody reads."""
    nearest: dict[str, tuple[float, Named, Named]] = {}
    best = float("inf")
    one, other = pair
    asked = rule("component-clearance").value + drifts(one).most_mm + drifts(other).most_mm
    others = [(body, bound(body.body)) for body in added(other)]
    lines = _one_line(pair)
    for a in added(one):
        p, r = bound(a.body)
        for b, (q, s) in others:
            near = min(nearest[a.owner][0] if a.owner in nearest else float("inf"), max(asked, best))
            if dist(p, q) - r - s < near and not _passed_over(a, b, pair, lines):
                clear = clearance(a.body, b.body)
                best = min(best, clear)
                if clear < near:
                    nearest[a.owner] = (clear, a, b)
    for clear, a, b in nearest.values():
        yield _two_things(a, b, clear, pair)


def _one_line(pair: Pair) -> frozenset[str]:
    """Names of lines that both recipes hold: of one name, one outside diameter and one axis.

    Axes are one where neither leaves the other by more than half the line's diameter: a hose gives as much.
    """
    others = {line.name: line for line in pair[1].lines}
    return frozenset(
        line.name for line in pair[0].lines if line.name in others and _agree(line, others[line.name])
    )


def _agree(one: Tube, other: Tube) -> bool:
    if abs(one.od_mm - other.od_mm) > SAME_MM:
        return False
    return max(_off_axis(one, other), _off_axis(other, one)) <= one.od_mm / 2


def _off_axis(line: Tube, from_line: Tube) -> float:
    """How far an end of a line is from the other's axis, at most."""
    start, end = from_line.start, from_line.end
    along = unit(minus(end, start))
    return max(hypot(*cross(minus(each, start), along)) for each in (line.start, line.end))


def _passed_over(a: Named, b: Named, pair: Pair, lines: frozenset[str]) -> bool:
    """Clamps on one tube, and one line that both recipes hold, with the clamps closed on it."""
    tubes = (_tube_of(a, pair[0]), _tube_of(b, pair[1]))
    if a.owner in lines or b.owner in lines:
        return a.owner == b.owner or a.owner in tubes or b.owner in tubes
    return tubes[0] == tubes[1] and tubes[0] in pair[0].recipe.structure.names


def _tube_of(body: Named, layout: Joined) -> str | None:
    """The tube or line that a clamp's loop or feet are closed on; None for any other body."""
    if not body.what.startswith(("loop ", "feet ")):
        return None
    return next((loop.tube for loop in layout.loops if loop.label == body.owner), None)


def _two_things(a: Named, b: Named, clear: float, pair: Pair) -> Finding:
    one, other = pair
    limit = rule("component-clearance")
    off = drifts(one).most(a) + drifts(other).most(b)
    found = partial(
        _bodies,
        where=_where(one, a.what, other, b.what),
        value=clear,
        limit=limit.value,
        sources=(limit.source,),
        plus_minus=off,
    )
    what, against = _named(one, a.what), _named(other, b.what)
    move = f"Move what {other.recipe.name} holds away from {what} by"
    if clear <= SAME_MM:
        says = f"{what} and {against} run into each other{_boxed(a, b)}."
        change = f"{move} at least {at_least(limit.value, one)}.{_if_one_line(a, b, pair)}"
        return found(verdict="fail", says=says, change=change)
    return _judged(
        found, f"{what} and {against} are {shown(clear, one)} apart", clear, off, limit.value, move, one
    )


def _if_one_line(a: Named, b: Named, pair: Pair) -> str:
    """Said where two recipes name a line alike and put it in two places, or give it two diameters."""
    names = [_line_of(each, layout) for each, layout in zip((a, b), pair, strict=True)]
    if names[0] is None or names[0] != names[1]:
        return ""
    return f" Should {names[0]} be one line, give it one course and one diameter in both recipes."


def _line_of(body: Named, layout: Joined) -> str | None:
    """The line that a body is, or that it is closed on."""
    lines = {line.name for line in layout.lines}
    return next((name for name in (body.owner, _tube_of(body, layout)) if name in lines), None)


def _boxed(a: Named, b: Named) -> str:
    """What is said where a plate counts as the box round it."""
    return ", the plate counted as the box round it" if "plate" in (a.what, b.what) else ""


def _judged(
    found: partial[Finding], says: str, clear: float, off: float, limit: float, move: str, layout: Joined
) -> Finding:
    """A distance that is one at all: kept, kept but not at worst, or not kept."""
    if clear < limit - SAME_MM:
        short = at_least(limit - clear, layout)
        return found(verdict="caution", says=f"{says}: too near.", change=f"{move} {short}.")
    if clear - off >= limit - SAME_MM:
        return found(verdict="pass", says=f"{says}.", change="")
    worst = f"could be as little as {at_most(clear - off, layout)} at worst"
    worst = worst if clear - off > SAME_MM else "could touch at worst"
    short = at_least(limit - clear + off, layout)
    return found(
        verdict="caution",
        says=f"{says}, and {worst}: the tubes are known to no better.",
        change=f"Measure the tubes again, or {uncapital(move)} {short}.",
    )


def one_structure(layouts: Sequence[Joined]) -> tuple[Finding, ...]:
    """BAY-3: recipes that share tubes agree where those are; those that share none cannot be compared."""
    return tuple(_compared(one, other) for one, other in combinations(layouts, 2))


def _compared(one: Joined, other: Joined) -> Finding:
    found = partial(
        _tubes, where=_where(one, "tubes", other, "tubes"), limit=SAME_MM, sources=("derived-same-tubes",)
    )
    names = " and ".join((one.recipe.name, other.recipe.name))
    shared = _shared(one, other)
    if not shared:
        return found(
            verdict="unknown",
            value=None,
            says=f"{names} have no tube in common: whether they meet in the bay cannot be known.",
            change="Give both recipes one structure file, or look on the aircraft that 1 stays clear of 2.",
        )
    name, off = max(shared, key=lambda each: each[1])
    if off <= SAME_MM:
        says = f"{names} sit on the same tubes."
        return found(verdict="pass", value=off, says=says, change="")
    return found(
        verdict="unknown",
        value=off,
        says=f"{names} put {name} in two places, {shown(off, one)} apart: they cannot be compared.",
        change=f"Give both recipes one structure file: {name} differs by {shown(off, one)}.",
    )


def _shared(one: Joined, other: Joined) -> list[tuple[str, float]]:
    """Tubes that two recipes name alike, and how far apart they put their ends."""
    others = {tube.name: tube for tube in other.recipe.structure.tubes}
    return [
        (tube.name, _ends_apart(tube, others[tube.name]))
        for tube in one.recipe.structure.tubes
        if tube.name in others
    ]


def _ends_apart(a: Tube, b: Tube) -> float:
    return max(dist(a.start, b.start), dist(a.end, b.end))


def _comparable(layouts: Sequence[Joined]) -> Iterator[Pair]:
    """Every two recipes that sit on one structure."""
    for one, other in combinations(layouts, 2):
        shared = _shared(one, other)
        if shared and max(off for _, off in shared) <= SAME_MM:
            yield one, other


def _told(pairs: Iterator[Iterator[Finding]]) -> tuple[Finding, ...]:
    return tuple(finding for pair in pairs for finding in telling(one_doubt(list(pair))))


def _named(layout: Joined, what: str) -> str:
    return f"{what} of {layout.recipe.name}"


def _where(one: Joined, a: str, other: Joined, b: str) -> str:
    return f"{one.recipe.name}{_OF}{a}{_BETWEEN}{other.recipe.name}{_OF}{b}"


CHECKS = (
    Check(
        "BAY-1",
        "clamps of two recipes on one tube",
        "In a pack only: room between the bands of clamps of two recipes along a tube or line of both.",
        clamps_on_one_tube,
        rules=("clamp-clearance",),
    ),
    Check(
        "BAY-2",
        "what two recipes add to the bay",
        "In a pack only: distance between all that one recipe adds to the bay and all that another adds.",
        bodies_of_two_recipes,
        rules=("component-clearance",),
    ),
    Check(
        "BAY-3",
        "one structure for the bay",
        "In a pack only: whether two recipes name the same tubes and put them in the same place.",
        one_structure,
        sources=("derived-same-tubes",),
    ),
)
"""Each takes the layouts of all recipes of a bay."""


def bay(layouts: Sequence[Joined]) -> tuple[Finding, ...]:
    """Every finding of recipes against each other; none for one recipe alone."""
    return tuple(finding for one in CHECKS for finding in one.run(layouts))
