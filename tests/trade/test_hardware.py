"""Washers, lock nuts and torque against AC 43.13-1B and open tables that quote the ISO standards."""

from __future__ import annotations

import pytest

from clampwright.trade.bolts import bolt, bolt_names
from clampwright.trade.fasteners import fastener_names, thread
from clampwright.trade.hardware import Nut, nut, nut_for, nut_series, torque, washer, washers
from clampwright.trade.sources import source
from clampwright.trade.tables import load

LBF_IN_NM = 4.4482216152605 * 0.0254
"""Newton metres in an inch-pound: 1 lbf = 4.4482216152605 N, exact."""

TABLE_7_1 = {
    # thread: tension nut low, high; shear nut low, high; AC 43.13-1B, fine thread series
    "8-36": (12, 15, 7, 9),
    "10-32": (20, 25, 12, 15),
    "1/4-28": (50, 70, 30, 40),
    "5/16-24": (100, 140, 60, 85),
    "3/8-24": (160, 190, 95, 110),
    "7/16-20": (450, 500, 270, 300),
    "1/2-20": (480, 690, 290, 410),
}


@pytest.mark.parametrize(
    ("name", "threads"), zip(["AN3", "AN4", "AN5", "AN6", "AN7", "AN8"], [*TABLE_7_1][1:], strict=True)
)
def test_torque_of_ac_43_13_1b_table_7_1(name: str, threads: str) -> None:
    assert thread(name) == threads
    window = torque(name, nut("MS21044", name))
    assert window is not None
    assert window.use == "tension"
    assert (window.low_nm, window.high_nm) == pytest.approx(
        [LBF_IN_NM * each for each in TABLE_7_1[threads][:2]]
    )


@pytest.mark.parametrize(
    ("name", "threads"), [("AN3", "10-32"), ("AN4", "1/4-28"), ("AN5", "5/16-24"), ("AN6", "3/8-24")]
)
def test_shear_nuts_take_their_own_column(name: str, threads: str) -> None:
    window = torque(name, nut("MS21083", name))
    assert window is not None
    assert window.use == "shear"
    assert (window.low_nm, window.high_nm) == pytest.approx(
        [LBF_IN_NM * each for each in TABLE_7_1[threads][2:]]
    )


def test_no_document_gives_torque_for_metric_threads_here() -> None:
    for name in ("M4", "M5", "M6", "M8"):
        assert torque(name, nut("ISO 7040", name)) is None
    assert torque("#6", nut("MS21044", "#6")) is None
    assert torque("#8", nut("MS21044", "#8")) is not None


def test_torque_rows_hold_together() -> None:
    """Shear nuts get less than tension nuts, and nothing passes the greatest allowed."""
    rows = {(row.text("thread"), row.text("use")): row for row in load("torque").rows}
    for (threads, use), row in rows.items():
        assert row.number("low") < row.number("high") <= row.number("most")
        if use == "shear":
            assert row.number("high") < rows[threads, "tension"].number("high")


def test_temperature_limits() -> None:
    """AC 43.13-1B 7-64f: insert nuts to 250 degF; all-metal, cadmium plated, 450 degF (memory)."""
    for series in ("MS21044", "MS21083"):
        assert nut(series, "AN3").locking == "insert"
        assert nut(series, "AN3").max_temperature_c == pytest.approx((250 - 32) / 1.8)
    for series in ("MS21042", "MS21045"):
        assert nut(series, "AN3").locking == "all-metal"
        assert nut(series, "AN3").max_temperature_c == pytest.approx((450 - 32) / 1.8)


def test_the_nut_chosen_stands_the_temperature() -> None:
    limit = (250 - 32) / 1.8
    for name in ("AN3", "AN4", "AN5", "AN6", "AN7", "AN8", "#8"):
        assert nut_for(name, limit).series == "MS21044"
        assert nut_for(name, limit + 0.1).locking == "all-metal"
        assert nut_for(name, limit + 0.1).max_temperature_c > limit
    assert nut_for("M5", 120.0).series == "ISO 7040"
    assert nut_for("M5", 121.0).locking == "all-metal"


def test_where_no_nut_stands_it_the_hottest_is_taken() -> None:
    assert nut_for("AN3", 900.0).series == "MS21045"
    assert nut_for("M4", 200.0).series == "ISO 7040"


def test_heights_that_no_document_gave_are_none() -> None:
    for series in ("MS21042", "MS21045"):
        for name in ("AN3", "AN4", "AN5", "AN6"):
            assert nut(series, name).height_mm is None


@pytest.mark.parametrize(("name", "inches"), [("AN3", 0.188), ("AN4", 0.219), ("AN5", 0.266), ("AN6", 0.282)])
def test_low_insert_nuts(name: str, inches: float) -> None:
    """MS21083, memory; the same numbers stand in a scan whose column order is lost."""
    height = nut("MS21083", name).height_mm
    full = nut("MS21044", name).height_mm
    assert height is not None
    assert full is not None
    assert height == pytest.approx(inches * 25.4)
    assert height < full
    assert source(nut("MS21083", name).height_source).status == "memory"


@pytest.mark.parametrize(
    ("name", "height", "flats"), [("M4", 6.0, 7), ("M5", 6.8, 8), ("M6", 8.0, 10), ("M8", 9.5, 13)]
)
def test_iso_7040(name: str, height: float, flats: float) -> None:
    """h max and s max as quoted in an open table."""
    assert (nut("ISO 7040", name).height_mm, nut("ISO 7040", name).across_flats_mm) == (height, flats)


def test_missing_nuts_name_what_there_is() -> None:
    with pytest.raises(LookupError, match="did you mean MS2104"):
        nut("MS2104", "AN3")
    with pytest.raises(LookupError, match="for it: MS21044, MS21045"):
        nut("MS21042", "AN7")
    with pytest.raises(LookupError, match="no lock nut for 'AN9'"):
        nut_for("AN9", 20.0)


@pytest.mark.parametrize("name", fastener_names())
def test_nuts_fit_over_their_bolts(name: str) -> None:
    nominal = bolt(name).nominal_mm if name in bolt_names() else {"#6": 3.5, "#8": 4.2, "#10": 4.8}[name]
    found = [each for series in nut_series() for each in _nuts(series, name)]
    assert found
    for each in found:
        assert 1.15 * nominal < each.across_flats_mm < 2.3 * nominal
        assert each.height_mm is None or 0.6 * nominal < each.height_mm < 1.6 * nominal
        assert 0 < each.mass_kg < 0.05


def _nuts(series: str, name: str) -> list[Nut]:
    try:
        return [nut(series, name)]
    except LookupError:
        return []


@pytest.mark.parametrize("name", bolt_names())
def test_washers_fit_their_bolts(name: str) -> None:
    found = washers(name)
    regular = washer(name)
    assert regular is not None
    assert [each.thickness_mm for each in found] == sorted(each.thickness_mm for each in found)
    for each in found:
        assert bolt(name).shank_max_mm < each.id_mm < 1.15 * bolt(name).nominal_mm
        assert each.id_mm < each.od_mm
        assert bolt(name).head_across_flats_mm <= each.od_mm
        if each.kind == "thin":
            assert each.thickness_mm < regular.thickness_mm
        if each.kind == "large":
            assert each.od_mm > 1.25 * regular.od_mm


def test_washer_thickness() -> None:
    """A hardware technical note: AN960 washers are 1/16 in thick, the L kind 1/32 in."""
    for name in ("AN3", "AN4", "AN5", "AN6"):
        regular, thin = washer(name), washer(name, "thin")
        assert regular is not None
        assert thin is not None
        assert regular.thickness_mm / 25.4 == pytest.approx(1 / 16, abs=0.001)
        assert thin.thickness_mm / 25.4 == pytest.approx(1 / 32, abs=0.001)
        assert thin.part == f"{regular.part}L"


@pytest.mark.parametrize(
    ("name", "inside", "outside", "thick"),
    [("M4", 4.3, 9, 0.8), ("M5", 5.3, 10, 1.0), ("M6", 6.4, 12, 1.6), ("M8", 8.4, 16, 1.6)],
)
def test_iso_7089(name: str, inside: float, outside: float, thick: float) -> None:
    found = washer(name)
    assert found is not None
    assert (found.id_mm, found.od_mm, found.thickness_mm) == (inside, outside, thick)


def test_washer_kinds_that_do_not_exist() -> None:
    assert washer("AN7", "thin") is None
    assert washer("M5", "thin") is None
    assert washer("AN3", "purple") is None
    assert washers("AN9") == ()


def test_mass_of_a_washer_by_hand() -> None:
    """AN960-10: pi/4 (.438² - .203²) .063 in³ at .283 lb/in³ (derived)."""
    found = washer("AN3")
    assert found is not None
    volume = 3.14159265 / 4 * (0.438**2 - 0.203**2) * 0.063
    assert found.mass_kg == pytest.approx(volume * 0.283 * 0.45359237, rel=1e-6)
