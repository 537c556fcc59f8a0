"""Which sheet, which scale, holes in the view or in a table: the first way that has a place for all."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache

from clampwright.layout.shop.told import FlatPart
from clampwright.sheets.drawing import Dimension, Item
from clampwright.sheets.flow import Block
from clampwright.sheets.shop.arrangement import standard_scales
from clampwright.sheets.shop.dimensioning.drawn_once import drawn_once
from clampwright.sheets.shop.dimensioning.lanes import NoRoom
from clampwright.sheets.shop.dimensioning.led import with_leaders
from clampwright.sheets.shop.dimensioning.style import style_of
from clampwright.sheets.shop.drawn_view import DrawnView
from clampwright.sheets.shop.flat_left import without_labels
from clampwright.sheets.shop.flat_notes import flat_notes
from clampwright.sheets.shop.flat_room import BlocksFor, Share, share_of_more, shares_of_one
from clampwright.sheets.shop.flat_scale import is_large, is_wanted
from clampwright.sheets.shop.flat_tables import flat_tables
from clampwright.sheets.shop.flat_views import Stack, drawn_views, reach_of
from clampwright.sheets.shop.hole_places import Where, may_stand_in_view
from clampwright.sheets.shop.sizes import DrawingSheet, sheets_of
from clampwright.solids.view_lines import ViewLines

_MOST_PLANS, _MOST_LABELS = 6, 400
"""So many plans that leave a label out are made, or so many labels placed in them; then the best is taken."""


@dataclass(frozen=True, slots=True)
class Plan:
    """One way to draw a part: on which sheet, at which scale, with what on it."""

    sheet: DrawingSheet
    scale: float
    words: str
    """The scale as it is written."""
    share: Share
    items: tuple[Item, ...]
    """Of the views."""
    dimensions: tuple[Dimension, ...]
    unlabelled: tuple[str, ...]
    """What found no room for its label."""


@dataclass(slots=True)
class _Job:
    """A part on one sheet, and its views as drawn at the scales that were tried."""

    part: FlatPart
    views: Sequence[ViewLines]
    stop: str
    sheet: DrawingSheet
    tried: dict[tuple[float, Where, Stack], list[DrawnView] | None] = field(default_factory=dict)


def planned(part: FlatPart, views: Sequence[ViewLines], stop: str) -> Plan:
    """The first plan with every label at a scale that is large enough; else the best of some.

    Parameters
    ----------
    part, views
        As `flat_drawing` takes them.
    stop : str
        Failing checks: they put a band across the sheet.

    Raises
    ------
    NoRoom
        Where the part fits on no sheet at any scale.
    """
    best: Plan | None = None
    plans = labels = 0
    for plan in _all_plans(part, views, stop):
        if best is None or _rank(plan, part) > _rank(best, part):
            best = plan
        plans, labels = plans + 1, labels + len(part.holes)
        if not plan.unlabelled or plans == _MOST_PLANS or labels >= _MOST_LABELS:
            break
    if best is None:
        raise NoRoom(f"{part.number}: its drawing fits on none of the sheets at any scale, so none is made")
    return best


def _rank(plan: Plan, part: FlatPart) -> tuple[int, bool, float]:
    return -len(plan.unlabelled), is_large(plan.scale, part), -plan.sheet.width_mm


def _all_plans(part: FlatPart, views: Sequence[ViewLines], stop: str) -> Iterator[Plan]:
    jobs = [_Job(part, views, stop, sheet) for sheet in sheets_of(part.shop)]
    for large in (True, False):
        for job, more in _tries(jobs):
            yield from _plans(job, more, large)


def _tries(jobs: Sequence[_Job]) -> Iterator[tuple[_Job, bool]]:
    """Sheets to try, and whether tables go to a second one: on the two smallest sheets rather not."""
    for more in (False, True):
        yield from ((job, more) for job in jobs[:2])
    yield from ((job, more) for job in jobs[2:] for more in (False, True))


def _plans(job: _Job, more: bool, large: bool) -> Iterator[Plan]:
    """Plans on one sheet: holes in the view before holes in the table, the largest scale first.

    Where a label is left out, more would be at a smaller scale.
    """
    part = job.part
    scales = [
        (scale, words)
        for scale, words in standard_scales(part.shop.drawing)
        if is_wanted(scale, part) and is_large(scale, part) == large
    ]
    kinds: tuple[Where, ...] = ("view", "table")
    for where in kinds:
        fitting = [each for each in scales if where == "table" or may_stand_in_view(part, each[0])]
        if not fitting:
            continue
        tables = _tables(part, where)
        one = [] if more else shares_of_one(job.sheet, job.stop, tables)
        ways = [share_of_more(job.sheet, job.stop, tables)] if more else [*one]
        for scale, words in fitting:
            made = False
            for share in ways:
                plan = _at(job, scale, words, share, where)
                if plan is not None:
                    made = True
                    yield plan
            if made and where == "table":
                break


def _tables(part: FlatPart, where: Where) -> BlocksFor:
    @cache
    def blocks(room: float) -> list[Block]:
        return [*flat_tables(part, where, room), *flat_notes(part, room)]

    return blocks


def _at(job: _Job, scale: float, words: str, share: Share, where: Where) -> Plan | None:
    """The part at one scale in one share of the sheet; None where it does not fit."""
    x0, y0, x1, y1 = share.views
    a, b, c, d = job.part.outline.box()
    if (c - a) * scale > x1 - x0 or (d - b) * scale > y1 - y0:
        return None
    stacks: tuple[Stack, ...] = ("beside", "over") if job.part.bends else ("beside",)
    for stack in stacks:
        drawn = _drawn(job, scale, where, stack)
        if drawn is None:
            continue
        a, b, c, d = reach_of(drawn)
        if c - a <= x1 - x0 and d - b <= y1 - y0:
            by = ((x0 + x1 - a - c) / 2, (y0 + y1 - b - d) / 2)
            return _placed([view.shifted(by) for view in drawn], job.sheet, words, share)
    return None


def _drawn(job: _Job, scale: float, where: Where, stack: Stack) -> list[DrawnView] | None:
    """The views with their dimensions, drawn once a scale; None where a dimension finds no place."""
    key = (scale, where, stack)
    if key not in job.tried:
        style = style_of(job.part.units, job.part.shop, job.sheet)
        try:
            job.tried[key] = drawn_views(job.part, job.views, job.sheet, style, scale, where, stack)
        except NoRoom:
            job.tried[key] = None
    return job.tried[key]


def _placed(views: Sequence[DrawnView], sheet: DrawingSheet, words: str, share: Share) -> Plan | None:
    """The views where they stand, with leaders and labels."""
    main = views[0]
    main.room.window = share.views
    for view in views[1:]:
        main.room.take_in(view.room)
    try:
        led, labels = with_leaders(main.led, main.labels, main.room, main.style.pen)
        left = tuple(c.lines[0] for c, found in zip(main.labels, labels, strict=True) if not found)
        said = without_labels(left, main.room)
    except NoRoom:
        return None
    items = [item for view in views for item in view.items]
    items += [*(item for found in labels for item in found), *said]
    dimensions = drawn_once([each for view in views for each in view.dimensions])
    return Plan(sheet, main.scale, words, share, tuple(items), (*dimensions, *led), left)
