"""Diameters and radii: a leader to the rim, equal ones said once with their count."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from clampwright.sheets.drawing import Dimension, Item, Pen
from clampwright.sheets.shop.dimensioning.callouts import Callout, Target, placed
from clampwright.sheets.shop.dimensioning.lanes import NoRoom
from clampwright.sheets.shop.dimensioning.room import Room
from clampwright.sheets.shop.dimensioning.style import LEAST_LABEL
from clampwright.sheets.shop.dimensioning.wording import Wording


@dataclass(frozen=True, slots=True)
class Led:
    """A diameter or radius to be dimensioned on one of several equal circles or arcs."""

    kind: Literal["diameter", "radius"]
    targets: tuple[Target, ...]
    value: float
    words: Wording
    scale: float


def with_leaders(
    wanted: Sequence[Led], labels: Sequence[Callout], room: Room, pen: Pen
) -> tuple[tuple[Dimension, ...], tuple[tuple[Item, ...], ...]]:
    """Dimensions with leaders, and the strokes of the labels, () where a label found no place.

    Raises
    ------
    NoRoom
        Where a dimension found no place.
    """
    callouts = [Callout(each.words.lines, each.targets, arrow=True) for each in wanted]
    found = [*placed([*callouts, *labels], room, pen)]
    missed = [n for n, one in enumerate(found) if one is None and n >= len(callouts)]
    again = [replace(labels[n - len(callouts)], size_mm=LEAST_LABEL) for n in missed]
    for n, one in zip(missed, placed(again, room, pen), strict=True):
        found[n] = one
    dimensions = []
    for each, place in zip(wanted, found[: len(wanted)], strict=True):
        if place is None:
            raise NoRoom(f"no place for {each.words.text}")
        points = (place.target.centre, place.tip)
        dimensions.append(
            Dimension(each.kind, points, each.value, each.words.text, each.scale, place.strokes.items())
        )
    rest = found[len(wanted) :]
    return tuple(dimensions), tuple(() if one is None else one.strokes.items() for one in rest)
