"""Welds and nodes: no band lies on a weld, on a tube's end or so near that the weld cannot be seen."""

from __future__ import annotations

from functools import partial
from itertools import pairwise

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.clamps import tube_of
from clampwright.checks.finding import Finding
from clampwright.checks.wording import at_least, shown
from clampwright.layout.joined import Joined, Loop
from clampwright.structure.nodes import nodes
from clampwright.structure.tubes import Node
from clampwright.trade.tables import rule

_weld = partial(Finding, "WELD-1", "distance to welds and tube ends")


def weld_distance(layout: Joined) -> tuple[Finding, ...]:
    """WELD-1: the band of every clamp lies a tube diameter or more from every node of its tube."""
    found = nodes(layout.recipe.structure)
    on_tubes = (loop for loop in layout.loops if loop.tube in layout.recipe.structure.names)
    return tuple(_nearest(c, tuple(n for n in found if n.tube == c.tube), layout) for c in on_tubes)


def band_to_node(place: Loop, node: Node) -> float:
    """From the near edge of a clamp's band to a node, mm; negative where the band covers it."""
    return abs(place.station_mm - node.station_mm) - place.clamp.band_width_mm / 2


def _nearest(place: Loop, found: tuple[Node, ...], layout: Joined) -> Finding:
    node = min(found, key=lambda n: band_to_node(place, n))
    least = rule("weld-distance-least")
    od = tube_of(place, layout).od_mm
    clear = band_to_node(place, node)
    if not found[0].station_mm <= place.station_mm <= found[-1].station_mm:
        clear = -clear - place.clamp.band_width_mm
    made = partial(
        _weld,
        where=place.label,
        value=clear / od,
        limit=least.value,
        unit="tube diameters",
        sources=(least.source,),
    )
    here = f"Band at station {shown(place.station_mm, layout)}"
    at = f"the {_reason(node, place)} (station {shown(node.station_mm, layout)})"
    if clear >= least.value * od - SAME_MM:
        return made(verdict="pass", says=f"{here}, {shown(clear, layout)} clear of {at}.", change="")
    change = _slide(place, [n.station_mm for n in found], least.value * od, layout)
    if clear <= SAME_MM:
        says = f"{here} covers {at} or lies beyond it: a weld there cannot be seen."
        return made(verdict="fail", says=says, change=change)
    says = f"Band only {shown(clear, layout)} from {at}; a diameter, {shown(od, layout)}, keeps it in sight."
    return made(verdict="caution", says=says, change=change)


def _reason(node: Node, place: Loop) -> str:
    """What a node is, in the middle of a sentence: "end of the tube" or "place on main where brace ends"."""
    words = node.reason.removesuffix(" here")
    return words if words == node.reason else f"place on {place.tube} where {words}"


def free_stations(stations: list[float], keep_mm: float) -> list[tuple[float, float]]:
    """The reaches of a tube that lie `keep_mm` or more from each of its nodes.

    >>> free_stations([0.0, 100.0, 130.0], 20.0)
    [(20.0, 80.0)]
    """
    return [(a + keep_mm, b - keep_mm) for a, b in pairwise(stations) if b - a >= 2 * keep_mm]


def _slide(place: Loop, stations: list[float], clear_mm: float, layout: Joined) -> str:
    """Where the nearest free place on the tube is."""
    keep = clear_mm + place.clamp.band_width_mm / 2
    free = [min(max(place.station_mm, low), high) for low, high in free_stations(stations, keep)]
    if not free:
        return (
            f"Put it on another tube: no place of {place.tube} is {shown(keep, layout)} from both neighbours."
        )
    target = min(free, key=lambda station: abs(station - place.station_mm))
    by = at_least(abs(target - place.station_mm), layout)
    return f"Slide {place.label} {by} along the tube, to station {shown(target, layout)}."


CHECKS = (
    Check(
        "WELD-1",
        "distance to welds and tube ends",
        "Edge of each band to the nearest tube end or weld on its tube, over the tube's outside diameter.",
        weld_distance,
        rules=("weld-distance-least",),
    ),
)
