"""What must not matter: the world's pose, names, ends of tubes, units. Held to 1e-6 mm with exact places."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import numpy.typing as npt
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.plate_recipes import PARALLEL, at, component, plate, recipe, tube, with_plate

from clampwright.layout.lay_out import lay_out
from clampwright.layout.outline import Arc
from clampwright.layout.placed import ClampPlace, PlateLayout
from clampwright.quantities import Vec3
from clampwright.recipe.model import Lightening, Recipe
from clampwright.structure.tubes import Structure, Tube

Array = npt.NDArray[np.float64]

CLOSE = 1e-6
COIL = component("coil", None, holes=((-25.0, -15.0), (25.0, 15.0)), body=(62.0, 44.0, 50.0))
RELAY = component("relay", None, holes=((0.0, -9.0), (0.0, 9.0)), body=(22.0, 30.0, 30.0), mass_kg=0.1)
CONVERGING = (
    tube("right", (15.0, -60.0, 3.0), (520.0, -110.0, 8.0)),
    tube("left", (0.0, 70.0, 40.0), (480.0, 95.0, 9.0), 15.875),
)
THREE = (*CONVERGING, tube("middle", (0.0, 5.0, 20.0), (430.0, 2.0, 12.0), 15.875))
CROSSWISE = (
    tube("along", (0.0, 0.0, 0.0), (500.0, 4.0, 0.0)),
    tube("across", (520.0, -200.0, 30.0), (530.0, 220.0, 32.0)),
)
ODD = plate(
    margin_mm=None, corner_radius_mm=None, lightening=(Lightening(None, 18.0), Lightening(None, None))
)

SLOPING = (
    tube("falling", (3.0, -5.0, 12.0), (410.0, 6.0, -9.0)),
    tube("rising", (-12.0, 142.0, -14.0), (395.0, 128.0, 15.0), 15.875),
)
WIDE = component("wide", None, holes=((-25.0, -70.0), (25.0, 70.0)), body=(62.0, 150.0, 50.0))

CASES = {
    "parallel": recipe(PARALLEL, carries=(COIL, RELAY), sheet=ODD),
    "converging": recipe(CONVERGING, carries=(COIL,), sheet=ODD),
    "hull": recipe(CONVERGING, carries=(COIL, RELAY), sheet=replace(ODD, outline="rounded hull")),
    "three": recipe(THREE, carries=(RELAY,), sheet=ODD, each=1),
    "crosswise": recipe(CROSSWISE, carries=(COIL,), sheet=ODD, side="outboard"),
    "sloping": recipe(SLOPING, carries=(COIL,), sheet=ODD),
    "over a tube": recipe(SLOPING, carries=(WIDE, RELAY)),
    "stations": recipe(
        CONVERGING,
        (at("right", 120.0), at("right", 260.5), at("left", None), at("left", 90.0)),
        carries=(COIL,),
    ),
}


def turned(angles: Vec3) -> Array:
    """Rotation by three angles, about z, y and x."""
    cz, cy, cx = np.cos(angles)
    sz, sy, sx = np.sin(angles)
    about_z = np.array([[cz, -sz, 0], [sz, cz, 0], [0, 0, 1]])
    about_y = np.array([[cy, 0, sy], [0, 1, 0], [-sy, 0, cy]])
    return about_z @ about_y @ np.array([[1, 0, 0], [0, cx, -sx], [0, sx, cx]])


def vec(values: Array) -> Vec3:
    x, y, z = values.tolist()
    return x, y, z


def posed(given_recipe: Recipe, rotation: Array, shift: Vec3) -> Recipe:
    """The same job in a world that is turned and moved, `toward` turned along."""

    def moved(point: Vec3) -> Vec3:
        return vec(rotation @ np.array(point) + np.array(shift))

    tubes = tuple(Tube(t.name, moved(t.start), moved(t.end), t.od_mm) for t in given_recipe.structure.tubes)
    toward = vec(rotation @ np.array(given_recipe.job.plate.toward))
    return with_plate(replace(given_recipe, structure=Structure(tubes)), toward=toward)


def in_part(layout: PlateLayout) -> list[float]:
    """Every number of a layout that is counted in the part's own frame, in order."""
    numbers: list[float] = []
    for hole in layout.holes:
        numbers += [*hole.at, hole.diameter_mm]
    for place in layout.clamps:
        numbers += [*place.at_exact, place.gap_mm, place.tilt_rad, place.stack.thickness_mm]
    for carried in layout.components:
        numbers += [*carried.at, *(x for corner in carried.corners for x in corner)]
    for piece in layout.outline.pieces:
        numbers += [*piece.start, *piece.end, *(piece.centre if isinstance(piece, Arc) else ())]
    return [*numbers, layout.plate_mass_kg, layout.total_mass_kg, *layout.centre_of_gravity]


def words(layout: PlateLayout) -> list[object]:
    holes = [(h.label, h.purpose, h.owner, h.drill, h.pilot) for h in layout.holes]
    clamps = [(c.label, c.tube, c.side, [i.part for i in c.packing]) for c in layout.clamps]
    return [holes, clamps, [(line.part, line.quantity) for line in layout.hardware]]


ANGLES = st.tuples(*[st.floats(-3.1, 3.1)] * 3)
SHIFTS = st.tuples(*[st.floats(-2000.0, 2000.0)] * 3)


@settings(deadline=None, max_examples=12)
@given(angles=ANGLES, shift=SHIFTS)
@pytest.mark.parametrize("case", sorted(CASES))
def test_moving_and_turning_the_world_changes_nothing_in_the_part(
    case: str, angles: Vec3, shift: Vec3
) -> None:
    rotation = turned(angles)
    here, there = lay_out(CASES[case]), lay_out(posed(CASES[case], rotation, shift))
    assert in_part(there) == pytest.approx(in_part(here), abs=CLOSE)
    assert words(there) == words(here)
    assert [c.station_mm for c in there.clamps] == pytest.approx(
        [c.station_mm for c in here.clamps], abs=CLOSE
    )
    assert there.frame.n == pytest.approx(vec(rotation @ np.array(here.frame.n)), abs=1e-9)
    assert there.frame.u == pytest.approx(vec(rotation @ np.array(here.frame.u)), abs=1e-9)
    origin = rotation @ np.array(here.frame.origin) + np.array(shift)
    assert there.frame.origin == pytest.approx(vec(origin), abs=CLOSE)


@pytest.mark.parametrize("case", sorted(CASES))
def test_renaming_the_tubes_changes_only_their_names(case: str) -> None:
    """The new names sort the other way round."""
    given_recipe = CASES[case]
    names = {t.name: f"{'zyx'[i]} tube" for i, t in enumerate(given_recipe.structure.tubes)}
    tubes = tuple(replace(t, name=names[t.name]) for t in given_recipe.structure.tubes)
    clamps = given_recipe.job.clamps
    clamps = replace(
        clamps,
        on=tuple(names[n] for n in clamps.on),
        at=tuple(replace(c, tube=names[c.tube]) for c in clamps.at),
    )
    renamed = replace(given_recipe, structure=Structure(tubes), job=replace(given_recipe.job, clamps=clamps))
    assert in_part(lay_out(renamed)) == in_part(lay_out(given_recipe))


def mirrored(given_recipe: Recipe, name: str) -> Recipe:
    """One tube's ends swapped; stations given on it counted from its new start."""
    old = given_recipe.structure.tube(name)
    swapped = Tube(name, old.end, old.start, old.od_mm)
    tubes = tuple(swapped if t is old else t for t in given_recipe.structure.tubes)
    places = tuple(
        replace(c, station_mm=old.length_mm - c.station_mm)
        if c.tube == name and c.station_mm is not None
        else c
        for c in given_recipe.job.clamps.at
    )
    clamps = replace(given_recipe.job.clamps, at=places)
    return replace(given_recipe, structure=Structure(tubes), job=replace(given_recipe.job, clamps=clamps))


def by_place(clamps: tuple[ClampPlace, ...]) -> list[ClampPlace]:
    return sorted(clamps, key=lambda c: (c.tube, round(c.at[0], 3), round(c.at[1], 3)))


@pytest.mark.parametrize("case", sorted(CASES))
@pytest.mark.parametrize("index", [0, 1])
def test_swapping_a_tubes_ends_only_counts_stations_from_the_other_end(case: str, index: int) -> None:
    name = CASES[case].structure.names[index]
    here, there = lay_out(CASES[case]), lay_out(mirrored(CASES[case], name))
    long = CASES[case].structure.tube(name).length_mm
    assert there.outline.box() == pytest.approx(here.outline.box(), abs=CLOSE)
    assert there.outline.area_mm2() == pytest.approx(here.outline.area_mm2(), abs=1e-4)
    assert there.frame.origin == pytest.approx(here.frame.origin, abs=CLOSE)
    assert there.centre_of_gravity == pytest.approx(here.centre_of_gravity, abs=CLOSE)
    for one, other in zip(by_place(here.clamps), by_place(there.clamps), strict=True):
        assert other.at == pytest.approx(one.at, abs=CLOSE)
        assert other.gap_mm == pytest.approx(one.gap_mm, abs=CLOSE)
        assert other.bolt_axis == pytest.approx(one.bolt_axis, abs=1e-9)
        station = long - one.station_mm if one.tube == name else one.station_mm
        assert other.station_mm == pytest.approx(station, abs=CLOSE)


@pytest.mark.parametrize("case", sorted(CASES))
def test_the_units_people_are_shown_change_no_place(case: str) -> None:
    here, there = lay_out(CASES[case]), lay_out(replace(CASES[case], units="in"))
    places = [x for h in here.holes for x in h.at]
    assert [x for h in there.holes for x in h.at] == places
    assert there.outline == here.outline
    assert [c.gap_mm for c in there.clamps] == [c.gap_mm for c in here.clamps]


@pytest.mark.parametrize("case", sorted(CASES))
def test_twice_the_same_is_the_same(case: str) -> None:
    assert lay_out(CASES[case]) == lay_out(CASES[case])


@settings(deadline=None, max_examples=10)
@given(angles=ANGLES)
def test_rounded_places_do_not_depend_on_the_worlds_pose(angles: Vec3) -> None:
    """With an increment of 0.5 mm, for a job whose exact places lie clear of the halves of increments."""
    rounded = with_plate(CASES["converging"], round_to_mm=0.5)
    here, there = lay_out(rounded), lay_out(posed(rounded, turned(angles), (10.0, 20.0, 30.0)))
    for one, other in zip(here.clamps, there.clamps, strict=True):
        assert other.at == pytest.approx(one.at, abs=CLOSE)
        assert other.station_mm == pytest.approx(one.station_mm, abs=CLOSE)
        assert one.station_mm / 0.5 == pytest.approx(round(one.station_mm / 0.5), abs=1e-9)
