"""What a place for the bolt does not keep: one sentence each, with the numbers."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from clampwright.layout.bodies import Body, Cylinder, clearance
from clampwright.layout.clash_bodies import band_body, feet_body, tube_body
from clampwright.layout.joined import Loop
from clampwright.layout.pairing.bolt_ends import bolt_ends, spacer_body
from clampwright.layout.pairing.closed import Closed
from clampwright.layout.pairing.distances import distance, distance_without_gap
from clampwright.layout.pairing.loops import loops_of
from clampwright.layout.pairing.nearness import clearance_up_to
from clampwright.layout.pairing.site import Site, keep_out_body
from clampwright.trade.bolts import bolt
from clampwright.trade.tables import rule

_SAME = 1e-9
"""Millimetres: a distance of no more is none, after the noise of reckoning."""

Bodies = Sequence[tuple[str, Body]]


def breaks_of(place: Closed, site: Site) -> tuple[str, ...]:
    """Every sentence; empty where the place serves."""
    loops = loops_of(place, site.tube, site.on_tube, site.on_line, False)
    spacer = spacer_body(place, site.bolt)
    ends: list[tuple[str, Body]] = [("spacer", spacer)] if spacer is not None else []
    ends += [(end.what, end.body) for end in bolt_ends(place, site.on_tube, site.on_line, site.bolt)]
    clamps = [(f"loop of {loop.label}", band_body(loop)) for loop in loops]
    feet = [(f"feet of {loop.label}", feet_body(loop)) for loop in loops]
    return (
        *_spacer(place, site),
        *_on_tube(place, site),
        *_on_line(place, site),
        *_tilted(place),
        *_bolt_past(place, site),
        *_loops_apart(loops),
        *_ends_clear(place, clamps, ends, site),
        *_surroundings((*clamps, *feet, *ends), site),
    )


def _spacer(place: Closed, site: Site) -> Iterator[str]:
    if place.spacer_mm > -rule("gap-nothing").value:
        return
    what = "the two feet would overlap" if site.tube is not None else "the foot would stand in the panel"
    now, needed = distance(place, site), distance_without_gap(place, site)
    yield (
        f"cannot be joined this way: {what} by {site.shown(-place.spacer_mm)}; the line's axis would have to "
        f"run {site.shown(needed)} off instead of {site.shown(now)}"
    )


def _on_tube(place: Closed, site: Site) -> Iterator[str]:
    if site.tube is None or site.on_tube is None:
        return
    tube, half, at = site.tube, site.on_tube.band_width_mm / 2, place.station_tube_mm
    over = max(half - at, at + half - tube.length_mm)
    if over > _SAME:
        yield f"the clamp would stand {site.shown(over)} past the end of {tube.name}"
        return
    keep = rule("weld-distance-least").value * tube.od_mm
    for node in site.welds:
        gap = abs(at - node.station_mm) - half
        if gap < keep - _SAME:
            yield (
                f"the clamp on {tube.name} would stand {site.shown(max(gap, 0.0))} from a place that must "
                f"stay visible ({node.reason}); {site.shown(keep)} is wanted"
            )


def _on_line(place: Closed, site: Site) -> Iterator[str]:
    if not site.ends_known:
        return
    half, at = site.on_line.band_width_mm / 2, place.station_line_mm
    over = max(half - at, at + half - place.line.length_mm)
    if over > _SAME:
        yield (
            f"the clamp on {place.line.name} would stand {site.shown(over)} past the end of the straight "
            "piece that the recipe gives"
        )


def _tilted(place: Closed) -> Iterator[str]:
    most, tilt = rule("tilt-fail").value, math.degrees(place.tilt_rad)
    if tilt > most:
        yield f"the line's clamp would be tilted {tilt:.1f}° to the bolt; at most {most:g}°"


def _bolt_past(place: Closed, site: Site) -> Iterator[str]:
    """The shank beside what each clamp holds."""
    radius = bolt(site.bolt).shank_max_mm / 2
    held = [(site.on_line, place.line.name, site.line_od_mm)]
    if site.tube is not None and site.on_tube is not None:
        held.insert(0, (site.on_tube, site.tube.name, site.tube.od_mm))
    for clamp, name, od in held:
        gap = clamp.reach_mm - radius - od / 2
        if gap <= 0:
            reach = site.shown(clamp.reach_mm)
            yield f"the bolt would run {site.shown(-gap)} into {name}: its clamp's reach is {reach}"


def _loops_apart(loops: Sequence[Loop]) -> Iterator[str]:
    """Loops against each other: those that touch, or press in their cushions a little, lie back to back."""
    if len(loops) > 1 and clearance(*(_slim(band_body(loop)) for loop in loops)) < _SAME:
        yield "the two loops would run into each other"


def _slim(drum: Cylinder) -> Cylinder:
    return Cylinder(drum.start, drum.end, drum.radius_mm - rule("loop-squeeze-most").value)


def _ends_clear(place: Closed, clamps: Bodies, ends: Bodies, site: Site) -> Iterator[str]:
    """Spacer, head and nut against tube, line and both loops."""
    held: list[tuple[str, Body]] = [(place.line.name, tube_body(place.line))]
    if site.tube is not None:
        held.append((site.tube.name, tube_body(site.tube)))
    held += [(f"the {what}", body) for what, body in clamps]
    for what, end in ends:
        yield from (
            f"the {what} would run into {name}"
            for name, body in held
            if clearance_up_to(end, body, _SAME) < _SAME
        )


def _surroundings(bodies: Bodies, site: Site) -> Iterator[str]:
    """Clamps and bolt against the other tubes and what is to be kept away from, each named once."""
    near = rule("component-clearance").value
    around: list[tuple[str, Body, float]] = [(t.name, tube_body(t), near) for t in site.others]
    around += [(k.name, keep_out_body(k), k.distance_mm) for k in site.structure.keep_outs]
    for name, body, wanted in around:
        gap, what = min((clearance_up_to(each, body, wanted), what) for what, each in bodies)
        if gap < wanted - _SAME:
            yield f"the {what} would come within {site.shown(gap)} of {name}; {site.shown(wanted)} is wanted"
