"""Stock of bushings: tubes against OD less two walls, bores against shanks, materials, ISO 2768-1."""

from __future__ import annotations

from itertools import pairwise

import pytest

from clampwright.trade.bolts import bolt, bolt_names
from clampwright.trade.general_tolerances import general_tolerance_mm
from clampwright.trade.holes import hole_window
from clampwright.trade.materials import material
from clampwright.trade.tables import load, rule
from clampwright.trade.tube_stock import (
    bore_window,
    bushing_material,
    bushing_materials,
    rod_for,
    stock_rods,
    stock_tubes,
    tubes_for,
)

INCH = 25.4
AN_SIZES = ["AN3", "AN4", "AN5", "AN6", "AN7", "AN8"]

RETYPED = [
    # outside diameter, wall, bore in inches: cells of the list of stock sizes (from memory)
    (0.2500, 0.028, 0.1940),
    (0.3125, 0.058, 0.1965),
    (0.3750, 0.095, 0.1850),
    (0.4375, 0.120, 0.1975),
    (0.5000, 0.120, 0.2600),
    (0.5625, 0.058, 0.4465),
    (0.6250, 0.120, 0.3850),
    (0.7500, 0.120, 0.5100),
]

NEAR_FITS = {
    # tubes whose bore goes over the largest shank by 0.005 to 0.012 in: subtraction on the columns
    "AN3": {(0.25, 0.028), (0.3125, 0.058), (0.4375, 0.120)},
    "AN4": {(0.3125, 0.028), (0.375, 0.058), (0.5, 0.120)},
    "AN5": {(0.375, 0.028), (0.4375, 0.058), (0.5625, 0.120)},
    "AN6": {(0.4375, 0.028), (0.5, 0.058), (0.625, 0.120)},
}


def sizes(found: tuple) -> set[tuple[float, float]]:
    return {(round(t.od_mm / INCH, 4), round(t.wall_mm / INCH, 3)) for t in found}


@pytest.mark.parametrize(("od", "wall", "bore"), RETYPED)
def test_cells_of_the_list_of_tubes(od: float, wall: float, bore: float) -> None:
    (tube,) = [
        t for t in stock_tubes() if (round(t.od_mm / INCH, 4), round(t.wall_mm / INCH, 3)) == (od, wall)
    ]
    assert tube.id_mm / INCH == pytest.approx(bore, abs=1e-9)


def test_the_bore_is_the_outside_less_two_walls() -> None:
    for tube in stock_tubes():
        assert tube.id_mm == pytest.approx(tube.od_mm - 2 * tube.wall_mm, abs=1e-9)
        assert 0 < tube.wall_mm < tube.id_mm < tube.od_mm


def test_tubes_are_in_inches_and_in_order() -> None:
    keys = [(tube.od_mm, tube.wall_mm) for tube in stock_tubes()]
    assert keys == sorted(set(keys))
    assert min(keys)[0] == pytest.approx(6.35)
    assert max(keys)[0] == pytest.approx(19.05)


@pytest.mark.parametrize("name", NEAR_FITS)
def test_which_bolt_a_tube_fits_follows_from_bore_and_shank(name: str) -> None:
    found = sizes(tubes_for(name))
    assert NEAR_FITS[name] <= found
    looser = found - NEAR_FITS[name]
    assert looser == ({(0.375, 0.083)} if name == "AN3" else set())


@pytest.mark.parametrize("name", bolt_names())
def test_a_bore_never_pinches_the_largest_shank_and_never_hides_off_centre(name: str) -> None:
    window, size = bore_window(name), bolt(name)
    assert size.shank_max_mm < window.low_mm < window.high_mm < size.nominal_mm + 0.6
    assert not window.holds(size.shank_max_mm)
    assert window.high_mm < size.nominal_mm * 1.15


@pytest.mark.parametrize("name", ["M4", "M5", "M6", "M8"])
def test_metric_bores_are_those_of_iso_273_fine(name: str) -> None:
    """ISO 273: fine holes 4.3, 5.3, 6.4, 8.4 (4.5 for M4 is medium) lie in the window of a loose spacer."""
    assert bore_window(name).holds(hole_window(name).low_mm)


@pytest.mark.parametrize("name", AN_SIZES)
def test_the_usual_tube_of_each_bolt_is_in_stock(name: str) -> None:
    od, bore = rule(f"bushing-od-{name.lower()}").value, rule(f"bushing-id-{name.lower()}").value
    assert (od, bore) in [(pytest.approx(t.od_mm), pytest.approx(t.id_mm)) for t in tubes_for(name)]


def test_rods_come_in_sixteenths_and_whole_millimetres() -> None:
    for rod in stock_rods():
        step = 1.0 if rod.metric else INCH / 16
        assert rod.diameter_mm / step == pytest.approx(round(rod.diameter_mm / step))


@pytest.mark.parametrize(
    ("od", "metric", "rod"),
    [(12.7, True, 12.7), (10.0, False, 10.0), (11.0, True, 12.0), (11.95, True, 14.0)],
)
def test_a_bushing_is_turned_from_its_own_rod_or_the_next_that_leaves_a_skin(
    od: float, metric: bool, rod: float
) -> None:
    assert rod_for(od, metric).diameter_mm == pytest.approx(rod)


def test_no_rod_is_said() -> None:
    with pytest.raises(LookupError, match="no bar"):
        rod_for(90.0, metric=True)


def test_densities_agree_with_those_of_sheet() -> None:
    """MIL-HDBK-5J: 6061 0.098, 2024 0.100, 4130 0.283 lb/in3; 304 0.286."""
    for name in ("6061-T6", "2024-T3", "4130", "304"):
        assert bushing_material(name).density_kg_m3 == pytest.approx(material(name).density_kg_m3, abs=1.0)
    assert bushing_material("acetal").density_kg_m3 < 1500


def test_aluminium_ends_where_the_rule_says() -> None:
    for each in bushing_materials():
        if each.family == "aluminium":
            assert each.max_temperature_c == rule("packing-aluminium-most").value
    assert bushing_material("304").max_temperature_c > rule("temperature-ahead-of-firewall").value
    assert bushing_material("acetal").max_temperature_c < rule("temperature-ahead-of-firewall").value


@pytest.mark.parametrize(
    ("size", "grade", "deviation"),
    [
        (0.5, "f", 0.05),
        (3.0, "m", 0.1),
        (6.0, "c", 0.3),
        (6.1, "m", 0.2),
        (30.0, "v", 1.0),
        (31.0, "m", 0.3),
        (121.0, "f", 0.2),
        (401.0, "m", 0.8),
        (1500.0, "c", 3.0),
        (3000.0, "v", 8.0),
    ],
)
def test_cells_of_iso_2768_1_table_1(size: float, grade: str, deviation: float) -> None:
    """ISO 2768-1, table 1 (from memory)."""
    assert general_tolerance_mm(size, grade) == deviation


def test_iso_2768_1_grows_with_size_and_class() -> None:
    rows = load("iso2768_1").rows
    for first, second in pairwise(rows):
        assert first.number("up_to") == second.number("over")
        assert first.number("medium") <= second.number("medium")
    for row in rows:
        grades = [row.maybe(stem) for stem in ("fine", "medium", "coarse", "very_coarse")]
        given = [each for each in grades if each is not None]
        assert given == sorted(given)


@pytest.mark.parametrize(("size", "grade"), [(3000.0, "f"), (2.0, "v"), (0.4, "m"), (5000.0, "m")])
def test_iso_2768_1_gives_nothing_there(size: float, grade: str) -> None:
    with pytest.raises(LookupError, match="no deviation"):
        general_tolerance_mm(size, grade)
