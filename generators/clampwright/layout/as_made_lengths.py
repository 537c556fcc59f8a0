"""Measured bushings: which piece goes where, and what its gap then is short or over."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from clampwright.layout.as_made import LengthFit
from clampwright.layout.bushing_parts import BushingPart, MadeUp
from clampwright.layout.cut_long import as_marked, gap_known, left_long
from clampwright.layout.joined import Joined
from clampwright.recipe.measured_model import MeasuredPart
from clampwright.trade.tables import rule


def fit_lengths(layout: Joined, measured: MeasuredPart) -> tuple[LengthFit, ...]:
    """Every measured piece at the place that suits it best, bushing by bushing.

    The longest piece goes under the longest gap: no other order leaves less over at the worst of them. A
    single measured piece of several stands for all of them.
    """
    return tuple(
        fit
        for part in as_marked(layout)
        for fit in _of_part(
            part, [one.length_mm for one in measured.lengths if one.mark == part.mark], layout
        )
    )


def length_at(where: str, lengths: Sequence[LengthFit]) -> LengthFit | None:
    """The measured piece that stands at a clamp or joint; None: nobody measured it.

    >>> piece = LengthFit("S1", ("A1+B1",), 10.0, 10.1, 9.9, 10.1, -0.1, 0.1)
    >>> length_at("A1", [piece]) is piece, length_at("C1", [piece])
    (True, None)
    """
    return next((one for one in lengths if any(where in {at, *at.split("+")} for at in one.where)), None)


def long_pieces(layout: Joined) -> tuple[tuple[str, ...], ...]:
    """Clamps or joints whose bushing is left long and trimmed to the gap found, mark by mark."""
    units = layout.recipe.units
    return tuple(left_long(part, layout.known_to, units).long for part in as_marked(layout))


def _of_part(part: BushingPart, found: Sequence[float], layout: Joined) -> Iterator[LengthFit]:
    fills = sorted(part.fills, key=lambda fill: fill.left_mm)
    if len(found) == 1:
        yield _fit(part, fills, found[0], layout)
        return
    for fill, length in zip(fills, _spread(sorted(found), len(fills)), strict=False):
        yield _fit(part, [fill], length, layout)


def _spread(lengths: Sequence[float], places: int) -> Sequence[float]:
    """No more pieces than places: the reader refuses more."""
    return lengths[:places]


def _fit(part: BushingPart, fills: Sequence[MadeUp], length: float, layout: Joined) -> LengthFit:
    longer = left_long(part, layout.known_to, layout.recipe.units)
    drawn = part.length_mm + longer.longer_mm
    under, over = part.tolerance_mm
    left = [fill.left_mm + part.length_mm - length for fill in fills]
    known = [gap_known(fill.where, layout.known_to) for fill in fills]
    return LengthFit(
        mark=part.mark,
        where=tuple(fill.where for fill in fills),
        planned_mm=drawn,
        measured_mm=length,
        low_mm=drawn - under,
        high_mm=drawn + over,
        left_mm=max(left, key=abs),
        allowed_mm=rule("gap-nothing").value,
        long_mm=longer.longer_mm,
        gap_doubt_mm=max((each.gap_mm for each in known if each is not None), default=0.0),
    )
