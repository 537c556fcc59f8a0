"""Named facts one under the other: the name in grey, what it says beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from clampwright.sheets.drawing import Item, Text
from clampwright.sheets.flow import LEADING, Block
from clampwright.sheets.ink import GREY, SMALL
from clampwright.sheets.lettering import wrap

NAME_ROOM = 17.0
_AFTER = 0.7


@dataclass(frozen=True, slots=True)
class Fact:
    """A name and what is to be said; a fact without a name is a title and stands at the left, bold."""

    name: str
    text: str


def fact_block(facts: Sequence[Fact], room: float, size_mm: float = SMALL) -> Block:
    """The facts as one block `room` mm wide; those that say nothing are left out.

    Examples
    --------
    >>> block = fact_block([Fact("", "A1 on upper-left"), Fact("clamp", "MS21919WCJ12")], 60.0)
    >>> [item.text for item in block.items if isinstance(item, Text)]
    ['A1 on upper-left', 'clamp', 'MS21919WCJ12']
    """
    items: list[Item] = []
    y = 0.0
    for fact in facts:
        if not fact.text:
            continue
        indent = NAME_ROOM if fact.name else 0.0
        lines = wrap(fact.text, room - indent, size_mm, not fact.name)
        if fact.name:
            items.append(Text((0.0, y - size_mm), fact.name, size_mm, colour=GREY))
        for line in lines:
            items.append(Text((indent, y - size_mm), line, size_mm, bold=not fact.name))
            y -= size_mm * LEADING
        y -= _AFTER
    return Block(0.0 - y, tuple(items))
