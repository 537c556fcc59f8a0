"""The loader refuses what has no unit and what has no source, and says where."""

from __future__ import annotations

import csv
import io
import re
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.trade.sources import STATUSES, read_sources, source, sources
from clampwright.trade.tables import TableError, load, read_table, rule, rules, table_names

GOOD = "name,length_in,length_source,source\nlong,1.5,,practice\nshort,.5,assumed,practice\nopen,,,practice\n"


@pytest.mark.parametrize(
    ("text", "complaint"),
    [
        ("", "pins.csv: empty"),
        ("name,length_in\nlong,1.5\n", "line 1: no column source"),
        ("name,length,source\nlong,1.5,practice\n", "line 1: column 'length' has no unit"),
        ("name,length_cubits,source\nlong,1.5,practice\n", "line 1: column 'length_cubits' has no unit"),
        ("name,_in,source\nlong,1.5,practice\n", "line 1: column '_in' has no unit"),
        ("name,value,source\nlong,1.5,practice\n", "line 1: column 'value' has no unit"),
        ("name,,source\nlong,1.5,practice\n", "line 1: column '' has no unit"),
        ("name,name,source\na,b,practice\n", "line 1: a column stands there twice"),
        ("name,length_in,source\nlong,1.5,\n", "line 2: source '' is not in sources.toml"),
        ("name,length_in,source\nlong,1.5,hearsay\n", "line 2: source 'hearsay' is not in sources.toml"),
        (
            "name,length_in,length_source,source\nlong,1.5,hearsay,practice\n",
            "line 2: length_source 'hearsay'",
        ),
        (
            "name,length_in,source\nshort,.5,practice\nlong,1 1/2,practice\n",
            "line 3: length_in holds '1 1/2'",
        ),
        ("name,length_in,source\nlong,nan,practice\n", "line 2: length_in holds 'nan', not a number"),
        ("name,length_in,source\nlong,1_0,practice\n", "line 2: length_in holds '1_0', not a number"),
        ("name,length_in,source\nlong,1e3,practice\n", "line 2: length_in holds '1e3', not a number"),
        ("name,length_in,source\nlong,practice\n", "line 2: 2 cells under 3 columns"),
        ("name,length_in,source\nlong,1,practice,more\n", "line 2: 4 cells under 3 columns"),
        ("name,length_in,source\n,1,practice\n", "line 2: name is empty"),
        ("key,value,unit,source\npins,1,,practice\n", "line 2: unit is empty"),
        ("key,value,unit,source\npins,,mm,practice\n", "line 2: value is empty"),
        ('name,length_in,source\n"long,1,practice\n', "pins.csv line"),
    ],
)
def test_bad_tables_are_refused(text: str, complaint: str) -> None:
    with pytest.raises(TableError) as caught:
        read_table("pins", text)
    assert complaint in str(caught.value)
    assert str(caught.value).startswith("pins.csv")


def test_a_good_table_gives_millimetres_and_the_source_of_each_value() -> None:
    long, short, without = read_table("pins", GOOD).rows
    assert (long.number("length"), short.number("length"), without.maybe("length")) == (38.1, 12.7, None)
    assert (long.source("length"), short.source("length"), short.source()) == (
        "practice",
        "assumed",
        "practice",
    )
    assert (long.line, short.line) == (2, 3)
    with pytest.raises(TableError, match=r"pins\.csv line 4: no length"):
        without.number("length")


def test_units_against_their_definitions() -> None:
    """1 in = 25.4 mm, 1 lb = 0.45359237 kg, g = 9.80665 m/s², all exact."""
    header = "name,a_in,b_tpi,c_degf,d_lb,e_lb_in3,f_ksi,g_msi,h_lbf_in,i_mm,j_degc,k_no,source"
    row = read_table("pins", f"{header}\nx,1,32,212,1,1,1,1,1,7,8,9,practice").rows[0]
    pound_force = 0.45359237 * 9.80665
    expected = {
        "a": 25.4,
        "b": 0.79375,
        "c": 100.0,
        "d": 0.45359237,
        "e": 0.45359237 / 0.0254**3,
        "f": 1000 * pound_force / 25.4**2,
        "g": 1000 * pound_force / 25.4**2,
        "h": pound_force * 0.0254,
        "i": 7.0,
        "j": 8.0,
        "k": 9.0,
    }
    for stem, value in expected.items():
        assert row.number(stem) == pytest.approx(value, rel=1e-14)


@settings(max_examples=200, deadline=None)
@given(st.text() | st.lists(st.lists(st.text(), max_size=4), max_size=4).map(lambda rows: _as_csv(rows)))
def test_any_text_loads_or_is_a_table_error(text: str) -> None:
    for head in ("", "name,length_in,source\n"):
        try:
            table = read_table("pins", head + text)
        except TableError:
            continue
        assert all(row.source() in sources() for row in table.rows)


def _as_csv(rows: list[list[str]]) -> str:
    out = io.StringIO()
    csv.writer(out).writerows(rows)
    return out.getvalue()


@pytest.mark.parametrize("name", table_names())
def test_every_row_of_every_table_has_its_source(name: str) -> None:
    table = load(name)
    assert table.rows
    for row in table.rows:
        for column in table.columns.values():
            stem = column.stem if column.kind != "source" else ""
            assert sources()[row.source(stem)].status in STATUSES


@pytest.mark.parametrize("name", table_names())
def test_no_table_says_a_thing_twice(name: str) -> None:
    rows = [tuple(row.cells.values()) for row in load(name).rows]
    assert len(set(rows)) == len(rows)


def test_loading_is_cached() -> None:
    assert load("bolts_an") is load("bolts_an")
    assert rules() is rules()


@pytest.mark.parametrize(
    "text",
    [
        "[tape]\nstatus = 'assumed'\n",
        "[tape]\ntitle = 'A tape'\nstatus = 'certain'\n",
        "[tape]\ntitle = 'A tape'\n",
        "[tape]\ntitle = ''\nstatus = 'assumed'\n",
        "[tape]\ntitle = 'A tape'\nstatus = 'assumed'\nyear = '1999'\n",
        "[tape]\ntitle = 3\nstatus = 'assumed'\n",
        "tape = 'A tape'\n",
        "[tape]\ntitle = 'A tape'\nstatus = 'assumed'\n[tape]\n",
    ],
)
def test_bad_sources_are_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"sources\.toml|tape"):
        read_sources(text)


def test_missing_rules_and_sources_name_the_nearest() -> None:
    with pytest.raises(KeyError, match="did you mean 'edge-distance-least'"):
        rule("edge-distance-lest")
    with pytest.raises(KeyError, match="did you mean 'iso-273'"):
        source("iso-274")


def test_rules_the_trade_agrees_on() -> None:
    """Edge distance 2D and pitch 4D: common practice, no source; floors below them."""
    assert rule("edge-distance-least").value < rule("edge-distance-preferred").value == 2.0
    assert rule("pitch-least").value < rule("pitch-preferred").value == 4.0
    assert (rule("threads-showing-least").value, rule("threads-showing-most").value) == (1, 3)
    assert rule("round-to-inch").value == 25.4 / 64
    assert rule("bar-inch").value == 4 * 25.4
    assert rule("tilt-caution").value < rule("tilt-fail").value


IN_INCHES = {
    key: inches[1]
    for key, found in rules().items()
    if found.unit == "mm" and (inches := re.search(r"\((\d*\.?\d+(?:/\d+)?) in\)", found.about))
}


@pytest.mark.parametrize("key", sorted(IN_INCHES))
def test_rules_in_inches_are_what_they_say(key: str) -> None:
    """Where a rule in mm says in brackets what it is in inches, the two must agree."""
    assert rule(key).value == pytest.approx(float(Fraction(IN_INCHES[key]) * Fraction(254, 10)), rel=1e-6)


def test_some_rules_say_what_they_are_in_inches() -> None:
    assert {"round-to-inch", "corner-radius-default", "plate-thickness-default"} <= set(IN_INCHES)
