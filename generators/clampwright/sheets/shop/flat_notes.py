"""Notes of a flat part's drawing: which face, how holes and edges are left, why a tolerance is tight."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.layout.shop.told import FlatPart, Limits, ToldHole
from clampwright.sheets.both_units import both
from clampwright.sheets.flow import Block, heading, paragraph
from clampwright.sheets.ink import BODY
from clampwright.sheets.lettering import bound
from clampwright.sheets.shop.cell_or_note import finish_notes, long_notes
from clampwright.sheets.shop.datum_edges import counts_from, set_up_on
from clampwright.sheets.shop.dimensioning.wording import sized
from clampwright.sheets.shop.hole_groups import hole_groups
from clampwright.sheets.shop.size_words import limit_words
from clampwright.sheets.shop.stuff_words import material_words
from clampwright.trade.general_tolerances import general, none_given
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
    yield f"{view}{face}. {counts_from(part)}"
    if set_up := set_up_on(part):
        yield set_up
    if part.bends:
        yield "Cut and drill flat, deburr, then bend. No cracks at the bends."
    yield "Deburr every hole on both faces, and every edge."
    yield from part.notes
    if part.shop.grain in _GRAIN:
        yield _GRAIN[part.shop.grain]
    yield from _sizes(part)
    yield from _places(part)
    yield from long_notes("material", material_of(part))
    yield from long_notes("stock", stock_of(part))
    yield from finish_notes(part.shop.finish)


def material_of(part: FlatPart) -> str:
    """Material, temper and specification, as the title block says them."""
    return material_words(part.material.name, part.specification, part.specification_source)


def stock_of(part: FlatPart) -> str:
    """Form and thickness of what the part is made from."""
    return f"sheet {both(part.thickness_mm, part.units)}"


def _sizes(part: FlatPart) -> Iterator[str]:
    """Limits of diameters with their reasons, once a diameter."""
    said: dict[str, None] = {}
    for group in hole_groups(part.holes):
        if group.like.size is not None and not group.like.piloted:
            said[_told(group.like, group.like.size, part)] = None
    yield from said


def _told(hole: ToldHole, limits: Limits, part: FlatPart) -> str:
    size = bound(f"Ø{sized(hole.diameter_mm, limits, part.units)}")
    if none_given(limits):
        return f"{size} {limits.why}."
    usual = general(part.shop, hole.diameter_mm)
    tighter = limits.under_mm + limits.over_mm < usual.under_mm + usual.over_mm
    how = "closer than general" if tighter else "instead of the general tolerance"
    document, _, _ = source(limits.source).title.partition(":")
    within = f"; {hole.fit} of ISO 286 lies within it" if hole.fit else ""
    return f"{size}: {how} {limits.why} ({document}){within}."


def _places(part: FlatPart) -> Iterator[str]:
    """Places that are held closer than the general tolerance, by reason."""
    held: dict[tuple[str, str], list[str]] = {}
    for hole in part.holes:
        if hole.place is not None:
            words, why = limit_words(hole.place, part.units), hole.place.why
            how = why if none_given(hole.place) else f"closer than general {why}"
            held.setdefault((words, how), []).append(hole.label)
    for (words, how), labels in held.items():
        yield f"{', '.join(labels)}: {bound(f'X and Y {words}')}, {how}."
