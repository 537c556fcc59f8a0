"""Words of the title block that are too long for their cell stand in full in a numbered note."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from clampwright.sheets.lettering import printable
from clampwright.sheets.shop.block import Field, has_room

BEFORE_FINISH = "sizes hold before it"


def finish_notes(finish: str) -> Iterator[str]:
    """The finish in full, and that it comes on top of the sizes; nothing where none is asked for.

    Examples
    --------
    >>> list(finish_notes("anodise, clear"))
    ['Finish: anodise, clear; sizes hold before it.']
    """
    if finish:
        yield f"Finish: {finish.rstrip('.')}; {BEFORE_FINISH}."


def long_notes(field: Field, words: str) -> Iterator[str]:
    """The words as a note where the cell has no room for them."""
    if not has_room(field, words):
        yield f"{field.capitalize()}: {words.rstrip('.')}."


def cell_or_note(field: Field, words: str, notes: Sequence[str]) -> str:
    """The words where the cell takes them whole, else which note has them.

    Examples
    --------
    >>> cell_or_note("finish", "none asked for", ())
    'none asked for'
    >>> asked = "etch, one coat of primer, one of enamel; " * 3
    >>> cell_or_note("finish", asked, ("Deburr.", *finish_notes(asked)))
    'see note 2'
    """
    if has_room(field, words):
        return words
    said = printable(words.rstrip("."))
    return next(f"see note {n}" for n, note in enumerate(notes, 1) if said in printable(note))
