"""What else would have worked: the next best answers for a component, the bolt's places of a pair."""

from __future__ import annotations

from clampwright.layout.bushing_placed import Answer, BushingLayout
from clampwright.layout.joined import Joined
from clampwright.layout.stand_off_placed import BoltPlace, StandOffLayout
from clampwright.quantities import show_angle
from clampwright.recipe.stand_off_model import StandOffJob
from clampwright.sheets.figures import figure
from clampwright.sheets.flow import Block, gap, heading, paragraph
from clampwright.sheets.hole_table import kept
from clampwright.sheets.ink import SMALL
from clampwright.sheets.stations import along_tube
from clampwright.sheets.table import Heading, table

_FITS = {True: "yes", False: "no"}


def choice_blocks(layout: Joined, room: float) -> list[Block]:
    """The table of the other answers, or nothing where a layout has none."""
    if isinstance(layout, BushingLayout):
        return _answers(layout, room)
    if isinstance(layout, StandOffLayout):
        return _places(layout, room)
    return []


def _answers(layout: BushingLayout, room: float) -> list[Block]:
    units = layout.recipe.units
    if not layout.others:
        return []
    headings = (
        Heading("way", bold=True),
        Heading("tubes and sides", wraps=True),
        Heading(f"misfit {units}", "right"),
        Heading(f"longest bushing {units}", "right"),
        Heading("tilt", "right"),
        Heading("fits", bold=True),
        Heading("in words", wraps=True),
    )
    rows = [_answer(n, answer, units) for n, answer in enumerate((layout.answer, *layout.others), 1)]
    text = f"{layout.fitting} of {layout.examined} ways fit. The first is the one on this sheet."
    return [
        *heading("Other ways to hold it", room),
        *kept(paragraph(text, room, SMALL)),
        *table(headings, rows, room, SMALL),
        gap(4.0),
    ]


def _answer(number: int, answer: Answer, units: str) -> tuple[str, ...]:
    tubes = ", ".join(f"{held.hole}: {held.tube}" for held in answer.holes)
    return (
        str(number),
        tubes,
        figure(answer.worst_misfit_mm, units),
        figure(answer.longest_mm, units),
        show_angle(answer.worst_tilt_rad),
        _FITS[answer.fits],
        "; ".join(answer.breaks) or answer.says,
    )


def _places(layout: StandOffLayout, room: float) -> list[Block]:
    units = layout.recipe.units
    headings = (
        Heading("place", bold=True),
        Heading(f"spacer {units}", "right"),
        Heading(f"tube station {units}", "right"),
        Heading(f"line station {units}", "right"),
        Heading("fits", bold=True),
        Heading("in words", wraps=True),
    )
    rows = [_place(place, layout) for place in layout.places]
    return [
        *heading("Places that the bolt may have", room),
        *table(headings, rows, room, SMALL),
        gap(4.0),
    ]


def _place(place: BoltPlace, layout: StandOffLayout) -> tuple[str, ...]:
    units = layout.recipe.units
    here = ", on this sheet" if place.number == layout.place.number else ""
    return (
        f"{place.number}{here}",
        figure(place.spacer_mm, units),
        _on_tube(place, layout),
        figure(place.station_line_mm, units),
        _FITS[place.fits],
        "; ".join(place.breaks) or place.says,
    )


def _on_tube(place: BoltPlace, layout: StandOffLayout) -> str:
    tube = layout.recipe.asked(StandOffJob).tube
    if not place.turn_tube or tube is None:
        return "-"
    return along_tube(layout.recipe.structure.tube(tube), place.station_tube_mm, layout.recipe.units)
