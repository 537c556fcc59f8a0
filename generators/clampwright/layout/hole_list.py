"""Every hole of the plate with its label, place, final drill and pilot."""

from __future__ import annotations

from collections.abc import Sequence

from clampwright.layout.bolt_room import washer_rim
from clampwright.layout.drilled_holes import Finish, bolt_hole, cut_out
from clampwright.layout.lightening import KeepOut, place_lightening
from clampwright.layout.outline import Outline
from clampwright.layout.placed import ClampPlace, Hole, PlacedComponent
from clampwright.layout.placed_components import from_datum
from clampwright.quantities import Vec2
from clampwright.recipe.model import Lightening, PlateJob, Recipe
from clampwright.trade.tables import rule


def finishes(recipe: Recipe) -> tuple[tuple[Finish, ...], tuple[tuple[str, str], ...]]:
    """Finish of the clamp holes, then of each component's holes, and what was assumed."""
    fastener = recipe.asked(PlateJob).fastener
    found, notes = [bolt_hole(fastener.bolt, fastener.hole_mm)], []
    if fastener.hole_mm is None:
        notes.append(("fastener.hole", f"{found[0].drill} (the drill of {fastener.bolt}'s window)"))
    for number, component in enumerate(recipe.asked(PlateJob).carries, start=1):
        if not component.holes:
            found.append(Finish(0.0, "", ""))
            continue
        found.append(bolt_hole(component.fastener, component.hole_mm, component.line))
        if component.hole_mm is None:
            text = f"{found[-1].drill} (the drill of {component.fastener}'s window)"
            notes.append((f"carries[{number}].hole", text))
    return tuple(found), tuple(notes)


def bolt_holes(
    recipe: Recipe,
    clamps: Sequence[ClampPlace],
    components: Sequence[PlacedComponent],
    patterns: Sequence[Sequence[Vec2]],
    datum: Vec2,
    done: Sequence[Finish],
) -> tuple[Hole, ...]:
    """Clamp holes and component holes; `patterns` are the components' hole centres in plan."""
    bolt = recipe.asked(PlateJob).fastener.bolt
    found = [_hole(c.label, "clamp", c.label, c.at, bolt, done[0]) for c in clamps]
    carried = zip(recipe.asked(PlateJob).carries, components, patterns, done[1:], strict=True)
    for asked, component, pattern, how in carried:
        for label, at in zip(component.holes, pattern, strict=True):
            place = from_datum(at, datum)
            found.append(_hole(label, "component", component.name, place, asked.fastener, how))
    return tuple(found)


def lightening_holes(
    recipe: Recipe,
    outline: Outline,
    holes: Sequence[Hole],
    components: Sequence[PlacedComponent],
    datum: Vec2,
) -> tuple[tuple[Hole, ...], tuple[tuple[str, str], ...]]:
    """The lightening holes asked for, and what was assumed; places count from the datum corner."""
    plate = recipe.asked(PlateJob).plate
    if not plate.lightening:
        return (), ()
    asked = [
        Lightening(None if a.at is None else from_datum(a.at, datum), a.diameter_mm) for a in plate.lightening
    ]
    keep_out = KeepOut(outline, tuple((h.at, _keep(h)) for h in holes), _flat_on_plate(components))
    circles, notes = place_lightening(asked, keep_out, plate.round_to_mm, recipe.units)
    found = []
    for number, circle in enumerate(circles, start=1):
        if circle is not None:
            at, radius = circle
            found.append(_hole(f"L{number}", "lightening", "", at, "", cut_out(2 * radius)))
    return tuple(found), notes


def _keep(hole: Hole) -> float:
    """From a bolt hole's centre to a lightening hole's edge: edge distance, and a web round the washer."""
    edge = rule("edge-distance-preferred").value * hole.diameter_mm
    rim = washer_rim(hole.fastener)
    return max(edge, rim + rule("lightening-web").value) if rim else edge


def _flat_on_plate(
    components: Sequence[PlacedComponent],
) -> tuple[tuple[Vec2, float, tuple[float, float]], ...]:
    """Footprints of components without holes of their own: these lie on the plate and need it whole."""
    return tuple(
        (c.at, c.turn_rad, (c.body[0] / 2, c.body[1] / 2))
        for c in components
        if c.body is not None and not c.holes
    )


def _hole(label: str, purpose: str, owner: str, at: Vec2, fastener: str, how: Finish) -> Hole:
    return Hole(label, purpose, owner, at, how.diameter_mm, fastener, how.drill, how.pilot)
