"""What stands round the tubes: panels that things are held on, and bodies to keep away from."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.quantities import Vec3


@dataclass(frozen=True, slots=True)
class Panel:
    """A flat panel, such as the firewall: the face that things are held on, and what it is made of.

    `normal` (unit) looks out of that face, into the bay; `point` lies on it.
    """

    name: str
    point: Vec3
    normal: Vec3
    thickness_mm: float
    material: str


@dataclass(frozen=True, slots=True)
class KeepOut:
    """A body to stay away from by at least `distance_mm`: a hot pipe, a moving control, the engine's case.

    Round ones have `start`, `end` and `od_mm` (round ends); boxes have two opposite corners `start` and `end`
    along the world's axes, and no `od_mm`.
    """

    name: str
    start: Vec3
    end: Vec3
    od_mm: float | None
    distance_mm: float
    rides_on: str
    """"engine", "mount", "firewall" or "cowl"; what rides on the engine moves with it."""
    kind: str
    """"hot", "control", "fuel" or "other"."""
