"""Pages of sheets about measured structures: their head, and parts that flow in columns below it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from clampwright.sheets.drawing import Item, Page, Path, Text, box_path
from clampwright.sheets.flow import Column, flow
from clampwright.sheets.in_parts import GUTTER, Part, column_width
from clampwright.sheets.ink import ACCENT, FRAME, GREY, WHITE
from clampwright.sheets.lettering import shortened, width, wrap
from clampwright.sheets.paper import Paper

_TOP, _BAND, _AIR = 13.5, 10.0, 1.2
_FACTS, _SIZE = 74.0, 2.4


@dataclass(frozen=True, slots=True)
class SurveyHead:
    """What stands over every page: what is it of, a few facts, and a band where something stops its use."""

    name: str
    about: str
    facts: tuple[tuple[str, str], ...]
    stop: str = ""
    """Big words of the band: "DO NOT USE"; "" where nothing is wrong."""
    why: str = ""

    def height(self) -> float:
        """Room it takes from the top of the frame."""
        return _TOP + (_BAND + _AIR if self.stop else 0.0) + _AIR


def survey_pages(page: Paper, head: SurveyHead, parts: Sequence[Part]) -> tuple[Page, ...]:
    """The pages of all parts, numbered through; a part begins a page of its own."""
    made = [(part.what, items) for part in parts for items in _flowed(page, head, part)]
    return tuple(
        Page(
            f"{what}, page {number}",
            page.width_mm,
            page.height_mm,
            (*_head(what, head, page, f"{page.name}, page {number} of {len(made)}"), *items),
        )
        for number, (what, items) in enumerate(made, 1)
    )


def page_room(page: Paper, head: SurveyHead) -> tuple[float, float]:
    """Width and height below the head."""
    x0, y0, x1, y1 = page.frame
    return x1 - x0, y1 - y0 - head.height() - 1.0


def _flowed(page: Paper, head: SurveyHead, part: Part) -> list[tuple[Item, ...]]:
    items = flow(part.blocks, _columns(page, head, part.columns))
    return [items.get(number, ()) for number in range(1 + max(items, default=-1))]


def _columns(page: Paper, head: SurveyHead, count: int) -> Iterator[Column]:
    x0, y0, _, y1 = page.frame
    step, number = column_width(page, count) + GUTTER, 0
    while True:
        for column in range(count):
            yield Column(number, x0 + column * step, y1 - head.height() - 1.0, y0)
        number += 1


def _head(what: str, head: SurveyHead, page: Paper, paper_words: str) -> list[Item]:
    x0, _, x1, y = page.frame
    room = x1 - x0 - _FACTS - 3.0
    items: list[Item] = [
        Text((x0, y - 4.6), shortened(what, room, 5.6, True), 5.6, bold=True),
        Text((x0, y - 8.9), shortened(head.name, room, 3.6, True), 3.6, bold=True),
        Text((x0, y - 12.3), shortened(head.about, room, _SIZE), _SIZE),
        *_facts((*head.facts[:3], ("paper", paper_words)), x1 - _FACTS, y),
        Path(((x0, y - _TOP), (x1, y - _TOP)), FRAME),
    ]
    if head.stop:
        top = y - _TOP - _AIR
        items += _band((x0, top - _BAND, x1, top), head.stop, head.why)
    return [item for item in items if not isinstance(item, Text) or item.text]


def _facts(facts: Sequence[tuple[str, str]], x: float, y: float) -> Iterator[Item]:
    for number, (name, value) in enumerate(facts):
        line = y - 2.4 - number * 3.25
        yield Text((x, line), name, _SIZE, colour=GREY)
        yield Text((x + 14.0, line), shortened(value, _FACTS - 14.0, _SIZE), _SIZE, bold=number == 0)


def _band(box: tuple[float, float, float, float], stop: str, why: str) -> list[Item]:
    x0, y0, x1, y1 = box
    big, middle = 7.0, (y0 + y1) / 2
    items: list[Item] = [
        box_path(box, None, ACCENT),
        Text((x0 + 3.0, middle - big * 0.36), stop, big, bold=True, colour=WHITE),
    ]
    left = x0 + 3.0 + width(stop, big, True) + 5.0
    lines = list(wrap(why, x1 - left - 2.0, 2.7, True))
    if len(lines) > 2:
        lines = [lines[0], shortened(" ".join(lines[1:]), x1 - left - 2.0, 2.7, True)]
    top = middle + (0.9 if len(lines) > 1 else -0.9)
    items += [Text((left, top - 3.5 * n), line, 2.7, bold=True, colour=WHITE) for n, line in enumerate(lines)]
    return items
