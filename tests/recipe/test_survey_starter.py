"""The starter survey reads and solves as it stands, and every key it shows reads too."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator

import pytest
from jsonschema import Draft202012Validator

from clampwright.recipe.faults import RecipeFaults
from clampwright.recipe.fields import Field, Table
from clampwright.recipe.inner import inner_table
from clampwright.recipe.schema import survey_schema
from clampwright.recipe.survey_fields import SURVEY
from clampwright.recipe.survey_file import read_survey_text
from clampwright.recipe.survey_starter import starter

UNITS = ("mm", "in")
NOT_TOGETHER = {"level", "skin"}
"""Keys that stand in the place of one that the starter writes."""


def fields(table: Table) -> Iterator[Field]:
    """Every field of a table and of those inside it."""
    for field in table.fields:
        yield field
        inner = inner_table(field)
        if inner is not None:
            yield from fields(inner)


@pytest.mark.parametrize("units", UNITS)
def test_it_reads_and_conforms(units: str) -> None:
    text = starter(units, "my-mount")
    survey = read_survey_text(text)
    assert (survey.name, survey.units) == ("my-mount", units)
    assert list(Draft202012Validator(survey_schema()).iter_errors(tomllib.loads(text))) == []


@pytest.mark.parametrize("units", UNITS)
def test_it_solves_to_the_tubes_that_it_was_made_of(units: str) -> None:
    """The upper left and lower left tubes of the example mount, seen from F1 at (0, -13, -11) in."""
    from clampwright.structure.survey.solve import solve

    solved = solve(read_survey_text(starter(units, "my-mount")))
    assert solved.says == ()
    assert solved.structure is not None
    upper, lower = solved.structure.tubes
    slope = (18.0, 5.0, -2.5)
    assert upper.direction == pytest.approx([part / 18.848 for part in slope], abs=0.02)
    assert lower.direction == pytest.approx([part / 18.506 for part in (18.0, 3.5, 2.5)], abs=0.02)
    assert upper.length_mm == pytest.approx((18.848 - 4) * 25.4, abs=2)


@pytest.mark.parametrize("units", UNITS)
def test_both_units_measure_the_same_tubes(units: str) -> None:
    one, other = (read_survey_text(starter(each, "x")) for each in UNITS)
    assert len(one.measurements) == len(other.measurements)
    for mm, inch in zip(one.measurements, other.measurements, strict=True):
        assert (mm.a, mm.b) == (inch.a, inch.b)
        assert mm.value_mm == pytest.approx(inch.value_mm, abs=1.4)


@pytest.mark.parametrize("units", UNITS)
def test_it_shows_every_key_with_its_meaning(units: str) -> None:
    text = starter(units, "my-mount")
    for field in fields(SURVEY):
        if inner_table(field) is None:
            assert [line for line in text.split("\n") if line.lstrip("# ").startswith(f"{field.key} = ")], (
                field.key
            )
        assert field.about in text
        assert field.about.endswith(".")


@pytest.mark.parametrize("units", UNITS)
def test_every_key_shown_reads_when_its_mark_is_taken_away(units: str) -> None:
    lines = starter(units, "my-mount").split("\n")
    tried = 0
    for at, line in enumerate(lines):
        key = line.removeprefix("# ").partition(" = ")[0]
        if (
            not line.startswith("# ")
            or " = " not in line
            or " " in key
            or key in (*NOT_TOGETHER, "on", "rough")
        ):
            continue
        text = "\n".join([*lines[:at], line.removeprefix("# "), *lines[at + 1 :]])
        if key == "mark" and tried >= 1 and "lower-left" in "\n".join(lines[at - 6 : at]):
            text = text.replace('mark = "A"', 'mark = "C"')
        read_survey_text(text)
        tried += 1
    assert tried >= 18


@pytest.mark.parametrize("key", ["on", "skin", "rough"])
@pytest.mark.parametrize("units", UNITS)
def test_the_point_shown_reads_too(units: str, key: str) -> None:
    lines = starter(units, "my-mount").split("\n")
    shown = [n for n, line in enumerate(lines) if line.startswith(("# [points.M1]", f"# {key} = "))]
    assert len(shown) == 2
    for n in shown:
        lines[n] = lines[n].removeprefix("# ")
    point = read_survey_text("\n".join(lines)).point("M1")
    assert (bool(point.axis_of), bool(point.skin_of), bool(point.rough)) == (
        key == "on",
        key == "skin",
        key == "rough",
    )


def test_what_it_cannot_be_made_of() -> None:
    for words, key in ((("inch", "x"), "units"), (("in", "../x"), "name"), (("in", 'x"y'), "name")):
        with pytest.raises(RecipeFaults) as caught:
            starter(*words)
        assert caught.value.faults[0].key == key
