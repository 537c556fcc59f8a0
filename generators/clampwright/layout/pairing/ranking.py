"""Which place for the bolt is the best: it fits, no spacer or a short one, room for the tools."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from clampwright.layout.bodies import Body
from clampwright.layout.clash_bodies import band_body, tube_body
from clampwright.layout.clock import clock_of
from clampwright.layout.from_mark import station_said
from clampwright.layout.joined import Loop
from clampwright.layout.pairing.bolt_ends import bolt_ends, tool_room
from clampwright.layout.pairing.closed import Closed
from clampwright.layout.pairing.distances import distance
from clampwright.layout.pairing.loops import loops_of
from clampwright.layout.pairing.site import Site
from clampwright.layout.stand_off_placed import BoltPlace
from clampwright.trade.tables import rule


@dataclass(frozen=True, slots=True)
class Judged:
    """A place, what it does not keep, and the room that its tools have."""

    place: Closed
    breaks: tuple[str, ...]
    tools_mm: float
    """As `bolt_ends.tool_room`."""
    off_mm: float = 0.0
    """How far the station is from where the tube has most room."""
    distance_mm: float = 0.0
    """How far off the line runs."""


def judged(place: Closed, breaks: tuple[str, ...], site: Site, off_mm: float = 0.0) -> Judged:
    """A place with its breaks and the room for its tools."""
    return Judged(place, breaks, _tool_room(place, site), off_mm, distance(place, site))


def ranked(found: Sequence[Judged]) -> tuple[Judged, ...]:
    """Best first: fits; can be joined at all; the fewest breaks; no spacer, then the shortest; nearest to
    where there is most room; the line nearest by; most room for the tools; the order they were found in."""
    return tuple(sorted(found, key=rank))


def rank(each: Judged) -> tuple[float, ...]:
    """Sorting key of `ranked`; lengths to the micron, so that noise decides nothing."""
    nothing = rule("gap-nothing").value
    spacer = each.place.spacer_mm
    cannot = spacer <= -nothing
    return (
        bool(each.breaks),
        cannot,
        len(each.breaks),
        0.0 if abs(spacer) < nothing else round(abs(spacer), 3),
        round(each.off_mm, 3),
        round(each.distance_mm, 3),
        -round(each.tools_mm, 3),
    )


def bolt_place(number: int, each: Judged, site: Site, solved: bool) -> BoltPlace:
    """A place as people are shown it; where the line follows from the spacer, with how far off it runs."""
    place = each.place
    loops = loops_of(place, site.tube, site.on_tube, site.on_line, False)
    return BoltPlace(
        number=number,
        bolt=place.bolt,
        axis=place.axis,
        turn_tube=place.turn_tube,
        turn_line=place.turn_line,
        spacer_mm=place.spacer_mm,
        station_tube_mm=place.station_tube_mm,
        station_line_mm=place.station_line_mm,
        tilt_rad=place.tilt_rad,
        fits=not each.breaks,
        breaks=each.breaks,
        says="; ".join(
            (
                _spacer_words(place, site),
                *([_distance_words(place, site)] if solved else []),
                *(_loop_words(loop, site) for loop in loops),
            )
        ),
        clock_tube_deg=None if site.tube is None else clock_of(loops[0]).deg,
        clock_line_deg=clock_of(loops[-1]).deg,
        distance_mm=distance(place, site),
    )


def _distance_words(place: Closed, site: Site) -> str:
    off = "the panel's face" if site.tube is None else f"that of {site.tube.name}"
    return f"the axis of {place.line.name} runs {site.shown(distance(place, site))} from {off}"


def _loop_words(loop: Loop, site: Site) -> str:
    return f"{loop.tube} at {_station_words(loop, site)}, bolt at {clock_of(loop).hours}"


def _station_words(loop: Loop, site: Site) -> str:
    """From the tube's mark, where it is on a tube that has one."""
    tube = site.tube
    if tube is None or tube.name != loop.tube or tube.mark_mm is None:
        return f"station {site.shown(loop.station_mm)}"
    return station_said(tube, loop.station_mm, site.units)


def _spacer_words(place: Closed, site: Site) -> str:
    spacer, nothing = place.spacer_mm, rule("gap-nothing").value
    if spacer <= -nothing:
        return f"cannot be joined: {site.shown(-spacer)} too near"
    if spacer < nothing:
        lie = "the two clamps lie foot to foot" if site.tube is not None else "the clamp lies on the panel"
        return f"no spacer: {lie}"
    return f"spacer {site.shown(spacer)}"


def _tool_room(place: Closed, site: Site) -> float:
    """Room for each end's socket beside everything but the clamp that it is on and what that holds."""
    loops = loops_of(place, site.tube, site.on_tube, site.on_line, False)
    around: list[Body] = [tube_body(t) for t in site.others]
    on_line: list[Body] = [tube_body(place.line), band_body(loops[-1])]
    ends = bolt_ends(place, site.on_tube, site.on_line, site.bolt)
    if site.tube is None:
        return tool_room(ends, around)
    on_tube: list[Body] = [tube_body(site.tube), band_body(loops[0])]
    return min(tool_room(ends[:1], [*around, *on_line]), tool_room(ends[1:], [*around, *on_tube]))
