"""Labels, and diameters and radii with leaders: each where it touches nothing, as near as that allows."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from clampwright.quantities import Vec2
from clampwright.sheets import letter_widths
from clampwright.sheets.collisions import Array
from clampwright.sheets.drawing import Box, Path, Pen, Text
from clampwright.sheets.lettering import width
from clampwright.sheets.shop.dimensioning.linear import LEADING
from clampwright.sheets.shop.dimensioning.meeting import crossings, distances
from clampwright.sheets.shop.dimensioning.room import Room
from clampwright.sheets.shop.dimensioning.standing import Standing
from clampwright.sheets.shop.dimensioning.strokes import Segment, Strokes, arrow
from clampwright.sheets.shop.dimensioning.style import LETTER

_REACHES = (6.0, 9.0, 13.0, 18.0, 24.0, 32.0, 42.0, 55.0, 70.0, 90.0)
"""From the rim to a leader's bend, mm."""
_GAPS = (0.7, 1.4, 2.4, 4.0, 6.5, 10.0, 15.0, 22.0, 30.0, 42.0, 60.0)
"""From the rim to a label, mm; a leader joins them from `_LED` on."""
_LED = 2.0
_TURNS = 24
_SHELF = 3.0
_BESIDE = 0.8
_LINE, _RING, _ALONG = 4.0, 12.0, 4.0
"""What a leader costs that crosses a line or another hole, or runs along a centre line; mm of its length."""
_EXTENSION = 200.0
"""What crossing an extension line costs: more than any other way round."""
_INSIDE = 20.0
"""What a leader costs that comes to an arc from the side of its centre."""
_FAR = 10.0
"""Labels are looked for among places that cost less before the rest."""
_MOST_STARTS, _FEW_FAILED = 3, 6
"""All callouts are placed anew so often, as long as no more than so many are left over."""
_TRIED = 60
"""So many of the cheapest places are looked at closely."""
_ASCENT, _DESCENT = letter_widths.ASCENT / 1000, letter_widths.DESCENT / 1000


@dataclass(frozen=True, slots=True)
class Target:
    """A circle, an arc of it, or a point (radius 0), on the page."""

    centre: Vec2
    radius: float = 0.0
    start_deg: float = 0.0
    end_deg: float = 360.0


@dataclass(frozen=True, slots=True)
class Callout:
    """A text for one of its targets: with an arrow at the rim, or as a label beside it."""

    lines: tuple[str, ...]
    targets: tuple[Target, ...]
    arrow: bool
    size_mm: float = LETTER
    bold: bool = False

    def size(self) -> tuple[float, float]:
        """Width and height of its text."""
        wide = max(width(line, self.size_mm, self.bold) for line in self.lines)
        return wide, self.size_mm * (_ASCENT + _DESCENT + LEADING * (len(self.lines) - 1))


@dataclass(frozen=True, slots=True)
class Placed:
    """A callout's strokes, and where its leader meets the rim of which target."""

    strokes: Strokes
    tip: Vec2
    target: Target


def placed(callouts: Sequence[Callout], room: Room, pen: Pen) -> tuple[Placed | None, ...]:
    """A place for each callout; None where there is none. What is placed is added to `room`.

    Those with the least room around them choose first; where few are left over, all start again with those
    first.
    """
    order = sorted(range(len(callouts)), key=lambda n: (not callouts[n].arrow, _crowding(callouts[n], room)))
    best: dict[int, Placed] = {}
    for _ in range(_MOST_STARTS):
        trial, done, failed = room.copy(), {}, []
        for n in order:
            found = _place(callouts[n], trial, pen)
            if found is None:
                failed.append(n)
            else:
                done[n] = found
                trial.add(found.strokes)
        if len(done) > len(best) or not best:
            best = done
        if not failed or len(failed) > _FEW_FAILED:
            break
        order = failed + [n for n in order if n not in failed]
    for n in sorted(best):
        room.add(best[n].strokes)
    return tuple(best.get(n) for n in range(len(callouts)))


def _crowding(callout: Callout, room: Room) -> float:
    """Distance to the nearest other circle: small where it is crowded."""
    return max(
        min((d for x, y, _ in room.rings if (d := math.dist((x, y), each.centre)) > 1e-6), default=1e4)
        for each in callout.targets
    )


def _place(callout: Callout, room: Room, pen: Pen) -> Placed | None:
    best: tuple[float, Placed] | None = None
    for target in callout.targets:
        found = _at(callout, target, room, pen, math.inf if best is None else best[0])
        best = found or best
    return None if best is None else best[1]


def _at(callout: Callout, target: Target, room: Room, pen: Pen, under: float) -> tuple[float, Placed] | None:
    """The cheapest place for a target, and what it costs; None where none costs less than `under`."""
    boxes, leaders, cost = _candidates(callout, target)
    far = cost >= _FAR
    for part in (~far, far) if not callout.arrow else (slice(None),):
        found = _among(callout, target, room, pen, (boxes[part], leaders[part], cost[part]), under)
        if found is not None:
            return found
    return None


def _among(
    callout: Callout,
    target: Target,
    room: Room,
    pen: Pen,
    candidates: tuple[Array, Array, Array],
    under: float,
) -> tuple[float, Placed] | None:
    boxes, leaders, cost = candidates
    here = room.standing(_reach(boxes, leaders))
    fine = here.free(boxes)
    boxes, leaders, cost = boxes[fine], leaders[fine], cost[fine]
    led = np.hypot(*(leaders[:, 2:] - leaders[:, :2]).T) > 1e-9
    clear = ~led | here.lines_clear(leaders)
    boxes, leaders, cost, led = boxes[clear], leaders[clear], cost[clear], led[clear]
    cost = cost + led * _EXTENSION * _crossed(boxes, leaders, callout, here.extension)
    cheap = np.argsort(cost, kind="stable")[:_TRIED]
    boxes, leaders, cost, led = boxes[cheap], leaders[cheap], cost[cheap], led[cheap]
    cost = cost + led * _crossing_cost(leaders, target, here)
    for n in np.argsort(cost.round(6), kind="stable"):
        if cost[n] >= under:
            return None
        found = _drawn(callout, target, _four(boxes[n]), _four(leaders[n]), pen)
        if here.takes(found.strokes):
            return float(cost[n]), found
    return None


def _reach(boxes: Array, leaders: Array) -> Box:
    ends = np.concatenate([boxes[:, :2], boxes[:, 2:], leaders[:, :2], leaders[:, 2:]])
    (x0, y0), (x1, y1) = ends.min(axis=0), ends.max(axis=0)
    return float(x0), float(y0), float(x1), float(y1)


def _crossed(boxes: Array, leaders: Array, callout: Callout, extension: Array) -> Array:
    """How many extension lines each leader crosses, the shelf under its text's side included."""
    if not len(extension) or not len(leaders):
        return np.zeros(len(leaders))
    found = crossings(leaders, extension).sum(axis=1)
    if callout.arrow:
        x, y = leaders[:, 2], leaders[:, 3]
        shelf = np.where(boxes[:, 0] > x, boxes[:, 0] - _BESIDE, boxes[:, 2] + _BESIDE)
        found = found + crossings(np.stack([x, y, shelf, y], axis=1), extension).sum(axis=1)
    return np.asarray(found, dtype=float)


def _candidates(callout: Callout, target: Target) -> tuple[Array, Array, Array]:
    """Boxes, leaders (start = end where there is none) and costs."""
    return _led(callout, target) if callout.arrow else _beside(callout, target)


def _turns(target: Target) -> Array:
    sweep = target.end_deg - target.start_deg
    if sweep >= 360.0 - 1e-6:
        return np.radians(np.arange(_TURNS) * 360.0 / _TURNS + 7.5)
    shares = np.array([0.5, 0.35, 0.65, 0.2, 0.8])
    return np.radians(target.start_deg + sweep * shares)


def _led(callout: Callout, target: Target) -> tuple[Array, Array, Array]:
    wide, high = callout.size()
    first = _turns(target)
    ways = (1.0, -1.0) if target.end_deg - target.start_deg < 360.0 - 1e-6 else (1.0,)
    grid = np.meshgrid(np.array(ways), first, np.array(_REACHES), indexing="ij")
    way, turn, reach = (each.ravel() for each in grid)
    (x, y), r = target.centre, target.radius
    tip = np.stack([x + r * np.cos(turn), y + r * np.sin(turn)], axis=1)
    out = r + way * reach
    bend = np.stack([x + out * np.cos(turn), y + out * np.sin(turn)], axis=1)
    side = np.where(way * np.cos(turn) >= 0, 1.0, -1.0)
    near = bend[:, 0] + side * (_SHELF + _BESIDE)
    far = near + side * wide
    low = bend[:, 1] - high / 2
    boxes = np.stack([np.minimum(near, far), low, np.maximum(near, far), low + high], axis=1)
    along = np.minimum(np.abs(np.cos(turn)), np.abs(np.sin(turn))) < 0.3
    return boxes, np.concatenate([tip, bend], axis=1), reach + _ALONG * along + _INSIDE * (way < 0)


def _beside(callout: Callout, target: Target) -> tuple[Array, Array, Array]:
    wide, high = callout.size()
    turns, gaps = np.meshgrid(_turns(target), np.array(_GAPS), indexing="ij")
    turn, gap = turns.ravel(), gaps.ravel()
    (x, y), r = target.centre, target.radius
    c, s = np.cos(turn), np.sin(turn)
    corner = np.minimum(wide / 2 / np.maximum(np.abs(c), 1e-9), high / 2 / np.maximum(np.abs(s), 1e-9))
    mx, my = x + (r + gap + corner) * c, y + (r + gap + corner) * s
    boxes = np.stack([mx - wide / 2, my - high / 2, mx + wide / 2, my + high / 2], axis=1)
    rim = np.stack([x + r * c, y + r * s], axis=1)
    ends = np.stack([x + (r + gap - _BESIDE) * c, y + (r + gap - _BESIDE) * s], axis=1)
    led = (gap >= _LED)[:, None]
    leaders = np.concatenate([rim, np.where(led, ends, rim)], axis=1)
    along = np.minimum(np.abs(c), np.abs(s)) < 0.2
    return boxes, leaders, gap + _ALONG * (along & led[:, 0])


def _crossing_cost(leaders: Array, target: Target, here: Standing) -> Array:
    cost = np.zeros(len(leaders))
    if not len(leaders):
        return cost
    if len(here.thin):
        cost += _LINE * crossings(leaders, here.thin).sum(axis=1)
    others = here.rings[np.hypot(*(here.rings[:, :2] - target.centre).T) > 1e-6]
    if len(others):
        c = others[None, :, :]
        near = distances(c[..., :2], leaders[:, None, :]) < c[..., 2] + 0.5
        cost += _RING * near.sum(axis=1)
    return cost


def _drawn(callout: Callout, target: Target, box: Box, leader: Segment, pen: Pen) -> Placed:
    start, end = leader[:2], leader[2:]
    paths = list(_leader(callout, box, start, end, pen))
    heads: tuple[Path, ...] = ()
    if callout.arrow:
        long = math.dist(start, end)
        heads = (arrow(start, ((start[0] - end[0]) / long, (start[1] - end[1]) / long)),)
    return Placed(Strokes((), tuple(paths), heads, _texts(callout, box, end)), start, target)


def _leader(callout: Callout, box: Box, start: Vec2, end: Vec2, pen: Pen) -> Iterator[Path]:
    if callout.arrow:
        shelf = box[0] - _BESIDE if box[0] > end[0] else box[2] + _BESIDE
        yield Path((start, end, (shelf, end[1])), pen)
    elif math.dist(start, end) > 1e-9:
        yield Path((start, end), pen)


def _texts(callout: Callout, box: Box, bend: Vec2) -> tuple[Text, ...]:
    size, top = callout.size_mm, box[3] - _ASCENT * callout.size_mm
    if not callout.arrow:
        x, anchor = (box[0] + box[2]) / 2, "middle"
    else:
        x, anchor = (box[0], "left") if box[0] > bend[0] else (box[2], "right")
    return tuple(
        Text((x, top - n * LEADING * size), line, size, anchor, bold=callout.bold)  # type: ignore[arg-type]
        for n, line in enumerate(callout.lines)
    )


def _four(row: Array) -> Segment:
    a, b, c, d = (float(value) for value in row)
    return a, b, c, d
