"""The drill sheet for a garage: bench steps with ticks, bits and speeds, fit-up plan, stacks, findings."""

from __future__ import annotations

from clampwright.checks.finding import Finding
from clampwright.layout.placed import PlateLayout
from clampwright.sheets.drawing import Sheet
from clampwright.sheets.drill_steps import bit_blocks, step_blocks
from clampwright.sheets.fit_up_sheet import fit_up_blocks, stack_blocks
from clampwright.sheets.flow import Block, gap
from clampwright.sheets.in_parts import Part, assumed_blocks, column_width, in_parts
from clampwright.sheets.paper import paper
from clampwright.sheets.template_notes import cautions, finding_notes
from clampwright.sheets.title_block import Head

BENCH, FIT_UP = "DRILL SHEET: bench", "DRILL SHEET: fit-up"


def drill_sheet(layout: PlateLayout, findings: tuple[Finding, ...], paper_name: str) -> Sheet:
    """The drill sheet on a paper ("letter" or "a4"): bench first, the engine mount on its own pages."""
    page = paper(paper_name)
    wide, column = column_width(page, 1), column_width(page, 2)
    parts = (Part(BENCH, _bench(layout, findings, column), 2), Part(FIT_UP, _fit_up(layout, wide), 1))
    pages = in_parts(page, lambda what: Head(what, layout, findings, page.name), parts)
    name = layout.recipe.name
    return Sheet(f"{name} {layout.recipe.digest}", f"{name}: drill sheet", pages, False)


def _bench(layout: PlateLayout, findings: tuple[Finding, ...], room: float) -> list[Block]:
    return [
        *step_blocks(layout, room),
        gap(3.0),
        *bit_blocks(layout, room),
        *cautions(room),
        gap(3.0),
        *finding_notes(findings, room),
        *assumed_blocks(layout, room),
    ]


def _fit_up(layout: PlateLayout, room: float) -> list[Block]:
    return [*fit_up_blocks(layout, room), *stack_blocks(layout, room)]
