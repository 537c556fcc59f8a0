"""What a person has to look at before a tube of a STEP file is used."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from clampwright.quantities import show_length
from clampwright.structure.step.judged import Taken
from clampwright.structure.step.pieces import Whole
from clampwright.structure.step.sizes import odd_size
from clampwright.structure.wording import show_small, stretch
from clampwright.trade.tables import rule


def doubts_of(taken: Taken, wholes: Sequence[Whole], unit: str, units: str) -> tuple[str, ...]:
    """Doubts about one tube, one sentence each.

    `wholes` is every round thing seen from outside, `unit` the file's, `units` what lengths are said in.
    """
    return (
        *_short(taken, wholes, units),
        *odd_size(taken.whole.od_mm, unit, units),
        *_not_all_round(taken),
        *_gaps(taken.whole, units),
        *_inside(taken.whole, wholes, units),
        *_free_form(taken.whole, units),
    )


def _short(taken: Taken, wholes: Sequence[Whole], units: str) -> Iterator[str]:
    solid = taken.bore_mm is None
    if taken.diameters_long >= rule("step-short-solid" if solid else "step-short-hollow").value:
        return
    kind = "solid: a bolt, a pin or the end of a shaft?" if solid else "a bushing or a boss?"
    yield f"Only {taken.diameters_long:.1f} diameters long, {kind}"
    steps = sorted({w.od_mm for w in wholes if _goes_on_as(taken.whole, w)})
    if steps:
        sizes = " and ".join(show_length(od, units) for od in steps)
        yield f"The same body goes on about the axis with OD {sizes}: a head, or a step of a turned part?"


def _goes_on_as(whole: Whole, other: Whole) -> bool:
    if other.line is whole.line or not (whole.solids & other.solids):
        return False
    if not whole.line.shares_axis(other.line):
        return False
    near = rule("step-gap-most").value * whole.od_mm
    return any(whole.apart_mm(run) <= near for run in other.runs)


def _not_all_round(taken: Taken) -> Iterator[str]:
    if taken.median_rad < np.radians(rule("step-round-likely").value):
        yield (
            f"Skin for {np.degrees(taken.median_rad):.0f}° round it over half its length: what lies along "
            "the rest?"
        )


def _gaps(whole: Whole, units: str) -> Iterator[str]:
    for gap in whole.gaps:
        if not gap.by_tube:
            where = _stretch(whole, gap.low_mm, gap.high_mm, units)
            yield f"No skin of its own from station {where}, and no tube there: what sits round it?"


def _inside(whole: Whole, wholes: Sequence[Whole], units: str) -> Iterator[str]:
    round_it = [w for w in wholes if w.od_mm > whole.od_mm and w.line is not whole.line]
    beside = [
        (*common, other.od_mm)
        for other in round_it
        if whole.line.shares_axis(other.line)
        for common in (whole.common(run) for run in other.runs)
        if common is not None
    ]
    if not beside:
        return
    stretches = " and ".join(_stretch(whole, low, high, units) for low, high in _merged(beside))
    most = show_length(max(od for _, _, od in beside), units)
    yield f"Something round, OD up to {most}, lies about it from station {stretches}."


def _merged(spans: Sequence[tuple[float, float, float]]) -> list[tuple[float, float]]:
    merged: list[tuple[float, float]] = []
    for low, high, _ in sorted(spans):
        if merged and low <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(merged[-1][1], high))
        else:
            merged.append((low, high))
    return merged


def _stretch(whole: Whole, low_mm: float, high_mm: float, units: str) -> str:
    return stretch(low_mm - whole.low_mm, high_mm - whole.low_mm, units)


def _free_form(whole: Whole, units: str) -> Iterator[str]:
    gap = max(face.skin.cylinder.gap_mm for face in whole.faces)
    if gap > rule("step-recognised-said").value:
        yield f"Drawn as a free-form surface that lies within {show_small(gap, units)} of a cylinder."
