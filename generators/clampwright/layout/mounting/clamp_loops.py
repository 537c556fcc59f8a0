"""Clamps of an answer as loops in the world, lettered tube by tube and numbered along each."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from clampwright.layout.drilled_holes import letters
from clampwright.layout.joined import Loop
from clampwright.layout.mounting.holders import Holder
from clampwright.layout.tube_lines import TubeLine, turns


def loops_of(
    held: Sequence[Holder], lines: Sequence[TubeLine], at: Sequence[tuple[int, float, int]]
) -> tuple[Loop, ...]:
    """One loop for each (tube of `held` and `lines`, station, turn), in that order."""
    labels = _labels([(k, station) for k, station, _ in at])
    return tuple(_loop(label, held, lines, *each) for label, each in zip(labels, at, strict=True))


def side_of(lines: Sequence[TubeLine], k: int, station: float, turn: int) -> str:
    """ "inboard" or "outboard" among the lines; on one tube alone "left" or "right" of it."""
    others = [line for i, line in enumerate(lines) if i != k]
    if not others:
        return "left" if turn > 0 else "right"
    inboard = int(turns(lines[k], np.array(station), others))
    return "inboard" if turn == inboard else "outboard"


def _labels(at: Sequence[tuple[int, float]]) -> list[str]:
    used = sorted({k for k, _ in at})
    letter = dict(zip(used, letters(len(used)), strict=True))
    order = sorted(range(len(at)), key=lambda i: at[i])
    found, counts = [""] * len(at), dict.fromkeys(used, 0)
    for i in order:
        k = at[i][0]
        counts[k] += 1
        found[i] = f"{letter[k]}{counts[k]}"
    return found


def _loop(
    label: str, held: Sequence[Holder], lines: Sequence[TubeLine], k: int, station: float, turn: int
) -> Loop:
    holder, line = held[k], lines[k]
    return Loop(
        label=label,
        tube=holder.tube.name,
        station_mm=station,
        side=side_of(lines, k, station, turn),
        turn=turn,
        clamp=holder.clamp,
        centre=holder.tube.point(station),
        axis=holder.tube.direction,
        bolt_axis=line.bolt_axis,
        tilt_rad=line.tilt_rad,
        station_given=False,
        measured=holder.clamp.measured,
    )
