"""Placing what the plate carries: bodies, hole patterns, and a row for what the recipe gives no place."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from clampwright.layout.increment import to_nearest, up_to
from clampwright.quantities import Vec2
from clampwright.recipe.model import Component
from clampwright.trade.tables import rule


@dataclass(frozen=True, slots=True)
class SetComponent:
    """A component with its place in the plan (from the middle of the clamp holes)."""

    component: Component
    at: Vec2

    @property
    def holes(self) -> tuple[Vec2, ...]:
        """Hole centres, in the recipe's order."""
        return tuple(placed(h, self.at, self.component.turn_rad) for h in self.component.holes)

    @property
    def corners(self) -> tuple[Vec2, ...]:
        """Corners of the body's footprint, counter-clockwise; none without a body."""
        if self.component.body is None:
            return ()
        x, y = self.component.body[0] / 2, self.component.body[1] / 2
        base = ((-x, -y), (x, -y), (x, y), (-x, y))
        return tuple(placed(corner, self.at, self.component.turn_rad) for corner in base)


def placed(point: Vec2, at: Vec2, turn_rad: float) -> Vec2:
    """A point of a component's own frame in the plan: turned counter-clockwise, then moved.

    >>> u, v = placed((10.0, 0.0), (1.0, 2.0), math.pi / 2)
    >>> round(u, 9), round(v, 9)
    (1.0, 12.0)
    """
    cos, sin = math.cos(turn_rad), math.sin(turn_rad)
    return at[0] + point[0] * cos - point[1] * sin, at[1] + point[0] * sin + point[1] * cos


def set_components(
    carries: Sequence[Component], increment: float, datum: Vec2 = (0.0, 0.0)
) -> tuple[SetComponent, ...]:
    """Every component with its place, in the recipe's order.

    A given place is kept. The others: the first at the middle of the clamp holes where it is free, the
    next ones in a row along u, beside what is already there on the shorter side, rule `component-gap`
    between them. Origins are rounded to the increment, counted from `datum`; the holes of a component keep
    the distances that its maker gave them.

    >>> relay = Component("relay", 0.1, None, 0.0, (), "AN3", None, None, (30.0, 20.0, 25.0), None, 0)
    >>> [item.at for item in set_components([relay, relay, relay], 0.5)]
    [(0.0, 0.0), (40.0, 0.0), (-40.0, 0.0)]
    """
    given = {i: SetComponent(c, _on_grid(c.at, increment, datum)) for i, c in enumerate(carries) if c.at}
    done = dict(given)
    for i, component in enumerate(carries):
        if i not in done:
            done[i] = _set_beside(component, list(done.values()), increment, datum)
    return tuple(done[i] for i in range(len(carries)))


def extent(items: Sequence[SetComponent]) -> tuple[float, float, float, float] | None:
    """Box (u_min, v_min, u_max, v_max) round footprints and hole centres; None where there are none."""
    points = [p for item in items for p in (*item.corners, *item.holes)]
    if not points:
        return None
    us, vs = [p[0] for p in points], [p[1] for p in points]
    return min(us), min(vs), max(us), max(vs)


def _on_grid(at: Vec2, increment: float, datum: Vec2) -> Vec2:
    u, v = (to_nearest(a - d, increment) + d for a, d in zip(at, datum, strict=True))
    return u, v


def _set_beside(
    component: Component, there: list[SetComponent], increment: float, datum: Vec2
) -> SetComponent:
    middle = SetComponent(component, _on_grid((0.0, 0.0), increment, datum))
    own, taken = extent([middle]) or (0.0, 0.0, 0.0, 0.0), extent(there)
    if taken is None or all(_apart(extent([item]), own) for item in there):
        return middle
    gap = rule("component-gap").value
    right = up_to(taken[2] + gap - own[0], increment)
    left = -up_to(own[2] + gap - taken[0], increment)
    shift = right if right <= -left else left
    return SetComponent(component, (middle.at[0] + shift, middle.at[1]))


def _apart(a: tuple[float, float, float, float] | None, b: tuple[float, float, float, float]) -> bool:
    """Whether two boxes keep the gap of a row between them."""
    gap = rule("component-gap").value
    if a is None:
        return True
    return a[0] - b[2] >= gap or b[0] - a[2] >= gap or a[1] - b[3] >= gap or b[1] - a[3] >= gap
