"""What is done with a bushing whose gap is not known well enough, in words."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from clampwright.layout.bushing_parts import BushingPart
from clampwright.layout.cut_long import gap_known, left_long
from clampwright.layout.joined import Joined
from clampwright.quantities import show_length
from clampwright.sheets.plus_minus import in_words

Said = tuple[tuple[str, ...], str]
"""Clamps or joints, and what is done there."""


def trim_words(part: BushingPart, layout: Joined, only: Collection[str] = ()) -> tuple[Said, ...]:
    """For the bushings of one length: which are cut to it, which cut long, and how sure their gaps are.

    Nothing where nothing is known of the gaps. `only`: of those at these clamps or joints.
    """
    units = layout.recipe.units
    longer = left_long(part, layout.known_to, units)
    to_length, long = (
        tuple(at for at in where if not only or at in only) for where in (longer.to_length, longer.long)
    )
    carry = tuple(at for at in to_length if _carries(at, layout))
    rest = tuple(at for at in to_length if at not in carry)
    more = show_length(longer.longer_mm, units)
    ways = (
        (rest, "cut to length"),
        (long, f"cut {more} longer, trim to the gap found"),
    )
    said = ((where, _worst(where, layout), way) for where, way in ways if where)
    unsure = tuple((where, f"gap {known}: {way}") for where, known, way in said if known)
    return ((carry, "the part stands on it: cut to length"), *unsure) if carry else unsure


def _carries(where: str, layout: Joined) -> bool:
    """Whether the part stands on a foot with its packing as listed."""
    each = gap_known(where, layout.known_to)
    return each is not None and each.carries


def _worst(where: Sequence[str], layout: Joined) -> str:
    """± of the least sure of some gaps; "" where none is known."""
    found = [each for at in where if (each := gap_known(at, layout.known_to)) is not None]
    worst = max(found, key=lambda each: each.gap_mm, default=None)
    return "" if worst is None else in_words(worst.gap_mm, layout.recipe.units, given=worst.gap_given)
