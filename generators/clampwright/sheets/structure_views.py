"""The picture of a structure from three sides: names, the ± of its ends, marks; as a page of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from clampwright.quantities import length_mm
from clampwright.sheets.drawing import Item, Page, Path, Pen, Text, moved
from clampwright.sheets.flow import Block, gap, paragraph
from clampwright.sheets.ink import BODY, SMALL
from clampwright.sheets.lettering import shortened, width
from clampwright.sheets.structure_eyes import HANDED, OWN_AXES
from clampwright.sheets.structure_shapes import Rod, Spot, ends, merged, rods
from clampwright.sheets.structure_sides import Sides, Thing, three_sides
from clampwright.sheets.table import Heading, table
from clampwright.structure.found import Found, FoundTube
from clampwright.structure.tubes import Structure

_MARGIN = 6.0
_WIDE, _HIGH = 250.0, 210.0
_NAMED_MOST, _NAME_MOST = 18, 34.0
"""Rods, and width of their longest name, up to which names stand in the picture; beyond: numbers, a key."""
_BARS = {"mm": (500.0, 200.0, 100.0, 50.0, 20.0, 10.0), "in": (508.0, 254.0, 127.0, 50.8, 25.4, 12.7)}


@dataclass(frozen=True, slots=True)
class Views:
    """Pictures of a structure hung from (0, 0), and what has to be said of them."""

    sides: Sides
    key: tuple[tuple[str, str], ...]
    """Number and name where numbers stand in the picture; empty where the names do."""

    @property
    def block(self) -> Block:
        """The pictures as one block."""
        return Block(self.sides.drawn.high, self.sides.drawn.items)


def structure_views(
    structure: Structure,
    units: str,
    *,
    title: str,
    spots: Sequence[Spot] = (),
    uncertainty: bool = True,
) -> Page:
    """A page with a structure from three sides: names, marks, and 95 % ellipses of its tubes' ends.

    Parameters
    ----------
    structure : Structure
        Its `uncertainty`, where it has one, gives the ellipses.
    units : str
        "mm" or "in", of the bar beside the scale.
    title : str
        Heading of the page.
    spots : Sequence[Spot]
        Points to be named as well.
    uncertainty : bool
        False: no ± is drawn.
    """
    sure = ends(structure) if uncertainty else ()
    named = spots if uncertainty else [replace(spot, rows_mm=()) for spot in spots]
    return views_page(views(rods(structure.tubes), merged(named, sure), (_WIDE, _HIGH)), units, title)


def numbered_views(found: Found, units: str = "mm") -> Page:
    """A page with the tubes found in a file from three sides, by the numbers that a person chooses by."""
    title = f"{found.source}: round tubes by number"
    return views_page(number_views(found, (_WIDE, _HIGH)), units, title, OWN_AXES)


def number_views(found: Found, room: tuple[float, float]) -> Views:
    """The pictures of that page; the key is the table of the tubes."""
    numbered = [replace(rods([each.tube])[0], name=str(each.number)) for each in found.tubes]
    sure = [spot for each in found.tubes for spot in _found_ends(each)]
    return Views(three_sides(Thing(tuple(numbered), tuple(sure)), room, upright=False), ())


def _found_ends(each: FoundTube) -> tuple[Spot, ...]:
    """Its ends with their ±, where it has one."""
    rows, tube = each.spread_mm, each.tube
    return (Spot("", tube.start, rows[:3]), Spot("", tube.end, rows[3:6])) if rows else ()


def views(held: Sequence[Rod], spots: Sequence[Spot], room: tuple[float, float]) -> Views:
    """Pictures with the names of rods; with numbers and a key where there are too many or too long ones."""
    if _short(held):
        sides = three_sides(Thing(tuple(held), tuple(spots)), room)
        if not set(sides.drawn.left) & {rod.name for rod in held}:
            return Views(sides, ())
    numbered = tuple(replace(rod, name=str(number)) for number, rod in enumerate(held, 1))
    key = tuple((str(number), rod.name) for number, rod in enumerate(held, 1))
    return Views(three_sides(Thing(numbered, tuple(spots)), room), key)


def views_page(made: Views, units: str, title: str, frame: str = HANDED) -> Page:
    """A page as high as pictures, legend and key need; `frame`: what is said of the axes."""
    said = [gap(2.0), *legend(made, units, _WIDE, frame), *key_blocks(made, _WIDE)]
    high = 10.0 + made.sides.drawn.high + sum(block.height for block in said)
    top = high + _MARGIN
    items: list[Item] = [Text((_MARGIN, top - 5.0), shortened(title, _WIDE, 5.0, True), 5.0, bold=True)]
    y = top - 10.0
    for block in (made.block, *said):
        items += moved(block.items, (_MARGIN, y))
        y -= block.height
    return Page(title, _WIDE + 2 * _MARGIN, high + 2 * _MARGIN, tuple(items))


def legend(made: Views, units: str, room: float, frame: str = HANDED) -> list[Block]:
    """Scale bar, what the signs mean, what is said of the axes, and names that found no room."""
    words = ["Tubes in true proportion, arrows from start to end."]
    if made.sides.sure:
        times = made.sides.times
        drawn = "at the scale of the tubes" if times == 1 else f"drawn {times} times as large as the tubes"
        words.append(f"Red ellipses: where the point lies in 95 of 100 such measurements, {drawn}.")
    if made.sides.marked:
        words.append("A bold line across a tube: the mark that its stations are counted from.")
    blocks = [_bar(made.sides.drawn.scale, units), *paragraph(" ".join(words), room, SMALL)]
    blocks += paragraph(frame, room, SMALL)
    if made.sides.drawn.left:
        left = ", ".join(made.sides.drawn.left)
        blocks += paragraph(f"No room in the pictures for: {left}.", room, SMALL, bold=True)
    return blocks


def key_blocks(made: Views, room: float) -> list[Block]:
    """The names behind the numbers, in as many columns as there is room for."""
    if not made.key:
        return []
    longest = max(width(f"{number}  {name}", SMALL) for number, name in made.key)
    columns = max(1, min(int(room / (longest + 8.0)), 4, len(made.key)))
    rows = -(-len(made.key) // columns)
    padded = [*made.key, *[("", "")] * (rows * columns - len(made.key))]
    lines = [[cell for c in range(columns) for cell in padded[c * rows + r]] for r in range(rows)]
    headings = [
        Heading(title, wraps=title == "tube", bold=title != "tube") for title in ("no.", "tube")
    ] * columns
    return [gap(2.0), *table(headings, lines, room, SMALL)]


def _short(held: Sequence[Rod]) -> bool:
    return len(held) <= _NAMED_MOST and all(width(rod.name, BODY, True) <= _NAME_MOST for rod in held)


def _bar(scale: float, units: str) -> Block:
    """A bar of a round length."""
    long = next((each for each in _BARS[units] if each * scale <= 60.0), _BARS[units][-1])
    wide = long * scale
    line = ((0.0, -1.0), (0.0, -3.0), (wide, -3.0), (wide, -1.0))
    return Block(
        5.0,
        (Path(line, Pen(0.3)), Text((wide + 2.0, -3.2), f"{long / length_mm(1.0, units):g} {units}", SMALL)),
    )
