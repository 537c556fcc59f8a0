"""Exact clearances: how far the solids of a layout keep apart, measured by the kernel.

Clamps, bolts, parts and carried lines against each other and against tubes, panels and keep-outs. What is
bolted or closed together touches by design: it is told only where it runs into each other. The kernel is
asked about few pairs, as convex bodies round the solids come first: a pair whose bodies are farther apart
than rule `solids-near` stays unmeasured, but for the tube nearest to each part and line. Of a keep-out, what
is nearest is told where it comes within rule `keep-out-near` times the distance asked for.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import combinations, product

from clampwright.layout.bodies import Body as Simple
from clampwright.layout.bodies import Cylinder, clearance
from clampwright.layout.clearance_found import CLAMPS, KEEP_OUT, OWN_STACK, PARTS, STRUCTURE, Clearance
from clampwright.layout.joined import Joined
from clampwright.quantities.directions import unit
from clampwright.solids.apart import Apart, apart_mm
from clampwright.solids.body import Body
from clampwright.solids.measured_things import MOVERS, things
from clampwright.solids.place import standing
from clampwright.solids.shapes import Shape, moved, ring
from clampwright.solids.sure import Sure
from clampwright.solids.thing import Thing, surely_apart
from clampwright.trade.tables import rule

Pair = tuple[Thing, Thing]


def clearances(layout: Joined, bodies: Sequence[Body]) -> tuple[Clearance, ...]:
    """Exact clearances of a layout of any kind, the least first.

    Parameters
    ----------
    layout : Joined
        What is measured.
    bodies : Sequence[Body]
        Its bodies, from `joined_assembly`.
    """
    found = things(layout, bodies)
    sure = Sure(layout)
    movers = [thing for thing in found if thing.sort in MOVERS]
    fixed = [thing for thing in found if thing.sort in ("tube", "panel")]
    near = rule("solids-near").value
    pairs = (*combinations(movers, 2), *product(movers, fixed))
    measured = [c for a, b in pairs if not a.adjoins(b) and (c := nearer_than(a, b, near, sure)) is not None]
    measured += _nearest_tubes(movers, fixed, measured, sure)
    for thing in found:
        if thing.sort == "keep-out":
            measured += _round_keep_out(thing, movers, sure)
    measured += [c for a, b in pairs if a.adjoins(b) and (c := in_one_stack(a, b)) is not None]
    return tuple(sorted(measured, key=lambda c: (c.exact_mm, c.one, c.other)))


def nearer_than(a: Thing, b: Thing, limit_mm: float, sure: Sure) -> Clearance | None:
    """The clearance of two things that come nearer than a limit, mm; None for others."""
    if surely_apart(a, b) >= limit_mm:
        return None
    exact = least(a, b, limit_mm)
    return None if exact is None else _said(a, b, exact, sure)


def least(a: Thing, b: Thing, limit_mm: float = math.inf) -> Apart | None:
    """Exact distance of two things; None where it is not below a limit."""
    best: Apart = (limit_mm, ())
    indices = product(range(len(a.solids)), range(len(b.solids)))
    bounds = ((clearance(a.solids[i].held_in, b.solids[j].held_in), i, j) for i, j in indices)
    for surely, i, j in sorted(bounds):
        if surely >= best[0]:
            break
        best = min(best, apart_mm(a.solids[i].shape, b.solids[j].shape), key=lambda apart: apart[0])
    return best if best[0] < limit_mm else None


def in_one_stack(a: Thing, b: Thing) -> Clearance | None:
    """A loop that runs into something on its own bolt by more than a slight tilt makes; None: none does."""
    for clamp, other in ((a, b), (b, a)):
        if clamp.drum is not None and other.sort not in ("tube", "line"):
            common = _sunk_mm3(clamp.drum, other)
            if common > rule("solids-overlap").value:
                return Clearance(clamp.what, other.what, OWN_STACK, 0.0, common, _simple_mm(a, b))
    return None


def _said(a: Thing, b: Thing, exact: Apart, sure: Sure) -> Clearance:
    mm, places = exact
    if mm <= rule("solids-touch").value:
        return Clearance(a.what, b.what, _kind(a, b), mm, _common_mm3(a, b), _simple_mm(a, b), b.asked_mm)
    known = sure.known(a, b, mm, places)
    return Clearance(a.what, b.what, _kind(a, b), mm, 0.0, _simple_mm(a, b), b.asked_mm, known)


def _kind(a: Thing, b: Thing) -> str:
    if b.sort == "keep-out":
        return KEEP_OUT
    if b.sort in ("tube", "panel"):
        return STRUCTURE
    return CLAMPS if a.sort == b.sort == "clamp" else PARTS


def _simple_mm(a: Thing, b: Thing) -> float | None:
    """What `check` sees between the two; None where one has no simple body."""
    return min((clearance(p, q) for p, q in product(a.simple, b.simple)), default=None)


def _common_mm3(a: Thing, b: Thing) -> float:
    near = ((p, q) for p, q in product(a.solids, b.solids) if _meet(p.held_in, q.held_in))
    return math.fsum(float(p.shape.intersect(q.shape).Volume()) for p, q in near)


def _meet(a: Simple, b: Simple) -> bool:
    """Whether two bodies touch; the search for their distance leaves some rounding where they do."""
    return clearance(a, b) <= rule("solids-touch").value


def _nearest_tubes(
    movers: Sequence[Thing], fixed: Sequence[Thing], measured: Sequence[Clearance], sure: Sure
) -> Iterator[Clearance]:
    """The nearest tube of every part and line for which nothing of the structure is measured yet."""
    have = {c.one for c in measured if c.kind == STRUCTURE}
    for mover in movers:
        if mover.sort in ("part", "line") and mover.what not in have:
            tubes = [(mover, f) for f in fixed if f.sort == "tube" and not mover.adjoins(f)]
            yield from _nearest(tubes, sure)


def _round_keep_out(keep_out: Thing, movers: Sequence[Thing], sure: Sure) -> Iterator[Clearance]:
    """Everything that is nearer than asked, or what is nearest unless that is far."""
    asked = keep_out.asked_mm or 0.0
    found = [c for mover in movers if (c := nearer_than(mover, keep_out, asked, sure)) is not None]
    far = max(rule("keep-out-near").value * asked, rule("solids-near").value)
    yield from found or _nearest([(mover, keep_out) for mover in movers], sure, far)


def _nearest(pairs: Sequence[Pair], sure: Sure, limit_mm: float = math.inf) -> Iterator[Clearance]:
    best: Apart = (limit_mm, ())
    nearest = None
    for surely, i in sorted((surely_apart(*pair), i) for i, pair in enumerate(pairs)):
        if surely >= best[0]:
            break
        exact = least(*pairs[i], best[0])
        if exact is not None:
            best, nearest = exact, pairs[i]
    if nearest is not None:
        yield _said(*nearest, best, sure)


def _sunk_mm3(drum: Cylinder, other: Thing) -> float:
    """Volume of a loop's drum that another loop's drum, or what else is on the bolt, reaches into."""
    smaller = Cylinder(drum.start, drum.end, drum.radius_mm - 2 * rule("solids-touch").value)
    if other.drum is not None:
        sunk = [_drum(other.drum)] if _meet(smaller, other.drum) else []
    else:
        sunk = [s.shape for s in other.solids if _meet(smaller, s.held_in)]
    return math.fsum(float(_drum(drum).intersect(shape).Volume()) for shape in sunk)


def _drum(body: Cylinder) -> Shape:
    x, y, z = (e - s for s, e in zip(body.start, body.end, strict=True))
    place = standing(body.start, unit((x, y, z)), (1.0, 0.0, 0.0))
    return moved(ring(2 * body.radius_mm, 0.0, math.hypot(x, y, z)), place)
