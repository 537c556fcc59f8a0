"""Whatever a survey or structure file holds, reading it gives typed values or RecipeFaults, fit to print."""

from __future__ import annotations

import random
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from recipe.recipe_files import HERE
from recipe.survey_files import FOLDER, RIGHT, WRONG

from clampwright.recipe.faults import Fault, RecipeFaults
from clampwright.recipe.read import read_text
from clampwright.recipe.survey_file import read_survey, read_survey_text
from clampwright.recipe.survey_starter import starter

TEXTS = (*(path.read_text(encoding="utf-8") for path in RIGHT), starter("in", "x"), starter("mm", "x"))
VALUES = (
    *("nan", "-inf", "1e400", "0", "-1", "true", '""', '"A"', "[]", "[[]]", "[[[]]]", "{}", '["A", "A"]'),
    *('["A", 1]', '[["A", "B", 3, "outside", "over "]]', '[["A", "B", 3, "over ,"]]', '[["A", "B", "±"]]'),
    *('[["A", "B", 3, "over nowhere"]]', '[["Z9", "ZZ", -3, "sideways"]]', '"Z9"', '["q", "Z9"]', '"a/b"'),
    *('[["A", "B", 3, "± 1", "± 1"]]', '"\\u0000"', "1979-05-27", '["y", "A"]', '[["A", "above", "B"]]'),
)
LINES = (
    *(
        "[datum]",
        "[measured]\n",
        "[points.A]\n",
        "[tubes.A]\n",
        "[tubes]\n",
        "[tubes.'a/b']\n",
        "[points]\n",
        "upper-left = 3\n",
        "A = []\n",
        '[tubes."a b"]\n',
        'units = "in"\n',
        "level = true\n",
    ),
    *(
        "skin = 'upper'\n",
        "on = ['upper', 3]\n",
        "mark = 'B'\n",
        "levels = [['A']]\n",
        "distances = 3\n",
        "od = 1e300\n",
    ),
)
SIGNS = (
    "#",
    "'",
    '"""',
    "\x00",
    "\ud800",
    "\u202e",
    "9" * 50,
    "[[[[[[",
    "a.b.c=",
    "é",
    "\r",
    "=",
    "±",
    "over ",
)
PARTS = VALUES + LINES + SIGNS


def faults_of(read: Callable[[], object]) -> tuple[Fault, ...]:
    """The faults of what is read; none where it is right. Any other exception goes on to fail the test."""
    try:
        read()
    except RecipeFaults as caught:
        return caught.faults or (Fault("", 0, 0, "", "", "", ""),)
    return ()


def judged(text: str) -> None:
    """Read a text; every message must name a line there is, and be fit to print."""
    for fault in faults_of(lambda: read_survey_text(text)):
        fit_to_print(fault)
        assert 1 <= fault.line <= text.count("\n") + 1, fault


def fit_to_print(fault: Fault) -> None:
    assert fault.text().isprintable(), fault
    assert fault.text().encode("utf-8")
    assert fault.expected


@settings(deadline=None, max_examples=150)
@given(st.text(max_size=200))
def test_any_text(text: str) -> None:
    judged(text)
    judged('kind = "tape survey"\n' + text)


@settings(deadline=None, max_examples=300)
@given(st.sampled_from(TEXTS), st.randoms(use_true_random=False), st.integers(1, 4))
def test_a_right_survey_with_its_text_spoilt(text: str, chance: random.Random, times: int) -> None:
    for _ in range(times):
        start = chance.randrange(len(text) + 1)
        end = min(len(text), start + chance.choice((0, 0, 1, 2, 10)))
        text = text[:start] + chance.choice(("", *PARTS)) + text[end:]
    judged(text)


@settings(deadline=None, max_examples=300)
@given(st.sampled_from(TEXTS), st.randoms(use_true_random=False), st.integers(1, 3))
def test_a_right_survey_with_its_lines_spoilt(text: str, chance: random.Random, times: int) -> None:
    lines = text.split("\n")
    for _ in range(times):
        at = chance.randrange(len(lines))
        key, equals, _ = lines[at].partition("=")
        what = chance.choice(("drop", "repeat", "move", "value"))
        if what == "drop":
            lines[at] = ""
        elif what == "repeat":
            lines.insert(at, lines[at])
        elif what == "move":
            lines.insert(chance.randrange(len(lines)), lines[at])
        elif equals:
            lines[at] = f"{key}= {chance.choice(PARTS)}"
    judged("\n".join(lines))


@settings(deadline=None, max_examples=200)
@given(st.sampled_from(TEXTS), st.randoms(use_true_random=False), st.integers(1, 4))
def test_a_right_survey_with_brackets_and_names_spoilt(text: str, chance: random.Random, times: int) -> None:
    for _ in range(times):
        places = [at for at, sign in enumerate(text) if sign in '[]{},="' or sign.isupper()]
        at = chance.choice(places)
        text = text[:at] + chance.choice(("", "", "[", "]", '"', "Z9", ",")) + text[at + 1 :]
    judged(text)


@settings(deadline=None, max_examples=60)
@given(st.sampled_from((*WRONG, *RIGHT)), st.integers(0, 1500))
def test_a_survey_cut_short(path: Path, length: int) -> None:
    judged(path.read_bytes()[:length].decode("utf-8", errors="replace"))


@pytest.mark.parametrize("depth", [100, 400, 5000, 50_000])
@pytest.mark.parametrize("key", ["measured.distances", "datum.along", "points.A.on", "tubes", "datum.sides"])
def test_deep_nesting(key: str, depth: int) -> None:
    judged(f'kind = "tape survey"\n{key} = ' + "[" * depth + "1" + "]" * depth)


@pytest.mark.parametrize("name", ["nowhere.toml", ".", "x" * 5000, "a\x00b", "/dev/zero", ""])
def test_surveys_that_are_no_files(name: str) -> None:
    with pytest.raises(RecipeFaults) as caught:
        read_survey(HERE / name)
    (fault,) = caught.value.faults
    fit_to_print(fault)
    assert fault.hint


KNOWN = (HERE / "valid" / "shared" / "surveyed.toml").read_text(encoding="utf-8")
TWO = (HERE / "valid" / "two-tubes-every-key.toml").read_text(encoding="utf-8")
ROWS = (
    '[""]',
    '["1", "2"]',
    '["1 2 3", "", "", "", "", "x"]',
    '["99999999", "", "", "", "", ""]',
    "[[1]]",
    "1e-9",
    "-0.1",
)


@settings(deadline=None, max_examples=200)
@given(st.randoms(use_true_random=False), st.integers(1, 3))
def test_a_structure_file_with_its_covariance_spoilt(
    tmp_path_factory: pytest.TempPathFactory, chance: random.Random, times: int
) -> None:
    lines = KNOWN.split("\n")
    for _ in range(times):
        at = chance.randrange(len(lines))
        key, equals, _ = lines[at].partition("=")
        lines[at] = (
            f"{key}= {chance.choice(ROWS + VALUES)}" if equals else chance.choice(("", "]", lines[at - 1]))
        )
    path = tmp_path_factory.getbasetemp() / "tubes.toml"
    path.write_text("\n".join(lines), encoding="utf-8")
    recipe = 'kind = "accessory plate"\nname = "x"\nstructure.file = "tubes.toml"\n'
    for fault in faults_of(lambda: read_text(recipe, path.with_name("x.toml"))):
        fit_to_print(fault)


@settings(deadline=None, max_examples=200)
@given(st.randoms(use_true_random=False), st.integers(1, 3))
def test_a_recipe_with_two_tubes_spoilt(chance: random.Random, times: int) -> None:
    lines = TWO.split("\n")
    numbers = ("[[0, 0], [0, 0]]", "[[0, 100]]", "[[100, 100], [0, 1]]", "-89", "89", "1e-9", "[20, 20]")
    for _ in range(times):
        at = chance.randrange(len(lines))
        key, equals, _ = lines[at].partition("=")
        lines[at] = f"{key}= {chance.choice(numbers + VALUES)}" if equals else ""
    for fault in faults_of(lambda: read_text("\n".join(lines))):
        fit_to_print(fault)


def test_the_folder_holds_surveys() -> None:
    assert FOLDER.is_dir()
    assert len(RIGHT) >= 4
