"""What is written round the part: hole labels, corner radii, tube names, datum edges, overall sizes."""

from __future__ import annotations

from collections import defaultdict

from clampwright.layout.outline import Arc
from clampwright.layout.placed import Hole
from clampwright.quantities import Vec2, show_length
from clampwright.sheets.clip import clip_segment
from clampwright.sheets.drawing import Box, Item, Path, Text
from clampwright.sheets.ink import FINE, GREY
from clampwright.sheets.labels import Label, Line, Room, place
from clampwright.sheets.lettering import corners, shortened
from clampwright.sheets.part_view import View, along, datum_lines, tubes_in
from clampwright.sheets.placement import on_arc

_NAME, _DRILLS = 2.9, 2.25
_DATUM_SIZE = 2.25
_SIZE_LINE = 6.0
"""Overall sizes stand so far outside the outline."""

_LONGEST_TUBE_NAME = 45.0


def hole_labels(view: View, room: Room) -> tuple[tuple[Item, ...], tuple[str, ...]]:
    """Labels of all holes in the window, and the names of those that found no room."""
    holes = view.holes()
    units = view.layout.recipe.units
    placed = place([_hole_label(hole, centre, units) for hole, centre in holes], room)
    items = [item for one in placed if one is not None for item in one.items()]
    left = tuple(hole.label for (hole, _), one in zip(holes, placed, strict=True) if one is None)
    return tuple(items), left


def _hole_label(hole: Hole, centre: Vec2, units: str) -> Label:
    name = Line(hole.label, _NAME, True)
    drills = Line(drilling(hole, units), _DRILLS)
    small = Line(hole.label, 2.25, True)
    return Label((name, drills), ((centre, hole.diameter_mm / 2),), (small,))


def drilling(hole: Hole, units: str) -> str:
    """Pilot and final drill in a few words.

    Examples
    --------
    >>> drilling(Hole("A1", "clamp", "A1", (10.0, 10.0), 4.85, "AN3", "#11", "#40"), "in")
    '#40 then #11'
    """
    final = hole.drill
    if not any(sign.isdigit() for sign in final) and len(final) > 1:
        final = f"{final} {show_length(hole.diameter_mm, units)}"
    return f"{hole.pilot} then {final}" if hole.pilot and hole.pilot != hole.drill else final


def radius_notes(view: View, room: Room) -> tuple[Item, ...]:
    """A note for each corner radius, at one of the corners that have it."""
    targets: dict[str, list[Vec2]] = defaultdict(list)
    for piece in view.layout.outline.pieces:
        if isinstance(piece, Arc):
            radius = show_length(piece.radius_mm, view.layout.recipe.units)
            targets[radius].append(view.placement.page(on_arc(piece, 0.5)))
    labels = []
    for radius, places in sorted(targets.items()):
        seen = [(p, 0.0) for p in places if _in_window(p, view.window)]
        count = f" ({len(places)}x)" if len(places) > 1 else ""
        labels += [Label((Line(f"R {radius}{count}", 2.4),), tuple(seen))] if seen else []
    return _drawn(labels, room)


def tube_names(view: View, room: Room) -> tuple[Item, ...]:
    """The name of each tube in sight, at its axis."""
    labels = []
    for tube in tubes_in(view):
        spots = [along(tube.start, tube.end, share) for share in (0.2, 0.35, 0.5, 0.65, 0.8)]
        name = shortened(f"tube {tube.letter}: {tube.name}", _LONGEST_TUBE_NAME, 2.4)
        labels.append(Label((Line(name, 2.4, False, GREY),), tuple((spot, 0.0) for spot in spots)))
    return _drawn(labels, room)


def _drawn(labels: list[Label], room: Room) -> tuple[Item, ...]:
    return tuple(item for one in place(labels, room) if one is not None for item in one.items())


def datum_names(view: View, room: Room) -> tuple[Item, ...]:
    """The names of the datum edges: at their ends where the window shows them, else beside them.

    They are hard for what comes after.
    """
    texts: list[Item] = []
    beside: list[Label] = []
    for name, end, away, line in _datum_ends(view):
        text = _end_text(name, end, away)
        if all(_in_window(corner, view.window) for corner in corners(text)):
            texts.append(text)
            room.boxes.append(_box_of(text))
        elif (seen := clip_segment(*line, view.window)) is not None:
            spots = tuple((along(*seen, share), 0.0) for share in (0.5, 0.3, 0.7, 0.15, 0.85))
            beside.append(Label((Line(name, _DATUM_SIZE, True),), spots))
    return (*texts, *_drawn(beside, room))


def _datum_ends(view: View) -> tuple[tuple[str, Vec2, Vec2, tuple[Vec2, Vec2]], ...]:
    """Name, its end on the page, the direction away from there, and the whole line."""
    lines = datum_lines(view)
    away = (view.placement.direction((0.0, -1.0)), view.placement.direction((-1.0, 0.0)))
    return tuple(
        (name, line[0], out, line) for name, line, out in zip(("X = 0", "Y = 0"), lines, away, strict=True)
    )


def _end_text(name: str, end: Vec2, away: Vec2) -> Text:
    (x, y), (dx, dy) = end, away
    if dx < -abs(dy):
        return Text((x - 0.8, y - 0.8), name, _DATUM_SIZE, "right", bold=True)
    if dx > abs(dy):
        return Text((x + 0.8, y - 0.8), name, _DATUM_SIZE, bold=True)
    return Text((x, y - 2.4 if dy < 0 else y + 0.9), name, _DATUM_SIZE, "middle", bold=True)


def overall_sizes(view: View, room: Room) -> tuple[Item, ...]:
    """Width over the outline and height beside it, where the window has room for them."""
    x0, y0, x1, y1 = view.box
    _, _, wide, high = view.layout.outline.box()
    across, along = (high, wide) if view.placement.turned else (wide, high)
    units = view.layout.recipe.units
    top, past = y1 + _SIZE_LINE, -_SIZE_LINE if view.placement.turned else _SIZE_LINE
    side = (x0 if view.placement.turned else x1) + past
    items: list[Item] = []
    for a, b, text in (
        ((x0, top), (x1, top), Text(((x0 + x1) / 2, top + 0.9), show_length(across, units), 2.6, "middle")),
        (
            (side, y0),
            (side, y1),
            Text((side - 0.9, (y0 + y1) / 2), show_length(along, units), 2.6, "middle", 90.0),
        ),
    ):
        box = _box_of(text)
        ends = (
            (min(a[0], b[0]) - 1.0, min(a[1], b[1]) - 1.0),
            (max(a[0], b[0]) + 1.0, max(a[1], b[1]) + 1.0),
        )
        if not all(_in_window(spot, view.window) for spot in (*ends, box[:2], box[2:])):
            continue
        room.boxes.append(box)
        lines = _size_line(a, b, past)
        room.lines += [(*line.points[0], *line.points[-1], 10.0) for line in lines]
        items += [*lines, text]
    return tuple(items)


def _size_line(a: Vec2, b: Vec2, past: float) -> list[Path]:
    """A line with a tick across each end, and lines that lead to what it measures."""
    level = a[1] == b[1]
    way = 1.0 if level or past > 0 else -1.0
    near, over = -way * (_SIZE_LINE - 1.0), way
    items = [Path((a, b), FINE)]
    for x, y in (a, b):
        items.append(Path(((x - 0.8, y - 0.8), (x + 0.8, y + 0.8)), FINE))
        ends = ((x, y + near), (x, y + over)) if level else ((x + near, y), (x + over, y))
        items.append(Path(ends, FINE))
    return items


def _box_of(text: Text) -> Box:
    xs, ys = zip(*corners(text), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _in_window(point: Vec2, window: Box) -> bool:
    return window[0] <= point[0] <= window[2] and window[1] <= point[1] <= window[3]
