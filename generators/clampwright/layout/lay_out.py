"""Recipe to layout."""

from __future__ import annotations

from dataclasses import dataclass, replace

from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.clamp_places import clamp_places, part_height
from clampwright.layout.clamp_plan import ClampInPlan, clamps_in_plan, middle, rounded_from
from clampwright.layout.clamps_wanted import ClampWanted, clamps_wanted, held_tubes
from clampwright.layout.component_shift import off_the_tubes
from clampwright.layout.components import SetComponent, set_components
from clampwright.layout.drilled_holes import Finish, letters
from clampwright.layout.fit_up import plan
from clampwright.layout.frame import Attitude, attitude
from clampwright.layout.hardware_list import hardware
from clampwright.layout.hole_list import bolt_holes, finishes, lightening_holes
from clampwright.layout.how_sure import known_to
from clampwright.layout.masses import weigh
from clampwright.layout.outline import Outline
from clampwright.layout.placed import FitUpPlan, Frame, PlateLayout
from clampwright.layout.placed_components import from_datum, placed_components
from clampwright.layout.plate_outline import outline_about, polygon_outline
from clampwright.layout.shop.places_needed import planned_for_a_shop
from clampwright.layout.site import site_of
from clampwright.layout.stations import choose_stations
from clampwright.layout.trial_places import Site
from clampwright.layout.tube_lines import tube_lines
from clampwright.layout.tubes_known import tubes_known, worst_end_mm
from clampwright.quantities import Vec2, show_length
from clampwright.quantities.directions import along
from clampwright.recipe.model import Measuring, PlateJob, Recipe
from clampwright.trade.materials import material

__all__ = ["CannotLayOut", "lay_out"]

Notes = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class _Plan:
    """Everything in plan. Clamps count from the tubes' reference, all else from the middle of their holes."""

    stands: Attitude
    clamps: tuple[ClampInPlan, ...]
    middle: Vec2
    components: tuple[SetComponent, ...]
    drilled: tuple[Vec2, ...]
    """Clamp holes, rounded."""
    finishes: tuple[Finish, ...]
    """Of clamp holes, then of each component's holes."""
    outline: Outline
    notes: Notes

    @property
    def datum(self) -> Vec2:
        """Lower left corner of the outline's box."""
        u, v, _, _ = self.outline.box()
        return u, v


def lay_out(recipe: Recipe) -> PlateLayout:
    """Where everything goes.

    The plate's normal comes from the tubes, its height from the highest clamp foot. Components are set
    about the middle of the clamp holes, clamps at given stations or where they have most room, the outline
    is drawn about both, and its lower left corner becomes the datum that every place is counted from.

    Raises
    ------
    CannotLayOut
        Where geometry forbids any answer; everything else is for the checks to tell.

    Examples
    --------
    Two tubes 150 mm apart, clamps with a measured reach of 20 mm: the rows of holes are 110 mm apart.

    >>> from clampwright.recipe.read import read_text
    >>> lines = [
    ...     'kind = "accessory plate"',
    ...     'name = "relay-plate"',
    ...     "clamps.reach = 20",
    ...     "structure.tubes.low = { start = [0, 0, 0], end = [500, 0, 0], od = 19.05 }",
    ...     "structure.tubes.high = { start = [0, 150, 0], end = [500, 150, 0], od = 19.05 }",
    ...     'carries = [{ name = "relay", mass = "0.1 kg", holes = [[-15, 0], [15, 0]] }]',
    ... ]
    >>> layout = lay_out(read_text("\\n".join(lines)))
    >>> [clamp.label for clamp in layout.clamps]
    ['A1', 'A2', 'B1', 'B2']
    >>> layout.clamps[2].at[1] - layout.clamps[0].at[1]
    110.0
    """
    return _laid_out(recipe, _planned(recipe))


def _planned(recipe: Recipe) -> _Plan:
    job = recipe.asked(PlateJob)
    plate, increment = job.plate, job.plate.round_to_mm
    tubes = held_tubes(job.clamps, recipe.structure)
    stands = attitude(tubes, plate.toward)
    lines = tube_lines(tubes, stands)
    given, shape_notes = polygon_outline(plate, recipe.units) if plate.outline == "polygon" else (None, ())
    grid = given.box()[:2] if given is not None else (0.0, 0.0)
    done, hole_notes = finishes(recipe)
    wanted, code_notes = clamps_wanted(recipe)
    components = set_components(job.carries, increment, grid)
    site = site_of(recipe, stands, lines, wanted, components, done, given)
    clamps, components, clamp_notes = _clamped(wanted, site, recipe)
    centre = middle(clamps)
    drilled = tuple(rounded_from(from_datum(c.hole, centre), grid, increment) for c in clamps)
    outline, notes = given, shape_notes
    if outline is None:
        outline, notes = _outlined(recipe, components, drilled, done)
    return _Plan(
        stands,
        clamps,
        centre,
        components,
        drilled,
        done,
        outline,
        (*stands.assumed, *code_notes, *clamp_notes, *hole_notes, *notes),
    )


def _clamped(
    wanted: tuple[ClampWanted, ...], site: Site, recipe: Recipe
) -> tuple[tuple[ClampInPlan, ...], tuple[SetComponent, ...], Notes]:
    """Stations, then components off the tubes where those left them over one, then stations about these."""
    notes = []
    if any(w.station_mm is None for w in wanted):
        notes.append(("clamps.at.station", "where the clamps have most room (chosen by the tool)"))
    chosen = choose_stations(wanted, site)
    components, moved = off_the_tubes(chosen, site)
    for index in moved:
        place = ", ".join(show_length(x, recipe.units) for x in components[index].at)
        says = f"{place} from the middle of the clamp holes (moved there so that its nuts clear the tubes)"
        notes.append((f"carries[{index + 1}].at", says))
    if moved:
        site = replace(site, components=components)
        chosen = choose_stations(wanted, site)
    return clamps_in_plan(chosen, site.lines), components, tuple(notes)


def _outlined(
    recipe: Recipe, components: tuple[SetComponent, ...], drilled: tuple[Vec2, ...], done: tuple[Finish, ...]
) -> tuple[Outline, Notes]:
    holes = [(at, done[0].diameter_mm) for at in drilled]
    for item, finish in zip(components, done[1:], strict=True):
        holes += [(at, finish.diameter_mm) for at in item.holes]
    return outline_about(
        recipe.asked(PlateJob).plate, holes, [item.corners for item in components], recipe.units
    )


def _laid_out(recipe: Recipe, drawn: _Plan) -> PlateLayout:
    job = recipe.asked(PlateJob)
    plate, datum = job.plate, drawn.datum
    height = part_height(drawn.clamps, plate.stand_off_mm)
    frame = _frame(drawn, height)
    exact = [from_datum(from_datum(c.hole, drawn.middle), datum) for c in drawn.clamps]
    clamps = clamp_places(
        drawn.clamps, exact, [from_datum(at, datum) for at in drawn.drilled], height, recipe
    )
    labels = letters(len({c.tube for c in clamps}) + len(drawn.components))
    components = placed_components(
        drawn.components, labels[len(labels) - len(drawn.components) :], datum, recipe
    )
    outline = drawn.outline.moved((-datum[0], -datum[1]))
    holes = bolt_holes(recipe, clamps, components, [i.holes for i in drawn.components], datum, drawn.finishes)
    cut_outs, cut_notes = lightening_holes(recipe, outline, holes, components, datum)
    holes = (*holes, *cut_outs)
    sheet = material(plate.material)
    plate_kg, total_kg, gravity = weigh(outline, holes, plate.thickness_mm, sheet.density_kg_m3, components)
    layout = PlateLayout(
        recipe=recipe,
        frame=frame,
        outline=outline,
        thickness_mm=plate.thickness_mm,
        material=sheet,
        holes=holes,
        clamps=clamps,
        components=components,
        plate_mass_kg=plate_kg,
        total_mass_kg=total_kg,
        centre_of_gravity=gravity,
        hardware=hardware(clamps, components, holes),
        fit_up=FitUpPlan(0.0, True, (), ()),
        assumed=(*drawn.notes, *cut_notes),
    )
    return _fitted(layout)


def _fitted(layout: PlateLayout) -> PlateLayout:
    """With what each clamp is known to, and the plan that follows from it."""
    recipe, all_known = layout.recipe, known_to(layout)
    sure = tubes_known(recipe)
    measuring = Measuring(worst_end_mm(sure, {clamp.tube for clamp in layout.clamps}), sure.given)
    made = plan(
        layout.clamps,
        layout.components,
        layout.holes,
        all_known,
        layout.frame,
        measuring=measuring,
        units=recipe.units,
    )
    layout = replace(layout, known_to=all_known, fit_up=made)
    return replace(layout, fit_up=planned_for_a_shop(layout))


def _frame(drawn: _Plan, height: float) -> Frame:
    stands, (u, v) = drawn.stands, drawn.datum
    origin = along(
        drawn.clamps[0].line.reference,
        (stands.u, drawn.middle[0] + u),
        (stands.v, drawn.middle[1] + v),
        (stands.n, height),
    )
    return Frame(origin, stands.u, stands.v, stands.n)
