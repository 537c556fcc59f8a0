"""What a shop is told of the flat parts of a layout: the accessory plate."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from clampwright.layout.fit_up import NOW, PILOT, SLOT
from clampwright.layout.joined import Joined
from clampwright.layout.placed import ClampPlace, FitUp, Hole, PlateLayout
from clampwright.layout.said import named_list
from clampwright.layout.shop.hole_limits import FREE, Needed, across, class_of, place_limits, size_limits
from clampwright.layout.shop.told import FlatPart, ToldHole
from clampwright.quantities import show_length
from clampwright.recipe.model import PlateJob
from clampwright.trade.limits import Limits
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
    clamps = {clamp.label: clamp for clamp in layout.clamps}
    many = {part.name: len(part.holes) for part in layout.components}
    told = []
    for hole in layout.holes:
        clamp = clamps.get(hole.owner) if hole.purpose == "clamp" else None
        alone = clamp is None and many.get(hole.owner, 0) < 2
        told.append(_hole(hole, plan.get(hole.label), clamp, alone, layout))
    return tuple(told)


def _hole(
    hole: Hole, fit: FitUp | None, clamp: ClampPlace | None, alone: bool, layout: PlateLayout
) -> ToldHole:
    size = size_limits(hole, layout.recipe.shop, layout.recipe.units)
    need = FREE if alone or fit is None else _place(hole, fit, size, clamp, layout)
    way = NOW if fit is None else fit.way
    return ToldHole(
        label=hole.label,
        at=hole.at,
        diameter_mm=hole.diameter_mm,
        fastener=hole.fastener,
        purpose=hole.purpose,
        drill=hole.drill,
        pilot=hole.pilot,
        size=size,
        place=need.limits,
        transferred=way == PILOT or need.too_tight,
        fit=class_of(hole),
    )


def _place(
    hole: Hole, fit: FitUp, size: Limits | None, clamp: ClampPlace | None, layout: PlateLayout
) -> Needed:
    """What holds the place of a hole; nothing where it is marked or filed at the fit anyway."""
    if fit.way != NOW:
        return FREE
    shop, units = layout.recipe.shop, layout.recipe.units
    if clamp is None:
        return place_limits(hole, fit, size, None, None, shop, units)
    way = across(layout.frame, clamp)
    return place_limits(hole, fit, size, way, clamp.clamp.foot_hole_mm, shop, units)


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
    yield "Thickness as the sheet is bought."
    yield "Mark out with a soft pencil or felt pen: a crack begins at a scribed line."


def _transfer(holes: Sequence[ToldHole], of: str, units: str) -> Iterator[str]:
    """One sentence a pilot and final size."""
    for pilot, final in dict.fromkeys((hole.pilot, hole.diameter_mm) for hole in holes):
        labels = _labels(h for h in holes if (h.pilot, h.diameter_mm) == (pilot, final))
        size = show_length(final, units)
        first = f"pilot {pilot} only" if pilot else "centre mark only"
        yield f"{labels}: {first}; transferred from {of} and opened to {size} by the builder."


def _labels(holes: Iterable[ToldHole]) -> str:
    return named_list(tuple(hole.label for hole in holes))
