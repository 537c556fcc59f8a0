"""Labels with leaders, placed where they touch nothing."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from clampwright.quantities import Vec2
from clampwright.sheets import collisions
from clampwright.sheets.drawing import Box, Colour, Item, Path, Text
from clampwright.sheets.ink import BLACK, FINE
from clampwright.sheets.lettering import width

_GAPS = (1.8, 3.0, 5.0, 8.0, 12.0, 17.0, 23.0, 30.0, 40.0)
"""From the target to the label, mm: tried nearest first."""

_WAYS = 16
_AIR = 0.5
"""Least room between a label and anything hard, mm."""

_LEADER_FROM = 2.4
"""Gap from which on a leader is drawn, mm."""

_ALONG_A_CROSS = 4.0
"""Cost of a leader that would run on from an arm of the hole's cross."""


@dataclass(frozen=True, slots=True)
class Line:
    """A line of a label."""

    text: str
    size_mm: float
    bold: bool = False
    colour: Colour = BLACK


@dataclass(frozen=True, slots=True)
class Label:
    """A label for one of its targets: circles of the radius round a point (0: the point itself)."""

    lines: tuple[Line, ...]
    targets: tuple[tuple[Vec2, float], ...]
    brief: tuple[Line, ...] = ()
    """What to write where there is no room for `lines`; empty: nothing less will do."""


@dataclass(frozen=True, slots=True)
class Placed:
    """A label's box, and its leader where it has one."""

    box: Box
    lines: tuple[Line, ...]
    leader: tuple[Vec2, Vec2] | None

    def items(self) -> tuple[Item, ...]:
        """Leader and lines as primitives."""
        drawn: list[Item] = [] if self.leader is None else [Path(self.leader, FINE)]
        middle, y = (self.box[0] + self.box[2]) / 2, self.box[3]
        for line in self.lines:
            drawn.append(
                Text(
                    (middle, y - line.size_mm * 0.74),
                    line.text,
                    line.size_mm,
                    "middle",
                    0.0,
                    line.bold,
                    line.colour,
                )
            )
            y -= line.size_mm * 1.05
        return tuple(drawn)


@dataclass(slots=True)
class Room:
    """A window to place labels in, and what stands there already.

    `boxes` and `circles` must not be touched; crossing one of `lines` costs its weight.
    """

    window: Box
    boxes: list[Box] = field(default_factory=list)
    circles: list[tuple[float, float, float]] = field(default_factory=list)
    lines: list[tuple[float, float, float, float, float]] = field(default_factory=list)
    leaders: list[tuple[float, float, float, float]] = field(default_factory=list)


def place(labels: Sequence[Label], room: Room) -> tuple[Placed | None, ...]:
    """A place for each label, hard things untouched; None where there is none even for its brief form.

    The most crowded labels choose first; where one is left over, all start again with that one first.
    What is placed is added to `room`.
    """
    order = sorted(range(len(labels)), key=lambda n: _elbow_room(labels[n], room))
    best: dict[int, Placed] = {}
    for _ in range(3):
        tried, failed = _place_in_order(labels, order, room, brief=False)
        if len(tried) > len(best) or not best:
            best = tried
        if not failed:
            break
        order = failed + [n for n in order if n not in set(failed)]
    for placed in best.values():
        _occupy(room, placed)
    left = [n for n in range(len(labels)) if n not in best]
    late, _ = _place_in_order(labels, left, room, brief=True)
    for placed in late.values():
        _occupy(room, placed)
    best |= late
    return tuple(best.get(n) for n in range(len(labels)))


def _place_in_order(
    labels: Sequence[Label], order: Sequence[int], room: Room, *, brief: bool
) -> tuple[dict[int, Placed], list[int]]:
    trial = Room(room.window, room.boxes[:], room.circles, room.lines, room.leaders[:])
    done: dict[int, Placed] = {}
    failed: list[int] = []
    for n in order:
        lines = labels[n].brief if brief else labels[n].lines
        placed = _best_place(lines, labels[n].targets, trial) if lines else None
        if placed is None:
            failed.append(n)
        else:
            done[n] = placed
            _occupy(trial, placed)
    return done, failed


def _occupy(room: Room, placed: Placed) -> None:
    room.boxes.append(placed.box)
    if placed.leader is not None:
        room.leaders.append((*placed.leader[0], *placed.leader[1]))


def _elbow_room(label: Label, room: Room) -> float:
    """Distance from the first target to the third nearest circle: small where it is crowded."""
    (x, y), _ = label.targets[0]
    near = sorted(math.hypot(cx - x, cy - y) - r for cx, cy, r in room.circles)
    return near[min(3, len(near) - 1)] if near else math.inf


def size(lines: Sequence[Line]) -> Vec2:
    """Width and height of a label."""
    return (
        max(width(line.text, line.size_mm, line.bold) for line in lines),
        sum(line.size_mm for line in lines) * 1.05,
    )


def _candidates(
    wide: float, high: float, target: Vec2, radius: float
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
    """Boxes (n, 4), leaders from the target's rim to the box (n, 4), gaps (n)."""
    angles = np.tile(np.arange(_WAYS) * (2 * math.pi / _WAYS), len(_GAPS))
    gaps = np.repeat(np.asarray(_GAPS), _WAYS)
    cos, sin = np.cos(angles), np.sin(angles)
    reach = (
        radius
        + gaps
        + np.minimum(wide / 2 / np.maximum(np.abs(cos), 1e-9), high / 2 / np.maximum(np.abs(sin), 1e-9))
    )
    x, y = target[0] + reach * cos, target[1] + reach * sin
    boxes = np.stack([x - wide / 2, y - high / 2, x + wide / 2, y + high / 2], axis=1)
    rim = np.stack([target[0] + radius * cos, target[1] + radius * sin], axis=1)
    ends = np.stack(
        [np.clip(rim[:, 0], boxes[:, 0], boxes[:, 2]), np.clip(rim[:, 1], boxes[:, 1], boxes[:, 3])], axis=1
    )
    return boxes, np.concatenate([rim, ends], axis=1), gaps


def _best_place(lines: tuple[Line, ...], targets: Sequence[tuple[Vec2, float]], room: Room) -> Placed | None:
    best: tuple[float, Placed] | None = None
    for target, radius in targets:
        found = _best_at(lines, target, radius, room)
        if found is not None and (best is None or found[0] < best[0] - 1e-9):
            best = found
    return None if best is None else best[1]


def _best_at(lines: tuple[Line, ...], target: Vec2, radius: float, room: Room) -> tuple[float, Placed] | None:
    wide, high = size(lines)
    boxes, leaders, gaps = _candidates(wide, high, target, radius)
    free = collisions.within(boxes, room.window)
    free &= ~collisions.boxes_hit(boxes, room.boxes, _AIR)
    free &= ~collisions.circles_hit(boxes, room.circles, _AIR)
    free &= ~collisions.segments_hit_boxes(boxes, room.leaders, _AIR)
    if not free.any():
        return None
    boxes, leaders, gaps = boxes[free], leaders[free], gaps[free]
    others = [c for c in room.circles if math.hypot(c[0] - target[0], c[1] - target[1]) > 1e-6]
    clear = ~collisions.leaders_hit_circles(leaders, others, _AIR)
    clear &= ~collisions.leaders_hit_boxes(leaders, room.boxes, 0.2)
    clear &= ~collisions.leaders_cross(leaders, room.leaders)
    if not clear.any():
        return None
    boxes, leaders, gaps = boxes[clear], leaders[clear], gaps[clear]
    cost = gaps + collisions.weight_crossed(boxes, room.lines, _AIR)
    run = np.abs(leaders[:, 2:] - leaders[:, :2])
    cost += (_ALONG_A_CROSS if radius else 0.0) * (
        (run.min(axis=1) < 0.2 * run.max(axis=1)) & (gaps >= _LEADER_FROM)
    )
    n = int(np.argmin(np.round(cost, 6)))
    box = (float(boxes[n, 0]), float(boxes[n, 1]), float(boxes[n, 2]), float(boxes[n, 3]))
    x0, y0, x1, y1 = (float(value) for value in leaders[n])
    leader = ((x0, y0), (x1, y1)) if gaps[n] >= _LEADER_FROM else None
    return float(cost[n]), Placed(box, lines, leader)
