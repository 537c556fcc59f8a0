"""Holes that are made alike, said once with their count."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from clampwright.layout.shop.told import Limits, ToldHole


@dataclass(frozen=True, slots=True)
class HoleGroup:
    """Holes of one size, made one way. `number` counts from 1, the smallest first."""

    number: int
    holes: tuple[ToldHole, ...]

    @property
    def like(self) -> ToldHole:
        """One that stands for all."""
        return self.holes[0]

    @property
    def labels(self) -> str:
        """Labels of all, in the order of the part."""
        return ", ".join(hole.label for hole in self.holes)


def hole_groups(holes: Sequence[ToldHole]) -> tuple[HoleGroup, ...]:
    """The holes by diameter, limits, and how they are made.

    Examples
    --------
    >>> holes = [ToldHole(f"A{n}", (n, 0.0), 4.9, "M5", "clamp", "4.9", "") for n in (1, 2)]
    >>> [(group.number, group.labels) for group in hole_groups(holes)]
    [(1, 'A1, A2')]
    """
    found: dict[tuple[object, ...], list[ToldHole]] = {}
    for hole in holes:
        found.setdefault(_alike(hole), []).append(hole)
    ordered = sorted(
        found.values(), key=lambda held: (held[0].made_mm, held[0].diameter_mm, held[0].transferred)
    )
    return tuple(HoleGroup(number, tuple(held)) for number, held in enumerate(ordered, 1))


def _alike(hole: ToldHole) -> tuple[object, ...]:
    return (
        round(hole.diameter_mm, 6),
        _off(hole.size),
        hole.fastener,
        hole.drill,
        hole.pilot,
        hole.transferred,
    )


def _off(limits: Limits | None) -> tuple[float, float] | None:
    return None if limits is None else (round(limits.under_mm, 6), round(limits.over_mm, 6))
