"""Layouts of which something is known: a different ± at every clamp, so that none stands for another."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeVar

from sheets.joined.by_hand import LEVEL, UPRIGHT, ByHand, layout_of
from sheets.sheet_plates import plate

from clampwright.layout.known_to import KnownTo
from clampwright.layout.placed import PlateLayout
from clampwright.structure.tubes import Tube
from clampwright.structure.uncertainty import Uncertainty

Any = TypeVar("Any", PlateLayout, ByHand)
REACH = "the clamps' reach, which nobody measured"


def known_to(labels: tuple[str, ...], *, measured: bool = True) -> tuple[KnownTo, ...]:
    """± of 1.21, 2.21 ... along, 0.31, 1.31 ... across and 0.41, 1.41 ... of the gap."""
    return tuple(
        KnownTo(
            label, n + 1.21, n + 0.31, n + 0.41, measured, "" if measured else REACH, across_given=measured,
            gap_given=measured,
        )
        for n, label in enumerate(labels)
    )  # fmt: skip


def with_known(layout: Any, *, measured: bool = True) -> Any:
    """The same with a ± at every clamp."""
    labels = tuple(loop.label for loop in layout.loops)
    return replace(layout, known_to=known_to(labels, measured=measured))


def with_marks(layout: Any, mark_mm: float | None) -> Any:
    """The same with a mark on every tube."""
    structure = layout.recipe.structure
    tubes = tuple(replace(tube, mark_mm=mark_mm) for tube in structure.tubes)
    structure = replace(structure, tubes=tubes)
    return replace(layout, recipe=replace(layout.recipe, structure=structure))


def surveyed(layout: Any, *, given: bool = True) -> Any:
    """The same on tubes from a survey."""
    said = "tape survey oddlark-mount, 31 measurements"
    structure = replace(layout.recipe.structure, uncertainty=Uncertainty((), (), said, given))
    return replace(layout, recipe=replace(layout.recipe, structure=structure))


PLATE = with_known(plate())
INCH = with_known(plate(units="in"), measured=False)


def on_tubes(tube: Tube = LEVEL, units: str = "mm") -> ByHand:
    """Two clamps on one tube and one on another, with bushings of no part."""
    made = layout_of([(tube, [(150.0, 0.7), (270.0, 0.7)]), (UPRIGHT, [(120.0, 2.0)])], units=units)
    return with_known(made)
