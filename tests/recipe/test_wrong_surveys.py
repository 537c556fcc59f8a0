"""Each wrong survey gives the messages in the text file beside it: all, with file, line and remedy."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest
from recipe.survey_files import FOLDER, WRONG

from clampwright.recipe.faults import RecipeFaults
from clampwright.recipe.survey_file import read_survey, read_survey_text
from clampwright.recipe.survey_starter import starter


def faults_of(path: Path, monkeypatch: pytest.MonkeyPatch) -> RecipeFaults:
    """The faults of a survey, read from its own folder so that messages name no other."""
    monkeypatch.chdir(path.parent)
    with pytest.raises(RecipeFaults) as caught:
        read_survey(Path(path.name))
    return caught.value


def test_there_are_many() -> None:
    assert len(WRONG) >= 110
    assert {path.stem for path in WRONG} == {path.stem for path in (FOLDER / "wrong").glob("*.txt")}


@pytest.mark.parametrize("path", WRONG, ids=lambda path: path.stem)
def test_messages(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    caught = faults_of(path, monkeypatch)
    assert str(caught) + "\n" == path.with_suffix(".txt").read_text(encoding="utf-8")
    lines = path.read_text(encoding="utf-8").split("\n")
    for fault in caught.faults:
        assert fault.text().isprintable()
        assert len(fault.text()) < 330
        assert fault.expected
        assert fault.found
        assert 1 <= fault.column <= len(lines[fault.line - 1]) + 1
        if fault.found.startswith('"') and fault.found.endswith('"') and "out of" not in fault.expected:
            assert fault.found.strip('"').removesuffix("...") in lines[fault.line - 1], fault


def test_faults_of_one_cause_are_not_told_twice(monkeypatch: pytest.MonkeyPatch) -> None:
    """A datum that is missing, or a tube's end that cannot be read, makes no unknown points of its own."""
    once = ("datum-missing", "datum-without-origin", "tube-end-a-number", "point-on-a-tube-mistyped")
    slips = ("datum-origin-mistyped", "tube-end-mistyped-and-much-measured", "tube-from-itself")
    many = ("point-unknown-in-several-rows", "tube-unknown-in-several-rows", "point-told-by-no-table")
    for name in (*once, *slips, *many):
        assert len(faults_of(FOLDER / "wrong" / f"{name}.toml", monkeypatch).faults) == 1


def test_all_faults_come_at_once_in_the_order_of_the_file(monkeypatch: pytest.MonkeyPatch) -> None:
    faults = faults_of(FOLDER / "wrong" / "several-at-once.toml", monkeypatch).faults
    assert [fault.key for fault in faults] == [
        "tubes.lower.od",
        "points.R.on",
        "datum",
        "datum.plain",
        "measured.distances[2][3]",
        "measured.distances[3][4]",
        "measured.slopes[1][2]",
    ]


@pytest.mark.parametrize(
    ("slip", "hint"),
    [
        ('["F2", "A", 20-3/32]', 'put it in quotes: "20-3/32"'),
        ('["F2", "A", 20 3/32]', 'put it in quotes: "20 3/32"'),
        ('["F2", "A", 20.5 in]', 'put it in quotes: "20.5 in"'),
        ('["F2", "A", 27.5 ± 1/8]', 'put it in quotes: "27.5 ± 1/8"'),
        ('["F2", "A", 27.5, ± 1/8]', 'put it in quotes: "± 1/8"'),
        ('["F2", A, 27.5]', 'put it in quotes: "A"'),
        ('["F2", "A", 27.5] ["F2", "B", 27.5]', "a list opened with [ needs its ] and commas"),
    ],
)
def test_slips_of_the_pen_in_a_row_are_told_apart(slip: str, hint: str) -> None:
    text = (FOLDER / "wrong" / "distance-zero.toml").read_text(encoding="utf-8")
    with pytest.raises(RecipeFaults) as caught:
        read_survey_text(text.replace('["F2", "A", 0]', slip))
    (fault,) = caught.value.faults
    assert slip.split(",")[0] in text.split("\n")[fault.line - 1]
    assert fault.hint.startswith(hint)


def test_a_comma_that_is_missing_behind_a_row_is_told_with_its_line() -> None:
    text = (FOLDER / "wrong" / "distance-zero.toml").read_text(encoding="utf-8")
    with pytest.raises(RecipeFaults) as caught:
        read_survey_text(text.replace('"20-3/32"],', '"20-3/32"]'))
    (fault,) = caught.value.faults
    row = next(n for n, line in enumerate(text.split("\n"), 1) if "20-3/32" in line)
    assert fault.hint == f"a comma is missing at the end of line {row}"


def test_more_rows_than_there_may_be_are_told_with_the_limit() -> None:
    text = (FOLDER / "wrong" / "distance-zero.toml").read_text(encoding="utf-8")
    many = ", ".join(['["F2", "A", 27.5]'] * 501)
    with pytest.raises(RecipeFaults) as caught:
        read_survey_text(text.replace('["F2", "A", 0]', many))
    (fault,) = caught.value.faults
    assert (fault.expected, fault.found) == ("at most 500 distances [from, to, length]", "504 of them")


SPACED = re.compile(r'\["(\w+)", "(\w+)", "?(\d[\d/-]*)"?\]')


def in_the_other_unit(text: str, row: re.Match[str]) -> str:
    """A survey with one distance as it reads on the other side of the tape."""
    inches = 'units = "in"' in text
    value = float(sum(Fraction(part) for part in row[3].split("-")))
    other = f"{value * 25.4:.0f}" if inches else f"{value / 25.4:.2f}"
    return f'{text[: row.start()]}["{row[1]}", "{row[2]}", {other}]{text[row.end() :]}'


@pytest.mark.parametrize("units", ["in", "mm"])
def test_a_distance_in_the_other_unit_is_told_at_its_own_row_and_at_no_other(units: str) -> None:
    """Each of the starter's distances in turn. Too short a side may close flat triangles all the same."""
    text = starter(units, "x")
    found = 0
    for row in SPACED.finditer(text):
        try:
            read_survey_text(in_the_other_unit(text, row))
        except RecipeFaults as caught:
            (fault,) = caught.faults
            assert fault.line == text.count("\n", 0, row.start()) + 1
            assert fault.hint.startswith(f"is it in {'millimetres' if units == 'in' else 'inches'}?")
            found += 1
    assert found == 30 if units == "in" else found >= 10


def test_a_length_with_its_unit_and_a_plain_slip_are_left_to_the_solver() -> None:
    text = starter("in", "x")
    for row in ('["F1", "A", "508 mm"]', '["F1", "A", 60]', '["F1", "A", 30]'):
        assert '["F1", "A", "20"]' in text
        read_survey_text(text.replace('["F1", "A", "20"]', row))
