"""Bushings that are cut long and trimmed at the fit, because the gap they fill is not known well enough.

A gap known to ± `gap-nothing` needs nothing: what is left over then is nothing to fill. Any other bushing
is cut so long that it fills the longest gap to be expected with `bushing-trim` to spare, in the steps of
the recipe's unit. Where one length is wanted both ways, those cut longer have a mark of their own (S2 and
S2L), so that nobody mixes them up.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from clampwright.layout.bushing_cuts import cut_list
from clampwright.layout.bushing_parts import BushingPart, CutList, MadeUp
from clampwright.layout.increment import up_to
from clampwright.layout.joined import Joined
from clampwright.layout.known_to import KnownTo
from clampwright.layout.packing import STEPS
from clampwright.trade.tables import rule

LONGER = "L"
"""Behind the mark of a bushing that is cut longer, where others of its length are not."""


@dataclass(frozen=True, slots=True)
class LeftLong:
    """What is done with the bushings of one length."""

    to_length: tuple[str, ...]
    """Clamps or joints whose bushing is cut to its length."""
    long: tuple[str, ...]
    """Clamps or joints whose bushing is cut longer and trimmed to the gap found."""
    longer_mm: float
    """By how much those are longer; 0 where there are none."""


def gap_known(where: str, all_known: Iterable[KnownTo]) -> KnownTo | None:
    """How sure the gap at a clamp or joint is: the worst of the clamps on a joint; None: nothing is known.

    Examples
    --------
    >>> one, other = KnownTo("A1", 1.0, 0.0, 0.5, True), KnownTo("B1", 1.0, 0.0, 0.7, False)
    >>> gap_known("A1+B1", (one, other)).clamp
    'B1'
    """
    labels = where.split("+")
    found = [each for each in all_known if each.clamp == where or each.clamp in labels]
    return max(found, key=lambda each: each.gap_mm, default=None)


def left_long(part: BushingPart, all_known: Sequence[KnownTo], units: str) -> LeftLong:
    """Which bushings of a length are cut long, and by how much.

    The longest gap to be expected is the gap + its ±; less washers and made length that is left + ±.

    Parameters
    ----------
    part
        The bushings of one length, with the gaps they fill.
    all_known
        Of the layout; a gap of which nothing is known is taken as it is.
    units
        "mm" or "in": the steps in which people cut.
    """
    unsure = [(fill, known) for fill in part.fills if (known := _unsure(fill, all_known)) is not None]
    if not unsure:
        return LeftLong(tuple(fill.where for fill in part.fills), (), 0.0)
    short = max(fill.left_mm + known.gap_mm for fill, known in unsure)
    cut = up_to(
        part.length_mm + short + rule("bushing-trim").value, rule(f"bushing-step-{STEPS[units]}").value
    )
    long = tuple(fill.where for fill, _ in unsure)
    rest = tuple(fill.where for fill in part.fills if fill.where not in long)
    return LeftLong(rest, long, cut - part.length_mm)


def _unsure(fill: MadeUp, all_known: Sequence[KnownTo]) -> KnownTo | None:
    known = gap_known(fill.where, all_known)
    return known if known is not None and known.gap_mm > rule("gap-nothing").value else None


def as_marked(layout: Joined) -> tuple[BushingPart, ...]:
    """The bushings as people tell them apart: of a length, those cut longer are a part of their own.

    Its mark has `LONGER` behind it where others of that length are cut to length. The length stays the one it
    is finished to where the gap is as laid out.
    """
    units = layout.recipe.units
    return tuple(
        one for part in layout.bushings for one in _apart(part, left_long(part, layout.known_to, units))
    )


def as_first_made(layout: Joined) -> tuple[BushingPart, ...]:
    """The bushings as marked, each as long as it is first made: those left long are longer than listed."""
    units = layout.recipe.units
    return tuple(
        replace(part, length_mm=part.length_mm + left_long(part, layout.known_to, units).longer_mm)
        for part in as_marked(layout)
    )


def _apart(part: BushingPart, longer: LeftLong) -> Iterator[BushingPart]:
    if not (longer.long and longer.to_length):
        yield part
        return
    for where, mark in ((longer.to_length, part.mark), (longer.long, part.mark + LONGER)):
        fills = tuple(fill for fill in part.fills if fill.where in where)
        yield replace(part, mark=mark, quantity=len(fills), fills=fills)


def longer_at(where: str, parts: Sequence[BushingPart], all_known: Sequence[KnownTo], units: str) -> float:
    """How much longer than listed the bushing at a clamp or joint is cut, mm; 0 where it is not, or none."""
    for part in parts:
        longer = left_long(part, all_known, units)
        if any(where in {at, *at.split("+")} for at in longer.long):
            return longer.longer_mm
    return 0.0


def as_sawn(layout: Joined, cuts: CutList) -> CutList:
    """The cut list with every bushing as long as it is first cut; the same where none is cut long.

    A bar that such a piece is too long for becomes as many usual lengths long as it takes.
    """
    units, pieces = layout.recipe.units, as_first_made(layout)
    listed = as_marked(layout)
    if not cuts.bars or all(a.length_mm == b.length_mm for a, b in zip(pieces, listed, strict=True)):
        return cuts
    kerf, bar = cuts.bars[0].kerf_mm, max(each.length_mm for each in cuts.bars)
    longest = max(piece.length_mm for piece in pieces) + rule("bushing-facing").value
    return cut_list(pieces, kerf, max(bar, up_to(longest, bar)), units)
