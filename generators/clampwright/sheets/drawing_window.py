"""One window's whole drawing: the part, its notes and labels, nothing over anything."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.checks.finding import Finding
from clampwright.layout.placed import PlateLayout
from clampwright.quantities import show_length
from clampwright.sheets.drawing import Item, Path, Text
from clampwright.sheets.face_note import face_note
from clampwright.sheets.ink import ACCENT, WHITE
from clampwright.sheets.labels import Line, Room
from clampwright.sheets.lettering import corners, shortened
from clampwright.sheets.notes_on_part import datum_names, hole_labels, overall_sizes, radius_notes, tube_names
from clampwright.sheets.part_view import View, beneath, part_items, room_around
from clampwright.sheets.print_check import PrintCheck
from clampwright.sheets.verdict import DO_NOT_DRILL, NOT_VERIFIED, failing

_LONGEST = 60.0


@dataclass(frozen=True, slots=True)
class Drawn:
    """The items of a window, and its holes by label: those labelled, and those that found no room for it."""

    items: tuple[Item, ...]
    labelled: tuple[str, ...]
    unlabelled: tuple[str, ...]


def drawn(view: View, note: Note, room: Room | None = None, *, sizes: bool = True) -> Drawn:
    """Draw the part in its window; `room` is `room_around(view)` with what the page itself needs."""
    room = room_around(view) if room is None else room
    names = datum_names(view, room)
    measures = overall_sizes(view, room) if sizes else ()
    face = face_note(note.whole, note.brief, view, room)
    labels, left = hole_labels(view, room)
    rest = (*radius_notes(view, room), *tube_names(view, room))
    texts = (*names, *measures, *face, *labels, *rest)
    blanks = [_blank(item) for item in texts if isinstance(item, Text)]
    labelled = tuple(hole.label for hole, _ in view.holes() if hole.label not in left)
    return Drawn((*beneath(view), *blanks, *part_items(view), *texts), labelled, left)


def _blank(text: Text) -> Path:
    """White under a text, so that no grey line runs through it."""
    return Path(corners(text), None, closed=True, fill=WHITE)


@dataclass(frozen=True, slots=True)
class Note:
    """What the cut-out paper must still say, and the least of it."""

    whole: tuple[Line, ...]
    brief: tuple[Line, ...]


def part_note(layout: PlateLayout, findings: tuple[Finding, ...], check: PrintCheck) -> Note:
    """The note for a part: not to be drilled, which face is up, what it is, how true the print is."""
    recipe = layout.recipe
    thick = show_length(layout.thickness_mm, recipe.units)
    stop = (Line(DO_NOT_DRILL, 7.0, True, ACCENT),) if failing(findings) else ()
    state = Line("verified by the bars", 2.4) if check.verified else Line(NOT_VERIFIED, 2.4, True)
    face, side = Line("THIS FACE UP", 5.0, True), Line("component side", 3.2)
    what = Line(shortened(f"{recipe.name}, {layout.material.name}, {thick}", _LONGEST, 2.5), 2.5)
    digest = Line(f"recipe {recipe.digest}", 2.4)
    return Note((*stop, face, side, what, digest, state), (*stop, face, side, state))
