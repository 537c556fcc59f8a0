"""Notes of a flat part's drawing: which face, how holes and edges are left, why a tolerance is tight."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.layout.shop.told import FlatPart, Limits, ToldHole
from clampwright.sheets.flow import Block, heading, paragraph
from clampwright.sheets.ink import BODY
from clampwright.sheets.shop.dimensioning.wording import plain
from clampwright.sheets.shop.hole_groups import hole_groups
from clampwright.sheets.shop.size_words import limit_words
from clampwright.trade.general_tolerances import general
from clampwright.trade.sources import source

_GRAIN = {
    "along": "Rolling direction of the sheet along the part's long side.",
    "across": "Rolling direction of the sheet across the part's long side.",
}


def flat_notes(part: FlatPart, room: float) -> list[Block]:
    """The numbered notes, for a column `room` mm wide."""
    blocks = heading("Notes", room)
    for number, note in enumerate(notes(part), 1):
        lines = paragraph(note, room, BODY, indent=5.0)
        first = paragraph(f"{number}", room, BODY)[0].items
        lines[0] = Block(lines[0].height, (*first, *lines[0].items), keep=lines[0].keep)
        blocks += lines
    return blocks


def notes(part: FlatPart) -> Iterator[str]:
    """Sentences in the order in which they are read."""
    view = "Flat pattern" if part.bends else "Front view"
    face = f": {part.face}" if part.face else ""
    yield f"{view}{face}. X and Y count from the datum edges, the left and the lower one."
    if part.bends:
        yield "Cut and drill flat, deburr, then bend. No cracks at the bends."
    yield "Deburr every hole on both faces, and every edge."
    yield from part.notes
    if part.shop.grain in _GRAIN:
        yield _GRAIN[part.shop.grain]
    yield from _sizes(part)
    yield from _places(part)


def _sizes(part: FlatPart) -> Iterator[str]:
    """Limits of diameters with their reasons, once a diameter."""
    said: dict[str, None] = {}
    for group in hole_groups(part.holes):
        if group.like.size is not None:
            said[_told(group.like, group.like.size, part)] = None
    yield from said


def _told(hole: ToldHole, limits: Limits, part: FlatPart) -> str:
    size = f"Ø{plain(hole.diameter_mm, part.units)} {limit_words(limits, part.units)}"
    usual = general(part.shop, hole.diameter_mm)
    tighter = limits.under_mm + limits.over_mm < usual.under_mm + usual.over_mm
    how = "closer than general" if tighter else "instead of the general tolerance"
    document, _, _ = source(limits.source).title.partition(":")
    return f"{size}: {how} {limits.why} ({document})."


def _places(part: FlatPart) -> Iterator[str]:
    """Places that are held closer than the general tolerance, by reason."""
    held: dict[tuple[str, str], list[str]] = {}
    for hole in part.holes:
        if hole.place is not None:
            words = limit_words(hole.place, part.units)
            held.setdefault((words, hole.place.why), []).append(hole.label)
    for (words, why), labels in held.items():
        yield f"{', '.join(labels)}: X and Y {words}, closer than general {why}."
