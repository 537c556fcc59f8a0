"""The installation sheet: each clamp's place, each bolt's stack, the order of work, what to inspect later."""

from __future__ import annotations

from clampwright.checks.finding import Finding
from clampwright.layout.joined import Joined
from clampwright.layout.order_of_work import order
from clampwright.sheets.choices import choice_blocks
from clampwright.sheets.drawing import Sheet
from clampwright.sheets.flow import Block, gap, heading, paragraph, ticked
from clampwright.sheets.in_parts import Part, assumed_blocks, column_width, in_parts
from clampwright.sheets.ink import SMALL
from clampwright.sheets.joint_panel import joint_panels
from clampwright.sheets.next_mechanic import inspection_blocks
from clampwright.sheets.paper import paper
from clampwright.sheets.scene import scene_blocks
from clampwright.sheets.stations import marks_said
from clampwright.sheets.template_notes import cautions, finding_notes
from clampwright.sheets.title_block import Head
from clampwright.sheets.where_on_tube import COUNTED

CLAMPS, NOTES = "INSTALLATION: clamps and bolts", "INSTALLATION: order of work, inspection"
STOP = "DO NOT INSTALL"


def installation_sheet(layout: Joined, findings: tuple[Finding, ...], paper_name: str) -> Sheet:
    """The installation sheet on a paper ("letter" or "a4"), of a layout of any kind."""
    page = paper(paper_name)
    wide, column = column_width(page, 1), column_width(page, 2)
    parts = (Part(CLAMPS, _clamps(layout, wide), 1), Part(NOTES, _notes(layout, findings, column), 2))
    pages = in_parts(page, lambda what: Head(what, layout, findings, page.name, stop=STOP), parts)
    name = layout.recipe.name
    return Sheet(f"{name} {layout.recipe.digest}", f"{name}: installation", pages, False)


def _clamps(layout: Joined, room: float) -> list[Block]:
    return [
        *paragraph(f"{COUNTED} {marks_said(layout)}".strip(), room, SMALL, after=2.0),
        *scene_blocks(layout, room),
        *joint_panels(layout, room),
        *choice_blocks(layout, room),
    ]


def _notes(layout: Joined, findings: tuple[Finding, ...], room: float) -> list[Block]:
    return [
        *_order(layout, room),
        *inspection_blocks(layout, room),
        *finding_notes(findings, room),
        *assumed_blocks(layout, room),
        *cautions(room, "install"),
    ]


def _order(layout: Joined, room: float) -> list[Block]:
    steps = order(layout)
    blocks = heading("Order of assembly", room) if steps else []
    for number, text in enumerate(steps, 1):
        blocks += ticked(text, room, number=str(number))
    return [*blocks, gap(3.0)]
