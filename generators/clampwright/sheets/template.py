"""The drilling template: the part at 1:1, with all that is needed to drill it and to trust the print."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from clampwright.checks.finding import Finding
from clampwright.layout.placed import PlateLayout
from clampwright.sheets.bars import STRIP, bars
from clampwright.sheets.drawing import Box, Item, Page, Sheet
from clampwright.sheets.drawing_window import drawn, part_note
from clampwright.sheets.flow import Column, flow
from clampwright.sheets.paper import Paper, paper
from clampwright.sheets.part_view import View, clamps_box
from clampwright.sheets.placement import Placement
from clampwright.sheets.print_check import PrintCheck, print_check
from clampwright.sheets.template_notes import note_blocks, print_words
from clampwright.sheets.title_block import Head, title_block

TITLE = "DRILL TEMPLATE 1:1"
GUTTER = 6.0
_LEAST_COLUMN = 45.0
"""Columns shorter than this are not begun under the drawing."""

_AROUND_NOTES = 5.0

_PADS = (13.0, 9.0, 10.0, 10.0)
"""Round the outline, left, below, right, above: datum names and overall sizes."""

_BARE = (2.5, 2.5, 2.5, 2.5)
_ROUND_CLAMPS = 4.0


@dataclass(frozen=True, slots=True)
class Work:
    """What every page of one template is made from."""

    layout: PlateLayout
    findings: tuple[Finding, ...]
    check: PrintCheck
    paper: Paper

    def head(self, what: str, *, prints: bool, map_room: float = 0.0) -> Head:
        """The title block; with the state of the print where the page is at 1:1."""
        words = print_words(self.check) if prints else None
        alarm = not self.check.verified
        return Head(what, self.layout, self.findings, self.paper.name, words, alarm, map_room)

    @property
    def column_width(self) -> float:
        """Width of each of the two columns of notes."""
        x0, _, x1, _ = self.paper.frame
        return (x1 - x0 - STRIP - 2.0 - GUTTER) / 2

    def columns(self, page: int, top: float, bottom: float, indent: float = 0.0) -> tuple[Column, Column]:
        """The two columns on one page."""
        x0, _, x1, _ = self.paper.frame
        return Column(page, x0 + indent, top, bottom), Column(page, x1 - self.column_width, top, bottom)

    def page(self, what: str, items: tuple[Item, ...]) -> Page:
        """A page of this paper, drawn with the correction."""
        size = self.paper.width_mm, self.paper.height_mm
        return Page(what, *size, items, self.check.stretch)


def template(layout: PlateLayout, findings: tuple[Finding, ...], paper_name: str) -> Sheet:
    """The drilling template on a paper ("letter" or "a4"), on one page or tiled, with notes after it.

    Whatever is drawn is at 1:1 once printed: `recipe.template.prints` corrects a printer that is not.
    """
    from clampwright.sheets.tiled_template import tiled_pages

    check = print_check(layout.recipe.template.prints)
    work = Work(layout, findings, check, paper(paper_name, check.stretch))
    view = view_on_one_page(work)
    pages = one_page(work, view) if view is not None else tiled_pages(work)
    recipe = layout.recipe
    return Sheet(f"{recipe.name} {recipe.digest}", f"{recipe.name}: drilling template 1:1", pages, True)


def drawing_region(work: Work, head: Head) -> Box:
    """What is left for the drawing between title block and bars."""
    x0, y0, x1, y1 = work.paper.frame
    return x0 + STRIP + 1.0, y0 + STRIP + 1.0, x1, y1 - head.height()


def view_on_one_page(work: Work) -> View | None:
    """The part on a single page, with its clamps if they fit; None where not even the outline fits."""
    region = drawing_region(work, work.head(TITLE, prints=True))
    for pads, with_clamps in ((_PADS, True), (_PADS, False), (_BARE, False)):
        for turned in (False, True):
            view = _fitted(work, region, pads, turned=turned, with_clamps=with_clamps)
            if view is not None:
                return view
    return None


def _fitted(
    work: Work, region: Box, pads: tuple[float, float, float, float], *, turned: bool, with_clamps: bool
) -> View | None:
    placement = Placement((0.0, 0.0), turned)
    loose = View(work.layout, placement, (-1e4, -1e4, 1e4, 1e4))
    x0, y0, x1, y1 = loose.box
    left, below, right, above = (pads[2], pads[1], pads[0], pads[3]) if turned else pads
    need = (x0 - left, y0 - below, x1 + right, y1 + above)
    if with_clamps:
        a0, b0, a1, b1 = clamps_box(loose)
        air = _ROUND_CLAMPS
        need = min(need[0], a0 - air), min(need[1], b0 - air), max(need[2], a1 + air), max(need[3], b1 + air)
    wide, high = need[2] - need[0], need[3] - need[1]
    if wide > region[2] - region[0] or high > region[3] - region[1]:
        return None
    spare = region[3] - region[1] - high
    notes_below = spare - _AROUND_NOTES >= _LEAST_COLUMN
    floor = region[3] - high if notes_below else region[1]
    drop = 0.0 if notes_below else spare / 2
    origin = ((region[0] + region[2] - need[0] - need[2]) / 2, region[3] - need[3] - drop)
    return View(work.layout, Placement(origin, turned), (region[0], floor, region[2], region[3]))


def one_page(work: Work, view: View) -> tuple[Page, ...]:
    """The drawing with its bars on the first page, notes under it and on further pages."""
    head = work.head(TITLE, prints=True)
    x0, y0, x1, _ = work.paper.frame
    region = drawing_region(work, head)
    picture = drawn(view, part_note(work.layout, work.findings, work.check))
    scale = bars((x0, y0), x1 - x0, region[3] - y0)
    blocks = note_blocks(
        work.layout,
        work.findings,
        work.check,
        work.column_width,
        turned=view.placement.turned,
        unlabelled=picture.unlabelled,
    )
    notes = flow(blocks, _columns(work, view.window[1] - 4.0, region[1] + 1.0))
    count = 1 + max([0, *notes])
    first = (*title_block(head, work.paper.frame, 1, count), *picture.items, *scale, *notes.get(0, ()))
    return (work.page(TITLE, first), *notes_pages(work, notes, 1, count, count))


def _columns(work: Work, top: float, bottom: float) -> Iterator[Column]:
    if top - bottom >= _LEAST_COLUMN:
        yield from work.columns(0, top, bottom, STRIP + 2.0)
    yield from full_columns(work, 1)


def full_columns(work: Work, first: int) -> Iterator[Column]:
    """Columns of pages that hold notes only, without end."""
    head = work.head("", prints=False)
    _, y0, _, y1 = work.paper.frame
    page = first
    while True:
        yield from work.columns(page, y1 - head.height() - 1.0, y0)
        page += 1


def notes_pages(
    work: Work, notes: dict[int, tuple[Item, ...]], first: int, stop: int, count: int
) -> Iterator[Page]:
    """The pages first..stop-1, counted from 0, that hold notes only."""
    head = work.head("DRILL TEMPLATE: notes", prints=False)
    for number in range(first, stop):
        block = title_block(head, work.paper.frame, number + 1, count)
        yield work.page(head.what, (*block, *notes.get(number, ())))
