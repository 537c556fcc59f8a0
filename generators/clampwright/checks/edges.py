"""Edge distance: every bolt hole to the outline and to cut-outs, and the webs left beside cut-outs."""

from __future__ import annotations

from functools import partial
from math import dist

from clampwright.checks.asked import SAME_MM, Check, telling
from clampwright.checks.finding import Finding
from clampwright.checks.holes import bolt_holes
from clampwright.checks.wording import at_least, at_most, floor_2, shown
from clampwright.layout.outline import Outline
from clampwright.layout.placed import Hole, PlateLayout
from clampwright.quantities import Vec2
from clampwright.recipe.model import PlateJob
from clampwright.trade.tables import Rule, rule

_edge = partial(Finding, "EDGE-1", "edge distance")
_cut_out = partial(Finding, "EDGE-2", "distance to a cut-out")
_web = partial(Finding, "EDGE-3", "web beside a cut-out")


def inside_by(outline: Outline, point: Vec2) -> float:
    """How far a point lies inside an outline, mm: negative outside it."""
    distance = outline.distance(point)
    return distance if outline.contains(point) else -distance


def edge_distance(layout: PlateLayout) -> tuple[Finding, ...]:
    """EDGE-1: e/D of every bolt hole to the exact outline (e: hole centre to edge; D: hole diameter)."""
    return tuple(_to_edge(h, layout) for h in bolt_holes(layout))


def _graded(ratio: float) -> tuple[str, Rule]:
    """Verdict of an e/D, and the rule that decides it."""
    least, preferred = rule("edge-distance-least"), rule("edge-distance-preferred")
    if ratio >= preferred.value - SAME_MM:
        return "pass", preferred
    return ("caution", preferred) if ratio >= least.value - SAME_MM else ("fail", least)


def _to_edge(hole: Hole, layout: PlateLayout) -> Finding:
    e = inside_by(layout.outline, hole.at)
    ratio = e / hole.diameter_mm
    verdict, limit = _graded(ratio)
    says = f"{shown(e, layout)} from hole centre to the edge: {floor_2(ratio)} hole diameters"
    if e <= SAME_MM:
        out = f"{shown(-e, layout)} outside the plate" if e < -SAME_MM else "on the plate's edge"
        says = f"The hole's centre lies {out}"
    elif verdict != "pass":
        says += f" where {limit.value:g} are asked"
    change = "" if verdict == "pass" else _inward(hole, e, layout)
    return _edge(hole.label, verdict, ratio, limit.value, "e/D", f"{says}.", change, (limit.source,))


def _inward(hole: Hole, e: float, layout: PlateLayout) -> str:
    """How to reach the preferred distance; a clamp's hole stays where tube and reach put it."""
    preferred = rule("edge-distance-preferred").value
    needed = preferred * hole.diameter_mm
    short = at_least(needed - e, layout)
    widen = f"Widen the plate: margin at least {at_least(needed, layout)}"
    if layout.recipe.asked(PlateJob).plate.outline == "polygon":
        widen = f"Set the polygon's edge {short} further out"
    move = "" if hole.purpose == "clamp" else f", or move {hole.label} {short} inward"
    return f"{widen}{move}; that makes {preferred:g} hole diameters."


def cut_outs(layout: PlateLayout) -> tuple[Hole, ...]:
    """The lightening holes."""
    return tuple(h for h in layout.holes if h.purpose == "lightening")


def cut_out_distance(layout: PlateLayout) -> tuple[Finding, ...]:
    """EDGE-2: e/D of every bolt hole to every cut-out: each that is short, or the nearest for a pass."""
    return telling(_to_cut_out(h, c, layout) for h in bolt_holes(layout) for c in cut_outs(layout))


def _to_cut_out(hole: Hole, cut: Hole, layout: PlateLayout) -> Finding:
    e = dist(hole.at, cut.at) - cut.diameter_mm / 2
    ratio = e / hole.diameter_mm
    verdict, limit = _graded(ratio)
    says = f"{shown(e, layout)} from the centre of {hole.label} to the edge of {cut.label}"
    says = (
        f"{says}: {floor_2(ratio)} hole diameters"
        if e > SAME_MM
        else f"The centre of {hole.label} lies in {cut.label}"
    )
    if verdict != "pass":
        says += f" where {limit.value:g} are asked"
    change = "" if verdict == "pass" else _away(hole, cut, e, layout)
    where = f"{hole.label}/{cut.label}"
    return _cut_out(where, verdict, ratio, limit.value, "e/D", f"{says}.", change, (limit.source,))


def _away(hole: Hole, cut: Hole, e: float, layout: PlateLayout) -> str:
    short = rule("edge-distance-preferred").value * hole.diameter_mm - e
    smaller = cut.diameter_mm - 2 * short
    change = f"Move {cut.label} {at_least(short, layout)} away from {hole.label}"
    return f"{change}, or make its diameter {at_most(smaller, layout)}." if smaller > 0 else f"{change}."


def web(layout: PlateLayout) -> tuple[Finding, ...]:
    """EDGE-3: metal left between a cut-out and the outline, and between two cut-outs."""
    cuts = cut_outs(layout)
    pairs = [(a, b) for i, a in enumerate(cuts) for b in cuts[i + 1 :]]
    to_edge = [
        _webbed(c, "the edge", inside_by(layout.outline, c.at) - c.diameter_mm / 2, layout) for c in cuts
    ]
    between = [
        _webbed(a, b.label, dist(a.at, b.at) - (a.diameter_mm + b.diameter_mm) / 2, layout) for a, b in pairs
    ]
    return (*to_edge, *between)


def _webbed(cut: Hole, other: str, width: float, layout: PlateLayout) -> Finding:
    least = rule("lightening-web")
    where = cut.label if other == "the edge" else f"{cut.label}/{other}"
    found = partial(_web, where=where, value=width, limit=least.value, unit="mm", sources=(least.source,))
    if width >= least.value - SAME_MM:
        says = f"{shown(width, layout)} of metal between {cut.label} and {other}."
        return found(verdict="pass", says=says, change="")
    change = (
        f"Move {cut.label} {at_least(least.value - width, layout)} away from {other}, or make it smaller."
    )
    if width <= SAME_MM:
        return found(verdict="fail", says=f"{cut.label} breaks through to {other}.", change=change)
    says = f"Only {shown(width, layout)} of metal between {cut.label} and {other}."
    return found(verdict="caution", says=says, change=change)


CHECKS = (
    Check(
        "EDGE-1",
        "edge distance",
        "Hole centre to the nearest place on the outline, over the hole diameter (e/D).",
        edge_distance,
        rules=("edge-distance-least", "edge-distance-preferred"),
    ),
    Check(
        "EDGE-2",
        "distance to a cut-out",
        "Hole centre to the edge of each lightening hole, over the hole diameter (e/D); least for a pass.",
        cut_out_distance,
        rules=("edge-distance-least", "edge-distance-preferred"),
    ),
    Check(
        "EDGE-3",
        "web beside a cut-out",
        "Metal left between a lightening hole and the outline, or between two lightening holes.",
        web,
        rules=("lightening-web",),
    ),
)
