"""`explain` answers an inspector: the value, its unit, the source and how far it can be trusted."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.trade.explain import Explained, NothingFound, explain
from clampwright.trade.tables import load, rules, table_names


def _first(words: str, table: str) -> Explained:
    return next(each for each in explain(words) if each.table == table)


def _values(found: Explained) -> dict[str, tuple[str, str]]:
    return {each.what: (each.value, each.unit) for each in found.values}


def test_the_published_window_of_an3() -> None:
    """TM 1-1520-240-BD para 2-6: .191 to .197 in."""
    found = _first("hole AN3", "hole_windows")
    assert _values(found) == {
        "fastener": ("AN3", ""),
        "low": ("0.191", "in"),
        "high": ("0.197", "in"),
        "drill": ("#11", ""),
    }
    assert found.sources[0].title.startswith("TM 1-1520-240-BD para 2-6")


def test_a_torque_cell_of_ac_43_13_1b() -> None:
    found = {each.label: _values(each) for each in explain("torque 10-32")}
    assert found["10-32, tension"]["low"] == ("20", "lbf·in")
    assert found["10-32, shear"]["high"] == ("15", "lbf·in")


def test_a_column_narrows_the_values_and_its_own_source_is_named() -> None:
    found = _first("shank AN4", "bolts_an")
    assert _values(found) == {"shank min": ("0.246", "in"), "shank max": ("0.249", "in")}
    assert [each.status for each in found.sources] == ["memory"]


@pytest.mark.parametrize(
    ("words", "table", "label"),
    [
        ("#11", "drills_inch", "#11"),
        ("CH", "clamp_codes", "CH, silicone, stainless steel"),
        ("6061-T6", "materials", "6061-T6, aluminium"),
        ("edge-distance-least", "rules", "edge-distance-least"),
        ("iso-273", "sources", "iso-273"),
        ("an365", "nut_series", "MS21044, tension"),
        ("washer AN3 thin", "washers", "AN960-10L, AN3, thin"),
        ("6.6 mm", "drills_metric", "6.6 mm"),
        ("AN3-6A", "bolt lengths", "AN3-6A"),
        ("m5x25", "bolt lengths", "M5x25"),
        ("MS21919WCH12", "loop clamps", "MS21919WCH12"),
    ],
)
def test_names_find_their_rows(words: str, table: str, label: str) -> None:
    assert explain(words)[0].table == table or words in ("an365", "washer AN3 thin")
    assert _first(words, table).label == label


def test_worked_out_parts_carry_their_sources() -> None:
    bolt = _first("AN4-15A", "bolt lengths")
    assert [(each.value, each.unit) for each in bolt.values if each.what == "grip"] == [
        ("30.163", "mm"),
        ("1.1875", "in"),
    ]
    clamp = _first("MS21919WCH12", "loop clamps")
    assert {each.key for each in clamp.sources} >= {"clamp-by-sister-large", "clamp-seat-tangent"}
    assert _values(clamp)["reach"] == ("19.812", "mm")


def test_a_source_key_lists_what_rests_on_it() -> None:
    resting = explain("tm-1-1520-240-bd-2-6")
    assert {each.label for each in resting} >= {"AN3", "AN4", "AN5", "AN6"}


def test_words_of_a_title_find_the_source() -> None:
    assert any("43.13-1B" in each.sources[0].title for each in explain("AC 43.13-1B"))


@pytest.mark.parametrize("name", table_names())
def test_every_table_answers_to_its_name(name: str) -> None:
    found = [each for each in explain(name) if each.table == name]
    assert len(found) == len(load(name).rows)
    assert all(each.sources and each.label for each in found)


@pytest.mark.parametrize("key", sorted(rules()))
def test_every_rule_answers_to_its_key(key: str) -> None:
    value = next(each for each in _first(key, "rules").values if each.what == "value")
    assert float(value.value) == rules()[key].value
    assert (value.unit, value.source.key) == (rules()[key].unit, rules()[key].source)


@pytest.mark.parametrize(
    ("words", "says"),
    [
        ("AN33", "did you mean"),
        ("edge-distence-least", "did you mean edge-distance-least"),
        ("AN3-8A", "inches and eighths"),
        ("MS21919WCH99", "dashes go from"),
        ("qqqqqqq AN3", "'qqqqqqq' is nowhere"),
        ("bolt #11", "no row has them all"),
        ("  ", "no words"),
    ],
)
def test_what_nothing_answers_to(words: str, says: str) -> None:
    with pytest.raises(NothingFound, match=says):
        explain(words)


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=20))
def test_any_words_are_explained_or_not_found(words: str) -> None:
    try:
        found = explain(words)
    except NothingFound:
        return
    assert all(each.sources for each in found)
