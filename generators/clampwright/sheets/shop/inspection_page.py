"""The inspection page of a bay: where every clamp belongs, every bolt's torque, and what to look at."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from clampwright.checks.finding import Finding
from clampwright.checks.not_judged import NOT_JUDGED
from clampwright.layout.joined import Joined, line_named
from clampwright.layout.placed import PlateLayout, Stack
from clampwright.quantities import show_torque
from clampwright.recipe.model import Recipe
from clampwright.sheets.both_units import both
from clampwright.sheets.drawing import Sheet
from clampwright.sheets.flow import Block, gap, heading, paragraph, ticked, warning
from clampwright.sheets.hole_table import kept
from clampwright.sheets.in_parts import Part, column_width, in_parts
from clampwright.sheets.ink import HEAD, SMALL
from clampwright.sheets.next_mechanic import LOOK
from clampwright.sheets.paper import paper
from clampwright.sheets.plus_minus import station_cell, where_from
from clampwright.sheets.stations import marks_said, station_of
from clampwright.sheets.table import Heading, table
from clampwright.sheets.title_block import Head
from clampwright.sheets.verdict import CAUTIONS, in_short
from clampwright.sheets.where_on_tube import COUNTED, feet_clock, place_words

WHAT, STOP = "INSPECTION: clamps, bolts, clearances", "DO NOT INSTALL"
_TO_FILL = "__________"
_AFTER, _BETWEEN, _SPARED = 2.0, 1.0, 1.1
"""Room after a part, between the two tables of a recipe, and taken off under a tick box, mm."""

_SOURCE = (
    "Common practice, no source. The kit maker's and the maintenance manual's intervals, the regulations and "
    "licensed practice come first. Look after the first flight, then at every oil change and inspection."
)
_NO_PULL = (
    "No pull test loads are given: no rule was found that says them for the engine bay. Ask the kit maker."
)
_STARTS = "Station: along the tube from its start. Starts in the builder's frame:"


class Inspected(Protocol):
    """A recipe of the bay, laid out and checked."""

    @property
    def layout(self) -> Joined:
        """Where everything is."""

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What the checks found."""


@dataclass(frozen=True, slots=True)
class _Whole:
    """The bay, as far as the head of a page looks at it."""

    recipe: Recipe


def inspection_page(name: str, digest: str, jobs: Sequence[Inspected], units: str, paper_name: str) -> Sheet:
    """The page for the next mechanic: one for all recipes of a bay.

    Parameters
    ----------
    name, digest : str
        Of the bay, for the title block.
    jobs : Sequence[Inspected]
        Every recipe with its findings.
    units : str
        "mm" or "in": of distances that go for the whole bay.
    paper_name : str
        "letter" or "a4".
    """
    page = paper(paper_name)
    room = column_width(page, 1)
    findings = tuple(dict.fromkeys(finding for job in jobs for finding in job.findings))
    about = "; ".join(job.layout.recipe.about or job.layout.recipe.name for job in jobs)
    whole = _Whole(replace(jobs[0].layout.recipe, name=name, about=about, digest=digest))
    fact = ("holds", "1 recipe" if len(jobs) == 1 else f"{len(jobs)} recipes")

    def head(what: str) -> Head:
        return Head(what, whole, findings, page.name, fact=fact, stop=STOP)

    pages = in_parts(page, head, (Part(WHAT, _blocks(jobs, units, room), 1),))
    return Sheet(f"{name} {digest}", f"{name}: inspection", pages, False)


def _blocks(jobs: Sequence[Inspected], units: str, room: float) -> list[Block]:
    """Cautions stand first, so that no page has nothing but them; room is spared: the page is kept by one."""
    blocks = _record(room)
    blocks += heading("Before you inspect", room)
    blocks += kept(paragraph(" ".join((*CAUTIONS, NOT_JUDGED)), room, SMALL, after=_AFTER))
    blocks += heading("What to look at", room)
    blocks += kept(paragraph(f"{_SOURCE} {_NO_PULL}", room, SMALL))
    for text in LOOK:
        blocks += _close(ticked(text, room, SMALL))
    blocks.append(gap(_BETWEEN))
    blocks += _distances(jobs, units, room)
    blocks += _tubes(jobs, room)
    for job in jobs:
        blocks += _recipe(job, room)
    return blocks


def _close(lines: Sequence[Block]) -> list[Block]:
    """A tick box with less room under it."""
    *others, last = lines
    return [*others, replace(last, height=last.height - _SPARED)]


def _record(room: float) -> list[Block]:
    line = f"aircraft {_TO_FILL}   hours {_TO_FILL}   date {_TO_FILL}   name and certificate {_TO_FILL * 2}"
    return [*paragraph(line, room, SMALL, after=_AFTER)]


def _tubes(jobs: Sequence[Inspected], room: float) -> list[Block]:
    """Where the stations of the tubes that hold clamps begin, and how clocks count."""
    starts: dict[str, str] = {}
    marks: dict[str, None] = {}
    for layout in (job.layout for job in jobs):
        marks[marks_said(layout)] = None
        for loop in layout.loops:
            tube, units = line_named(loop.tube, layout), layout.recipe.units
            if loop.tube in layout.recipe.structure.names and tube.mark_mm is None:
                starts[loop.tube] = f"{loop.tube} {place_words(tube.start, units)}"
    said = f"{_STARTS} {'; '.join(starts.values())}." if starts else ""
    text = " ".join(filter(None, (said, *marks, COUNTED)))
    return [*heading("How stations and clocks count", room), *paragraph(text, room, SMALL, after=_AFTER)]


def _distances(jobs: Sequence[Inspected], units: str, room: float) -> list[Block]:
    """What to keep away from, and how far."""
    kept_out = {each.name: each for job in jobs for each in job.layout.recipe.structure.keep_outs}
    if not kept_out:
        return []
    headings = (
        Heading("keep away from", bold=True, wraps=True),
        Heading("which is"),
        Heading("at least", "right"),
        Heading("nearest found", "right"),
    )
    rows = [
        (each.name, f"{each.kind}, rides on the {each.rides_on}", both(each.distance_mm, units), _TO_FILL)
        for each in kept_out.values()
    ]
    return [*heading("Distances that must be there", room), *table(headings, rows, room, SMALL), gap(_AFTER)]


def _recipe(job: Inspected, room: float) -> list[Block]:
    """Clamps and bolts of one recipe."""
    layout, recipe = job.layout, job.layout.recipe
    blocks = heading(f"{recipe.name}   revision {recipe.digest}", room, HEAD)
    blocks += kept(paragraph(recipe.about, room, SMALL)) if recipe.about else []
    failing = tuple(finding for finding in job.findings if finding.verdict == "fail")
    if failing:
        blocks += kept(warning(f"{STOP}: {in_short(failing)}", room, SMALL))
    said = [f"{where_from(layout)} Write down where each came to rest when it was fitted."]
    blocks += [line for each in said if layout.known_to for line in kept(paragraph(each, room, SMALL))]
    return [*blocks, *_clamps(layout, room), gap(_BETWEEN), *_bolts(layout, room), gap(_AFTER)]


def _clamps(layout: Joined, room: float) -> list[Block]:
    units = layout.recipe.units
    headings = (
        Heading("clamp", bold=True),
        Heading("on", wraps=True),
        Heading(f"station {units}", "right"),
        *([Heading(f"± {units}", "right")] if layout.known_to else []),
        Heading("feet clock", "right"),
        Heading("part"),
        Heading("station fitted", "right"),
        Heading("station found", "right"),
    )
    rows = [
        (
            *(loop.label, loop.tube, station_of(loop, layout)),
            *((station_cell(loop.label, layout),) if layout.known_to else ()),
            *(feet_clock(loop).hours, loop.clamp.part, _TO_FILL, _TO_FILL),
        )
        for loop in sorted(layout.loops, key=lambda loop: loop.label)
    ]
    return table(headings, rows, room, SMALL) if rows else []


def _bolts(layout: Joined, room: float) -> list[Block]:
    headings = (
        Heading("bolts", bold=True, wraps=True),
        Heading("part"),
        Heading("nut"),
        Heading("torque, on top of the nut's own", wraps=True),
        Heading("stripe whole", "right"),
    )
    rows = list(_rows((*_joined(layout), *_screwed(layout)), layout.recipe.units))
    return table(headings, rows, room, SMALL) if rows else []


def _joined(layout: Joined) -> Iterator[tuple[str, Stack]]:
    return ((joint.label, joint.stack) for joint in layout.joints)


def _screwed(layout: Joined) -> Iterator[tuple[str, Stack]]:
    """Screws of components whose lengths the tables do not know: they are tightened all the same."""
    if isinstance(layout, PlateLayout):
        for part in layout.components:
            yield from zip(part.holes, part.screw_stacks, strict=False)


def _rows(stacks: Iterable[tuple[str, Stack]], units: str) -> Iterator[tuple[str, ...]]:
    """Bolts that are alike in one line, with a blank for each."""
    alike: dict[tuple[str, str, str], list[str]] = {}
    for label, stack in stacks:
        part = stack.bolt if stack.chosen is None else stack.chosen.length.part
        torque = (
            "not in the tables: ask its maker"
            if stack.torque is None
            else show_torque(stack.torque.low_nm, stack.torque.high_nm, units)
        )
        alike.setdefault((part, stack.nut.part, torque), []).append(label)
    for key, labels in alike.items():
        yield (", ".join(labels), *key, "   ".join(f"{label} ____" for label in labels))
