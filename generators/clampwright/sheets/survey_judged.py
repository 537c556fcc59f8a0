"""Every measurement of a survey held against all the others: a table, the worst first, its scores as bars."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from clampwright.sheets.drawing import Item, Path, Pen, box_path
from clampwright.sheets.flow import Block, gap, heading, paragraph
from clampwright.sheets.ink import ACCENT, GREY, PALE, SMALL
from clampwright.sheets.survey_figures import in_unit, measured
from clampwright.sheets.table import Heading, table
from clampwright.structure.survey.solved import Judged, SolvedSurvey
from clampwright.trade.tables import rule

_BARS = 24.0


def measurement_blocks(solved: SolvedSurvey, room: float) -> list[Block]:
    """Every measurement, the worst first: its residual in its own standard deviations, and that as a bar."""
    if not solved.judged:
        return []
    judged = sorted(solved.judged, key=lambda each: -1.0 if each.score is None else each.score, reverse=True)
    units = solved.survey.units
    headings = (
        Heading("measurement", wraps=True, bold=True),
        Heading("measured", "right"),
        Heading("from all of them", "right"),
        Heading("off by", "right"),
        Heading("score", "right"),
        Heading("hides at most", "right"),
    )
    blocks = table(headings, [_row(each, units) for each in judged], room - _BARS, SMALL)
    bars = [
        (),
        *(tuple(_bar(each, room, block.height)) for each, block in zip(judged, blocks[1:], strict=True)),
    ]
    drawn = [replace(block, items=(*block.items, *bar)) for block, bar in zip(blocks, bars, strict=True)]
    drawn = [replace(block, head=drawn[0] if block.head is not None else None) for block in drawn]
    return [
        *heading("Measurements, the worst first", room),
        *paragraph(_said_of_bars(solved), room, SMALL),
        *drawn,
        gap(3.0),
    ]


def _said_of_bars(solved: SolvedSurvey) -> str:
    said = (
        f"Score: how far off, in its own standard deviations; above {_look_again():.1f}, the line beside the "
        "bars, look again. No score: no other measurement checks it. Hides at most: the largest slip that "
        "could stand there unseen."
    )
    if solved.redundancy <= 0:
        return f"{said} Nothing here is checked: take spares."
    fits = (
        "as the stated ± lets expect"
        if solved.scale <= solved.scale_most
        else "more than the stated ± allows"
    )
    return f"{said} All together they are off by {solved.scale:.2f} times what was stated, {fits}."


def _look_again() -> float:
    return rule("survey-blunder-limit").value


def _row(each: Judged, units: str) -> tuple[str, ...]:
    m = each.measurement
    value = measured(m)
    return (
        each.name,
        "" if value is None else in_unit(m, value, units),
        in_unit(m, each.computed, units),
        in_unit(m, each.residual, units),
        "-" if each.score is None else f"{each.score:.1f}",
        "any" if each.hides is None else in_unit(m, each.hides, units),
    )


def _bar(each: Judged, room: float, high: float) -> Iterator[Item]:
    """Its score as a bar; the line stands where to look again, the bar ends at twice that."""
    left, right = room - _BARS + 3.0, room
    line = left + (right - left) / 2
    top, low = -0.8, 0.8 - high
    yield Path(((line, top + 0.5), (line, low - 0.5)), Pen(0.18, GREY))
    if each.score is None:
        return
    long = min(each.score / (2.0 * _look_again()), 1.0) * (right - left)
    past = each.score > _look_again()
    if long > 0.05:
        yield box_path((left, low, left + long, top), None, ACCENT if past else PALE)
