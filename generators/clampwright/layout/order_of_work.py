"""The order of assembly, in sentences for the person with the wrench."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.layout.clock import clock_of
from clampwright.layout.cut_long import as_marked
from clampwright.layout.from_mark import station_said
from clampwright.layout.joined import Joined, Joint, Loop, line_named
from clampwright.layout.known_to import known
from clampwright.layout.said import from_where, named_list
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.quantities import show_length, show_torque

_WIRE = (
    "with a loop of safety wire round its feet until its holes are in line; cut the wire away when the bolt "
    "is through."
)


def order(layout: Joined) -> tuple[str, ...]:
    """What to do, first things first, one sentence or a few for each step; without numbers before them.

    Loops go on loose, the larger of two on one bolt is held closed with wire, each bolt goes in from the
    side that the layout gives it with its bushing by mark, and nothing is tightened before all of it fits.
    """
    steps = (
        *_panel(layout),
        *_marks(layout),
        *_loops(layout),
        *_closing(layout),
        *(_bolt(joint, layout) for joint in layout.joints),
        *_fit(layout),
        *_torque(layout),
        *_last(layout),
    )
    return tuple(steps)


def marks_of(joint: Joint, layout: Joined) -> tuple[str, ...]:
    """Marks of the bushings that belong on a joint ("S1"), in the order of the parts list."""
    places = {joint.label, *joint.clamps}
    return tuple(b.mark for b in as_marked(layout) if any(fill.where in places for fill in b.fills))


def stack_words(joint: Joint, layout: Joined) -> str:
    """The layers of a stack from the head to the nut, in words."""
    marks = list(marks_of(joint, layout))
    units = layout.recipe.units
    said = []
    for item in joint.stack.items:
        if item.name == "bushing":
            mark = f" {marks.pop(0)}" if marks else ""
            said.append(f"bushing{mark} ({show_length(item.thickness_mm, units)})")
        elif item.name in ("washer", "washers"):
            said.append(item.part if item.count == 1 else f"{item.count} {item.part}")
        elif item.name == "shim":
            said.append(f"shim of {show_length(item.thickness_mm, units)}")
        else:
            said.append(item.name)
    return named_list((*said, f"nut {joint.stack.nut.part}"))


def _panel(layout: Joined) -> Iterator[str]:
    if not isinstance(layout, StandOffLayout) or layout.panel is None or layout.panel_hole_mm is None:
        return
    size = show_length(layout.panel_hole_mm, layout.recipe.units)
    yield (
        f"Look behind {layout.panel.name} before drilling; drill the one hole of {size} square to it, "
        "break its edges on both sides and clear the chips away."
    )


def _marks(layout: Joined) -> Iterator[str]:
    units = layout.recipe.units
    places = (
        f"{loop.label} on {loop.tube} at {_station(loop, layout, units)}, {clock_of(loop).hours}"
        for loop in layout.loops
    )
    yield f"Mark where each clamp goes (station along its tube, and clock): {'; '.join(places)}."


def _station(loop: Loop, layout: Joined, units: str) -> str:
    """Station, and its ± where that is known."""
    said, each = (
        station_said(line_named(loop.tube, layout), loop.station_mm, units),
        known(loop.label, layout.known_to),
    )
    unsure = "" if each is None else show_length(each.station_mm, units)
    return f"{said} ± {unsure}" if each is not None and float(unsure.split()[0]) else said


def _loops(layout: Joined) -> Iterator[str]:
    by_tube: dict[str, list[str]] = {}
    for loop in layout.loops:
        by_tube.setdefault(loop.tube, []).append(loop.label)
    said = "; ".join(f"{named_list(tuple(labels))} over {tube}" for tube, labels in by_tube.items())
    yield (
        f"Open each loop only as far as it must and slip it on, cushion seated all round, bolt loose: {said}."
    )


def _closing(layout: Joined) -> Iterator[str]:
    by_label = {loop.label: loop for loop in layout.loops}
    pairs = [tuple(by_label[label] for label in joint.clamps if label in by_label) for joint in layout.joints]
    for pair in pairs:
        if len(pair) == 2:
            first = max(pair, key=_size)
            other = next(loop for loop in pair if loop is not first)
            yield f"Draw {first.label}, the {_larger(first, other)}, closed {_WIRE}"
    if any(len(pair) == 1 for pair in pairs):
        yield f"Draw a loop that springs open closed {_WIRE}"


def _size(loop: Loop) -> float:
    return loop.clamp.loop_mm


def _larger(first: Loop, other: Loop) -> str:
    return "larger clamp" if _size(first) > _size(other) else "first of the two equal clamps"


def _bolt(joint: Joint, layout: Joined) -> str:
    chosen = joint.stack.chosen
    bolt = chosen.length.part if chosen is not None else f"the {joint.stack.bolt} bolt"
    away = (-joint.axis[0], -joint.axis[1], -joint.axis[2])
    on_it = f"on it, from the head: {stack_words(joint, layout)}"
    return f"{joint.label}: put {bolt} in {from_where(away)}; {on_it}."


def _fit(layout: Joined) -> Iterator[str]:
    yield (
        "Run every nut up by hand. Slide and turn the clamps to their marks until everything lies flat with "
        "the nuts loose: a gap is filled, never pulled closed with the bolt."
    )


def _torque(layout: Joined) -> Iterator[str]:
    windows: dict[str, list[str]] = {}
    for joint in layout.joints:
        torque = joint.stack.torque
        said = (
            "as its maker says: no torque is in the tables"
            if torque is None
            else f"to {show_torque(torque.low_nm, torque.high_nm, layout.recipe.units)}"
        )
        windows.setdefault(said, []).append(joint.label)
    told = "; ".join(f"{named_list(tuple(labels))} {said}" for said, labels in windows.items())
    yield (
        "Tighten at the nut, a little at a time and in turn, and add the torque that turns the nut against "
        f"its own lock: {told}."
    )


def _last(layout: Joined) -> Iterator[str]:
    yield "Draw a stripe of torque paint across each nut and the bolt's end."
    yield (
        "Rock the engine by hand and watch every gap; look again after the first hour of running, and at "
        "each inspection look under every clamp for wear."
    )
