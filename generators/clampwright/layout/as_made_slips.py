"""Measured holes that were taken from other edges, with axes exchanged, or written under another's label."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import combinations

from clampwright.layout.as_made import GroupFit
from clampwright.layout.placed import PlateLayout
from clampwright.quantities import Vec2
from clampwright.recipe.measured_model import MeasuredPart
from clampwright.recipe.measured_slips import factor, times_too
from clampwright.trade.tables import rule

Taken = Callable[[float, float], Vec2]


def taken_otherwise(layout: PlateLayout, measured: MeasuredPart) -> str:
    """What was most likely done when the holes were measured, one sentence; "" where nothing points to it.

    Every hole is held against where it is drawn, as measured and as if taken from the other edges, with the
    axes exchanged, or with two labels exchanged.
    """
    drawn = {hole.label: hole.at for hole in layout.holes}
    found = {hole.label: hole.at for hole in measured.holes if hole.label in drawn}
    if not found:
        return ""
    worst = max(math.dist(at, drawn[label]) for label, at in found.items())
    if worst < rule("made-slip-least").value:
        return ""
    most = rule("made-otherwise-share").value * worst
    for said, taken in _ways(layout) if len(found) > 1 else ():
        if max(math.dist(taken(*at), drawn[label]) for label, at in found.items()) <= most:
            return said
    seen = (_exchanged(found, drawn), _labels(found, drawn, most), _figures(found, drawn))
    return next((said for each in seen for said in each), "")


def fits_turned(groups: Sequence[GroupFit]) -> str:
    """What a best fit says that turns holes far; "" where none does."""
    turned = next((group for group in groups if turned_far(group)), None)
    if turned is None:
        return ""
    whose = "The holes for the clamps" if turned.name == "the clamps" else f"The holes of {turned.name}"
    return (
        f"{whose} fit best turned by {abs(math.degrees(turned.turn_rad)):.0f}°: they seem to be measured "
        "from another edge, with the other face up or turned, or their labels to be exchanged."
    )


def turned_far(group: GroupFit) -> bool:
    """Whether a best fit turns farther than any part is drilled askew."""
    return abs(math.degrees(group.turn_rad)) > rule("made-turned-least").value


def _ways(layout: PlateLayout) -> Iterator[tuple[str, Taken]]:
    low_x, low_y, high_x, high_y = layout.outline.box()
    wide, tall = low_x + high_x, low_y + high_y
    yield "x and y seem to be exchanged.", lambda x, y: (y, x)
    yield (
        "x seems to be measured from the right edge, or the plate lay component side down.",
        lambda x, y: (wide - x, y),
    )
    yield "y seems to be measured from the top edge.", lambda x, y: (x, tall - y)
    yield "The plate seems to have lain upside down: turned half round.", lambda x, y: (wide - x, tall - y)
    yield "The plate seems to have lain turned a quarter clockwise.", lambda x, y: (wide - y, x)
    yield "The plate seems to have lain turned a quarter counter-clockwise.", lambda x, y: (y, tall - x)


def _exchanged(found: dict[str, Vec2], drawn: dict[str, Vec2]) -> Iterator[str]:
    share, least = rule("made-otherwise-share").value, rule("made-slip-least").value
    for one, other in combinations(found, 2):
        as_said = max(math.dist(found[one], drawn[one]), math.dist(found[other], drawn[other]))
        crossed = max(math.dist(found[one], drawn[other]), math.dist(found[other], drawn[one]))
        if as_said >= least and crossed <= share * as_said:
            yield f"{one} and {other} seem to be exchanged."


def _labels(found: dict[str, Vec2], drawn: dict[str, Vec2], most: float) -> Iterator[str]:
    """More than two labels exchanged: every hole lies where another is drawn."""
    meant = {label: min(drawn, key=lambda one: math.dist(at, drawn[one])) for label, at in found.items()}
    wrong = [label for label, other in meant.items() if label != other]
    near = max(math.dist(at, drawn[meant[label]]) for label, at in found.items()) <= most
    if near and wrong and set(meant.values()) == set(found):
        yield (
            f"The labels {', '.join(wrong[:-1])} and {wrong[-1]} seem to be exchanged: {wrong[0]} lies where "
            f"{meant[wrong[0]]} is drawn; was the plate labelled with its other face up?"
        )


def _figures(found: dict[str, Vec2], drawn: dict[str, Vec2]) -> Iterator[str]:
    """A single figure in another unit, or with its point one place off."""
    for label, at in found.items():
        for axis, value, should in zip("xy", at, drawn[label], strict=True):
            times = factor(value, should)
            if times is not None:
                yield f"{axis} of {label} is {times_too(times)}: are its unit and its decimal point right?"
