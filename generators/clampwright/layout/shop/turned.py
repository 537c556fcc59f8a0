"""What a shop is told of bushings and spacers: pieces that are made alike, of one recipe or a whole bay."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import astuple, dataclass

from clampwright.layout.bushing_parts import BushingPart, chamfer_made
from clampwright.layout.cut_long import as_marked, left_long
from clampwright.layout.joined import Joined
from clampwright.layout.shop.piece_limits import (
    SQUARE_SOURCE,
    bore_limits,
    chamfer_limits,
    length_limits,
    od_limits,
    square_mm,
    square_why,
    trim_words,
)
from clampwright.layout.shop.told import ForWhich, TurnedGroup
from clampwright.trade.limits import Limits
from clampwright.trade.specifications import specification
from clampwright.trade.tables import rule

_DECIMALS = 6


@dataclass(frozen=True, slots=True)
class _Piece:
    """The pieces of one mark of one recipe, as a shop makes them."""

    part: BushingPart
    length_mm: float
    length: Limits
    od: Limits | None
    bore: Limits
    chamfer_mm: float
    square_mm: float
    square_why: str
    trim: str
    belongs: ForWhich

    @property
    def alike(self) -> tuple[object, ...]:
        """What must agree for two to be made alike: everything that a lathe or a buyer sees."""
        numbers = (self.length_mm, self.part.od_mm, self.part.id_mm, self.chamfer_mm, self.square_mm)
        limits = tuple(_numbers(each) for each in (self.length, self.od, self.bore))
        words = (self.part.make, self.part.material, self.part.stock, bool(self.trim))
        return (*(round(each, _DECIMALS) for each in numbers), *limits, *words)

    @property
    def order(self) -> tuple[object, ...]:
        """By stock, shortest first; the rest only so that the order never hangs on that of the recipes."""
        part = self.part
        stock = (part.material, part.stock, part.make)
        size = (round(self.length_mm, _DECIMALS), part.od_mm, part.id_mm, self.chamfer_mm)
        limits = tuple(_numbers(each) for each in (self.length, self.od, self.bore))
        return (*stock, *size, bool(self.trim), *limits)


def turned(layouts: Sequence[Joined]) -> tuple[TurnedGroup, ...]:
    """All bushings and spacers of some recipes, those that are made alike as one group.

    Parameters
    ----------
    layouts
        Of one recipe or of a bay; each counts as many times as its recipe asks for sets.

    Notes
    -----
    Pieces left long (`cut_long`) are told with the length that is first made, and are never in one group
    with pieces that are made to length. Groups stand by stock, the shortest first.

    Examples
    --------
    >>> turned(())
    ()
    """
    groups: dict[tuple[object, ...], list[_Piece]] = {}
    for layout in layouts:
        for piece in _pieces(layout):
            groups.setdefault(piece.alike, []).append(piece)
    rows = sorted(groups.values(), key=lambda pieces: pieces[0].order)
    return tuple(_group(f"T{number}", pieces) for number, pieces in enumerate(rows, 1))


def _pieces(layout: Joined) -> Iterator[_Piece]:
    recipe = layout.recipe
    for part in as_marked(layout):
        longer = left_long(part, layout.known_to, recipe.units)
        long, made = bool(longer.long), part.length_mm + longer.longer_mm
        yield _Piece(
            part=part,
            length_mm=made,
            length=length_limits(part, recipe.shop, made, long=long),
            od=od_limits(part, recipe.shop),
            bore=bore_limits(part),
            chamfer_mm=chamfer_made(part),
            square_mm=square_mm(),
            square_why=square_why(part, recipe.units),
            trim=trim_words(recipe.units) if long else "",
            belongs=ForWhich(
                recipe=recipe.name,
                digest=recipe.digest,
                mark=part.mark,
                where=tuple(fill.where for fill in part.fills),
                quantity=part.quantity * recipe.shop.quantity,
                finished_mm=part.length_mm,
            ),
        )


def _group(number: str, pieces: Sequence[_Piece]) -> TurnedGroup:
    pieces = sorted(pieces, key=lambda piece: (piece.belongs.recipe, piece.belongs.mark))
    first, part = pieces[0], pieces[0].part
    belongs, bought = tuple(piece.belongs for piece in pieces), specification(part.material, part.make)
    told = (first.length.source, first.bore.source, rule("bushing-square").source, SQUARE_SOURCE)
    return TurnedGroup(
        number=number,
        length_mm=first.length_mm,
        length=first.length,
        od_mm=part.od_mm,
        od=first.od,
        bore_mm=part.id_mm,
        bore=first.bore,
        chamfer_mm=first.chamfer_mm,
        square_mm=first.square_mm,
        square_why=first.square_why,
        make=part.make,
        material=part.material,
        stock=part.stock,
        quantity=sum(each.quantity for each in belongs),
        mass_each_kg=part.mass_each_kg * first.length_mm / part.length_mm,
        belongs=belongs,
        trim=first.trim,
        sources=tuple(dict.fromkeys((*told, *part.sources))),
        chamfer=chamfer_limits(first.chamfer_mm),
        bolt=part.bolt,
        specification=bought.words,
        specification_source=bought.source,
    )


def _numbers(limits: Limits | None) -> tuple[float, ...]:
    return () if limits is None else tuple(round(each, _DECIMALS) for each in astuple(limits)[:2])
