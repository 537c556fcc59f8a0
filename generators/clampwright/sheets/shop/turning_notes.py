"""Notes of a turning sheet: reasons of every limit that is tighter, how to make, mark and deliver."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from clampwright.layout.shop.told import Limits, TurnedGroup
from clampwright.quantities import show_length
from clampwright.recipe.model import Shop
from clampwright.sheets.flow import Block, heading, paragraph
from clampwright.sheets.lettering import bound
from clampwright.sheets.shop.cell_or_note import finish_notes, long_notes
from clampwright.sheets.shop.size_words import limit_words, own_limits
from clampwright.sheets.shop.stuff_words import material_words
from clampwright.sheets.shop.turning_figure import runs
from clampwright.trade.sources import source
from clampwright.trade.tables import rule

SIZE = 2.9
_SAID = {"assumed": "a default that nobody measured", "memory": "from memory, not yet checked"}
"""What is said of a limit whose source is no document; of one that is, its title stands in the findings."""


def turning_notes(groups: Sequence[TurnedGroup], shop: Shop, units: str, room: float) -> list[Block]:
    """The notes, numbered, `room` mm wide."""
    blocks = heading("Notes", room, 3.2)
    for number, text in enumerate(note_texts(groups, shop, units), 1):
        blocks += paragraph(f"{number}. {text}", room, SIZE, after=0.8)
    return blocks


def note_texts(groups: Sequence[TurnedGroup], shop: Shop, units: str) -> Iterator[str]:
    """One note after the other."""
    yield "Sizes without limits: general tolerance of the title block. Sizes in brackets are for reference."
    yield from _limit_reasons(groups, units)
    yield from _square_reasons(groups, units)
    yield from _bores(groups)
    yield from _left_long(groups)
    facing = show_length(rule("bushing-facing").value, units)
    kerf = show_length(rule("bushing-kerf-default").value, units)
    yield (
        f"Stock is counted with {facing} a piece for facing both ends and {kerf} a saw cut. "
        "No burr in the bore."
    )
    yield "Keep the groups apart: a bag for each, with its number (T1 ...) on it."
    yield from _materials(groups)
    yield from finish_notes(shop.finish)


def materials(groups: Sequence[TurnedGroup]) -> dict[str, list[str]]:
    """Materials with their specifications, and the numbers of the groups that are made from each."""
    found: dict[str, list[str]] = {}
    for group in groups:
        said = material_words(group.material, group.specification, group.specification_source)
        found.setdefault(said, []).append(group.number)
    return found


def _materials(groups: Sequence[TurnedGroup]) -> Iterator[str]:
    """In full where the title block's cell does not take them: each with its groups where there are more."""
    found = materials(groups)
    if len(found) == 1:
        yield from long_notes("material", *found)
        return
    for said, numbers in found.items():
        yield f"Material of {runs(numbers)}: {said}."


def _limit_reasons(groups: Sequence[TurnedGroup], units: str) -> Iterator[str]:
    """Why a size has limits of its own, once for all groups that share them."""
    held: dict[tuple[str, Limits], list[str]] = {}
    for group in groups:
        told = (
            *(("Length", group.length), ("Outside diameter", group.od)),
            *(("Bore", group.bore), ("Chamfers", group.chamfer)),
        )
        for what, limits in told:
            if (own := own_limits(limits)) is not None:
                held.setdefault((what, own), []).append(group.number)
    for (what, limits), numbers in held.items():
        which = "" if len(numbers) == len(groups) else f" of {runs(numbers)}"
        yield f"{what}{which} {bound(limit_words(limits, units))}: {limits.why}{_told(limits.source)}."


def _square_reasons(groups: Sequence[TurnedGroup], units: str) -> Iterator[str]:
    held: dict[tuple[float, str], list[str]] = {}
    for group in groups:
        held.setdefault((group.square_mm, group.square_why), []).append(group.number)
    for (square, why), numbers in held.items():
        which = "" if len(numbers) == len(groups) else f" of {runs(numbers)}"
        yield (
            f"Both faces{which} square to the bore within {show_length(square, units)} across the outside "
            f"diameter: {why}{_told(rule('bushing-square').source)}."
        )


def _bores(groups: Sequence[TurnedGroup]) -> Iterator[str]:
    """What is done to the bore, and on the outside."""
    for make, words in (
        ("tube", "cut from tube: outside and bore stay as supplied where the bore is within its limits"),
        ("rod", "turned and bored from rod"),
    ):
        numbers = [group.number for group in groups if group.make == make]
        if numbers:
            which = "All pieces are" if len(numbers) == len(groups) else f"{runs(numbers)}:"
            yield f"{which} {words}."


def _left_long(groups: Sequence[TurnedGroup]) -> Iterator[str]:
    held: dict[str, list[str]] = {}
    for group in groups:
        if group.trim:
            held.setdefault(group.trim, []).append(group.number)
    for trim, numbers in held.items():
        yield f"{runs(numbers)}: {trim.rstrip('.')}."


def _told(key: str) -> str:
    said = _SAID.get(source(key).status)
    return f" ({said})" if said else ""
