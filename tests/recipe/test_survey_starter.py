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
from clampwright.structure.survey.model import Plumb

UNITS = ("mm", "in")


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
    assert upper.length_mm == pytest.approx(18.848 * 25.4, abs=2)
    assert upper.mark_mm == pytest.approx(2 * 25.4, abs=0.3)


@pytest.mark.parametrize("units", UNITS)
def test_both_units_measure_the_same_tubes(units: str) -> None:
    one, other = (read_survey_text(starter(each, "x")) for each in UNITS)
    assert len(one.measurements) == len(other.measurements)
    for mm, inch in zip(one.measurements, other.measurements, strict=True):
        assert (mm.a, mm.b) == (inch.a, inch.b)
        if isinstance(mm, Plumb):
            assert isinstance(inch, Plumb)
            continue
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


def shown(units: str) -> Iterator[tuple[str, str]]:
    """Each key that stands as a comment, and the starter with only that line's mark taken away."""
    lines = starter(units, "my-mount").split("\n")
    for at, line in enumerate(lines):
        key, equals, _ = line.removeprefix("# ").partition(" = ")
        if line.startswith("# ") and equals and " " not in key:
            yield key, "\n".join([*lines[:at], line.removeprefix("# "), *lines[at + 1 :]])


@pytest.mark.parametrize("units", UNITS)
def test_every_line_shown_reads_and_solves_when_its_mark_is_taken_away(units: str) -> None:
    """Not only without faults: what it says agrees with all else that the starter measures."""
    from clampwright.structure.survey.solve import solve

    tried = list(shown(units))
    for key, text in tried:
        solved = solve(read_survey_text(text))
        assert (key, solved.says) == (key, ())
        assert solved.structure is not None
        assert solved.scale <= solved.scale_most, key
    keys = {key for key, _ in tried}
    assert keys >= {"mark", "on", "rough", "level", "heights", "levels", "offsets", "slopes", "angles"}
    assert len(tried) == 20


@pytest.mark.parametrize("units", UNITS)
def test_no_heading_stands_as_a_comment(units: str) -> None:
    """A line below a heading that is none would belong to the heading above it."""
    assert "# [" not in starter(units, "my-mount")


def test_in_inches_it_says_inches() -> None:
    text = starter("in", "my-mount")
    assert "Left out: 1/16 in." in text
    assert "Left out: 3/32 in." in text
    assert " mm." not in text
    assert "Left out: 1.50 mm." in starter("mm", "my-mount")


def test_what_it_cannot_be_made_of() -> None:
    for words, key in ((("inch", "x"), "units"), (("in", "../x"), "name"), (("in", 'x"y'), "name")):
        with pytest.raises(RecipeFaults) as caught:
            starter(*words)
        assert caught.value.faults[0].key == key
