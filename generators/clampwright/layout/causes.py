"""What the causes of a layout's errors are, as far as somebody could measure them again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from clampwright.layout.own_causes import PLACE, ROUNDED, OwnCause
from clampwright.layout.settled import Settled

USUAL = "the recipe states no measuring error, and that is by the usual one"


@dataclass(frozen=True, slots=True)
class Cause:
    """What one column of error is, as far as somebody could measure it again."""

    what: str
    """What to measure: "where high is", "the clamps' reach"; "" where there is nothing to measure."""
    default: str = ""
    """Why it is a guess, a phrase; "" where somebody measured it or said how well."""
    place: bool = True
    """A measured place, which the recipe's measuring error stands for where no survey does."""


def causes_of(settled: Settled, own: Sequence[OwnCause]) -> tuple[Cause, ...]:
    """Every column: that of the tubes' uncertainty by the tube whose ends it moves most."""
    sure = settled.uncertainty
    factor = np.array(sure.factor_mm, dtype=float).reshape(len(sure.tubes), 6, sure.causes)
    most = np.argmax(np.sum(np.square(factor), axis=1), axis=0).tolist() if sure.tubes else []
    guess = "" if sure.given else USUAL
    named = [Cause(f"where {sure.tubes[i]} is", guess) for i in most]
    named += [_own(cause) for cause in own]
    return (*named, *[Cause("", place=False)] * (settled.causes - len(named)))


def _own(cause: OwnCause) -> Cause:
    if cause.kind == PLACE:
        return Cause(f"where {cause.of[0]} is", "" if cause.given else USUAL)
    if cause.kind == ROUNDED:
        return Cause("", place=False)
    what = f"the clamps' {cause.kind}"
    return Cause(what, "" if cause.given else f"{what} is a default that nobody measured", place=False)
