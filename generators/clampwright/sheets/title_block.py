"""The head of every page: what it is, of which recipe, its verdict, and whether to drill from it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from clampwright.checks.finding import Finding
from clampwright.layout.placed import PlateLayout
from clampwright.quantities import show_length
from clampwright.recipe.model import Recipe
from clampwright.sheets.drawing import Box, Item, Path, Text, box_path
from clampwright.sheets.ink import ACCENT, FRAME, GREY, WHITE
from clampwright.sheets.lettering import shortened, width, wrap
from clampwright.sheets.verdict import DO_NOT_DRILL, counts, failing, in_short

_TOP, _BAND, _PRINT, _AIR = 13.5, 10.0, 7.0, 1.2
_FACTS = 74.0
_SIZE = 2.4


class OfRecipe(Protocol):
    """A layout, as far as the head of a page looks at it."""

    @property
    def recipe(self) -> Recipe:
        """The recipe."""


@dataclass(frozen=True, slots=True)
class Head:
    """What a title block says; `printing` is (bold words, small words) on the print, None where it is none.

    `alarm` sets the words on the print in the accent colour.
    """

    what: str
    layout: OfRecipe
    findings: tuple[Finding, ...]
    paper: str
    printing: tuple[str, str] | None = None
    alarm: bool = False
    map_room: float = 0.0
    """Width kept free beside the names for a page map."""
    fact: tuple[str, str] | None = None
    """First line of the facts; None: what a plate is made of, or which kind of recipe it is."""
    stop: str = DO_NOT_DRILL
    """What is not to be done where a check fails."""

    def height(self) -> float:
        """Room it takes from the top of the frame."""
        bands = (_BAND + _AIR if failing(self.findings) else 0.0) + (_PRINT + _AIR if self.printing else 0.0)
        return _TOP + bands + _AIR


def title_block(head: Head, frame: Box, page: int, pages: int) -> tuple[Item, ...]:
    """The block at the top of the frame."""
    x0, _, x1, y = frame
    items = [
        *_names(head, x0, y, x1 - x0 - _FACTS - 3 - head.map_room),
        *_facts(head, x1 - _FACTS, y, page, pages),
    ]
    y -= _TOP
    items.append(Path(((x0, y), (x1, y)), FRAME))
    y -= _AIR
    if failing(head.findings):
        items += _forbidden((x0, y - _BAND, x1, y), failing(head.findings), head.stop)
        y -= _BAND + _AIR
    if head.printing is not None:
        items += _print_state((x0, y - _PRINT, x1, y), head.printing, head.alarm)
    return tuple(items)


def map_box(head: Head, frame: Box) -> Box:
    """Where the page map goes."""
    right = frame[2] - _FACTS - 3
    return right - head.map_room, frame[3] - _TOP + 0.8, right, frame[3]


def _names(head: Head, x: float, y: float, room: float) -> list[Item]:
    recipe = head.layout.recipe
    return [
        Text((x, y - 4.6), shortened(head.what, room, 5.6, True), 5.6, bold=True),
        Text((x, y - 8.9), shortened(recipe.name, room, 3.6, True), 3.6, bold=True),
        Text((x, y - 12.3), shortened(recipe.about, room, _SIZE), _SIZE),
    ]


def _facts(head: Head, x: float, y: float, page: int, pages: int) -> list[Item]:
    rows = (
        head.fact or _first_fact(head.layout),
        ("recipe", head.layout.recipe.digest),
        ("verdict", counts(head.findings)),
        ("paper", f"{head.paper}, page {page} of {pages}"),
    )
    items: list[Item] = []
    for number, (name, value) in enumerate(rows):
        line = y - 2.4 - number * 3.25
        items.append(Text((x, line), name, _SIZE, colour=GREY))
        items.append(
            Text((x + 13.0, line), shortened(value, _FACTS - 13.0, _SIZE), _SIZE, bold=number in (1, 2))
        )
    return items


def _first_fact(layout: OfRecipe) -> tuple[str, str]:
    if not isinstance(layout, PlateLayout):
        return "kind", layout.recipe.kind
    units = layout.recipe.units
    other = "in" if units == "mm" else "mm"
    thick = f"{show_length(layout.thickness_mm, units)} ({show_length(layout.thickness_mm, other)})"
    return "material", f"{layout.material.name} {layout.material.form}, {thick}"


def _forbidden(box: Box, found: Sequence[Finding], stop: str) -> list[Item]:
    x0, y0, x1, y1 = box
    big = 8.0
    items: list[Item] = [
        box_path(box, None, ACCENT),
        Text((x0 + 3.0, (y0 + y1) / 2 - big * 0.36), stop, big, bold=True, colour=WHITE),
    ]
    left = x0 + 3.0 + width(stop, big, True) + 5.0
    count = "1 check fails" if len(found) == 1 else f"{len(found)} checks fail"
    lines = _at_most(f"{count}: {in_short(found)}", x1 - left - 2.0, 2, 2.7)
    top = (y0 + y1) / 2 + (0.9 if len(lines) > 1 else -0.9)
    items += [Text((left, top - 3.5 * n), line, 2.7, bold=True, colour=WHITE) for n, line in enumerate(lines)]
    return items


def _print_state(box: Box, printing: tuple[str, str], alarm: bool) -> list[Item]:
    x0, y0, x1, y1 = box
    bold, small = printing
    colour = ACCENT if alarm else "#000000"
    middle = (y0 + y1) / 2
    size = 4.0 if width(bold, 4.0, True) < 90 else 2.7
    bold = shortened(bold, x1 - x0 - 6.0, size, True)
    items: list[Item] = [
        box_path(box, FRAME),
        Text((x0 + 3.0, middle - size * 0.36), bold, size, bold=True, colour=colour),
    ]
    left = x0 + 3.0 + width(bold, size, True) + 4.0
    lines = _at_most(small, x1 - left - 2.0, 2, _SIZE) if x1 - left > 30 else ()
    top = middle + (0.7 if len(lines) > 1 else -0.85)
    items += [Text((left, top - 3.0 * n), line, _SIZE) for n, line in enumerate(lines)]
    return items


def _at_most(text: str, room: float, most: int, size: float) -> tuple[str, ...]:
    """The text in at most so many lines, the last one cut short where need be."""
    lines = wrap(text, room, size, True)
    if len(lines) <= most:
        return lines
    rest = " ".join(lines[most - 1 :])
    return (*lines[: most - 1], shortened(rest, room, size, True))
