"""What a shop is told of the flat parts of a layout: the accessory plate."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from clampwright.layout.fit_up import PILOT, SLOT
from clampwright.layout.joined import Joined
from clampwright.layout.placed import FitUp, Hole, PlateLayout
from clampwright.layout.said import named_list
from clampwright.layout.shop.hole_limits import class_of, size_limits
from clampwright.layout.shop.places_needed import outline_alone, place_needed
from clampwright.layout.shop.told import FlatPart, ToldHole
from clampwright.quantities import show_length
from clampwright.recipe.model import PlateJob
from clampwright.trade.specifications import specification

PLATE = "Accessory plate"
FACE = "component side up"


def flat_parts(layout: Joined) -> tuple[FlatPart, ...]:
    """The parts of a layout that are cut from sheet: one for an accessory plate, none for other kinds.

    Examples
    --------
    >>> from clampwright.layout.lay_out import lay_out
    >>> from clampwright.recipe.read import read_text
    >>> lines = [
    ...     'kind = "accessory plate"',
    ...     'name = "relay-plate"',
    ...     "clamps.on = ['low', 'high']",
    ...     "structure.tubes.low = { start = [0, 0, 0], end = [500, 0, 0], od = 19.05 }",
    ...     "structure.tubes.high = { start = [0, 150, 0], end = [500, 150, 0], od = 19.05 }",
    ...     'carries = [{ name = "relay", mass = "0.1 kg", holes = [[-15, 0], [15, 0]] }]',
    ... ]
    >>> (part,) = flat_parts(lay_out(read_text("\\n".join(lines))))
    >>> part.number, [hole.label for hole in part.holes if hole.transferred]
    ('relay-plate-plate', ['B1', 'B2', 'C1', 'C2'])
    """
    return (_plate(layout),) if isinstance(layout, PlateLayout) else ()


def _plate(layout: PlateLayout) -> FlatPart:
    recipe = layout.recipe
    holes, bought = _holes(layout), specification(layout.material.name, "sheet")
    return FlatPart(
        number=f"{recipe.name}-plate",
        title=PLATE,
        recipe=recipe.name,
        about=recipe.about,
        digest=recipe.digest,
        units=recipe.units,
        material=layout.material,
        thickness_mm=layout.thickness_mm,
        outline=layout.outline,
        holes=holes,
        quantity=recipe.shop.quantity,
        mass_kg=layout.plate_mass_kg,
        shop=recipe.shop,
        face=FACE,
        notes=tuple(_notes(layout, holes)),
        specification=bought.words,
        specification_source=bought.source,
        sheet_mm=recipe.asked(PlateJob).plate.sheet_mm,
    )


def _holes(layout: PlateLayout) -> tuple[ToldHole, ...]:
    plan = {fit.hole: fit for fit in layout.fit_up.holes}
    return tuple(_hole(hole, plan.get(hole.label), layout) for hole in layout.holes)


def _hole(hole: Hole, fit: FitUp | None, layout: PlateLayout) -> ToldHole:
    return ToldHole(
        label=hole.label,
        at=hole.at,
        diameter_mm=hole.diameter_mm,
        fastener=hole.fastener,
        purpose=hole.purpose,
        drill=hole.drill,
        pilot=hole.pilot,
        size=size_limits(hole, layout.recipe.shop, layout.recipe.units),
        place=place_needed(hole, fit, layout),
        transferred=fit is not None and fit.way == PILOT,
        fit=class_of(hole),
    )


def _notes(layout: PlateLayout, holes: Sequence[ToldHole]) -> Iterator[str]:
    owner = {hole.label: hole.owner for hole in layout.holes}
    later = [hole for hole in holes if hole.transferred]
    for of in dict.fromkeys("the clamps" if h.purpose == "clamp" else owner[h.label] for h in later):
        mine = [h for h in later if of in (owner[h.label], "the clamps" if h.purpose == "clamp" else "")]
        yield from _transfer(mine, of, layout.recipe.units)
    filed = {fit.hole for fit in layout.fit_up.holes if fit.way == SLOT}
    if filed:
        labels = _labels(hole for hole in holes if hole.label in filed)
        yield f"{labels}: round, to size; the builder files them to slots at the fit."
    near = [hole.label for hole in layout.holes if outline_alone(hole, layout)]
    if near:
        said = named_list(tuple(near))
        yield f"Edge distance at {said} has nothing to spare: leave the outline full there, no undersize."
    piloted = [hole for hole in holes if hole.piloted]
    if piloted:
        yield f"{_labels(piloted)} are drawn, and modelled, at final size: make the Ø of the hole table."
    yield "Thickness as the sheet is bought."
    yield "Mark out with a soft pencil or felt pen: a crack begins at a scribed line."


def _transfer(holes: Sequence[ToldHole], of: str, units: str) -> Iterator[str]:
    """One sentence a pilot and final size; a hole smaller than every pilot is made to size at once."""
    for pilot, final in dict.fromkeys((hole.pilot, hole.diameter_mm) for hole in holes):
        labels = _labels(h for h in holes if (h.pilot, h.diameter_mm) == (pilot, final))
        size = show_length(final, units)
        if not pilot:
            yield f"{labels}: too small for a pilot, made to size; the builder tries it against {of}."
            continue
        yield f"{labels}: pilot {pilot} only; transferred from {of} and opened to {size} by the builder."


def _labels(holes: Iterable[ToldHole]) -> str:
    return named_list(tuple(hole.label for hole in holes))
