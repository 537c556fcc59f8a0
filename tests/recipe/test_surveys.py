"""Right surveys, and the typed values they give."""

from __future__ import annotations

import math
import tomllib
from dataclasses import asdict, replace
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from recipe.survey_files import FOLDER, RIGHT, WRONG

from clampwright.recipe.faults import RecipeFaults
from clampwright.recipe.schema import survey_schema
from clampwright.recipe.survey_file import read_survey, read_survey_text
from clampwright.structure.survey.model import (
    Along,
    Between,
    Datum,
    Distance,
    Plumb,
    Slope,
    Survey,
    SurveyPoint,
    SurveyTube,
)
from clampwright.trade.tables import rule

INCH = 25.4
EVERY, LEAST = FOLDER / "valid" / "every-key.toml", FOLDER / "valid" / "least.toml"
SCHEMA = Draft202012Validator(survey_schema())
ONLY_THE_READER_SEES = {
    "angle-of-one-tube",
    "beyond-in-millimetres",
    "beyond-negative",
    "datum-level-along-z",
    "datum-origin-mistyped",
    "datum-plane-of-the-same-axis",
    "datum-plane-point-on-the-axis",
    "datum-points-coincide",
    "datum-x-and-z-in-one-line",
    "datum-z-not-up-but-level",
    "distance-error-negative",
    "distance-error-no-length",
    "distance-error-without-sign",
    "distance-error-zero",
    "distance-how-twice",
    "distance-in-inches",
    "distance-in-millimetres",
    "distance-not-finite",
    "distance-outside-along-its-tube",
    "distance-outside-of-nothing",
    "distance-outside-shorter-than-the-tubes",
    "distance-over-centre",
    "distance-over-mistyped",
    "distance-over-none-of-both",
    "distance-over-not-said",
    "distance-over-of-the-other-point",
    "distance-over-one-of-several",
    "distance-over-three",
    "distance-over-unknown-centre",
    "distance-point-unknown",
    "distance-to-itself",
    "distance-too-long",
    "distance-word-mistyped",
    "distance-word-of-another-language",
    "distance-zero",
    "distances-in-another-unit",
    "distances-in-inches-without-units",
    "height-with-outside",
    "mark-mistyped",
    "mark-nowhere",
    "mark-nowhere-but-measured",
    "mark-on-another-tube",
    "mark-on-no-tube",
    "plumb-with-itself",
    "point-end-and-skin",
    "point-name-of-a-path",
    "point-on-a-tube-mistyped",
    "point-on-axis-and-skin",
    "point-on-one-mistyped-of-two",
    "point-unknown-in-several-rows",
    "side-against-the-datum",
    "side-left-of-what-view",
    "side-of-itself",
    "side-point-unknown",
    "sides-against-each-other",
    "slope-error-in-inches",
    "slope-of-a-point",
    "slope-too-steep",
    "tape-error-a-yard",
    "tape-error-negative",
    "tape-error-zero",
    "tube-between-the-same-points",
    "tube-end-mistyped",
    "tube-end-mistyped-and-much-measured",
    "tube-ends-alike",
    "tube-from-itself",
    "tube-from-itself-and-a-point-unknown",
    "tube-name-in-quotes",
    "tube-name-of-a-path",
    "tube-name-too-long",
    "tube-named-as-a-point",
    "tube-od-in-the-other-unit",
    "tube-unknown-in-several-rows",
}
"""Wrong surveys that a schema cannot tell from right ones."""


def every() -> Survey:
    return read_survey(EVERY)


def plain(survey: Survey) -> Survey:
    """A survey without the lines it stands in."""
    return replace(
        survey,
        points=tuple(replace(p, line=0) for p in survey.points),
        tubes=tuple(replace(t, line=0) for t in survey.tubes),
        measurements=tuple(replace(m, line=0) for m in survey.measurements),
        sides=tuple(replace(s, line=0) for s in survey.sides),
    )


def same(found: tuple[object, ...], wanted: tuple[object, ...]) -> bool:
    """Whether two rows of typed values are alike: numbers to rounding, all else exactly."""
    return [(type(each), rounded(each)) for each in found] == [(type(each), rounded(each)) for each in wanted]


def rounded(value: object) -> dict[str, object]:
    fields = asdict(value)  # type: ignore[call-overload]
    return {key: round(part, 9) if isinstance(part, float) else part for key, part in fields.items()}


@pytest.mark.parametrize("path", RIGHT, ids=lambda path: path.stem)
def test_it_reads_and_conforms(path: Path) -> None:
    survey = read_survey(path)
    assert len(survey.digest) == 16
    assert survey.tubes
    written = tomllib.loads(path.read_text(encoding="utf-8"))
    assert [error.message for error in SCHEMA.iter_errors(written)] == []


def test_the_points_are_the_tubes_ends_those_told_more_of_and_those_of_the_datum() -> None:
    assert plain(every()).points == (
        SurveyPoint("A", ("upper",)),
        SurveyPoint("B", ("upper", "strut")),
        SurveyPoint("C", ("lower tube",)),
        SurveyPoint("D", ("lower tube", "strut")),
        SurveyPoint("M1", (), "upper"),
        SurveyPoint("R", ("lower tube",), None, (10 * INCH, 0.0, -2.5 * INCH)),
        SurveyPoint("cross", ("upper", "lower tube")),
        SurveyPoint("floor"),
    )
    assert [p.name for p in read_survey(LEAST).points] == ["A", "B", "F1", "F2"]


def test_the_tubes_have_their_marks() -> None:
    wanted = (
        SurveyTube("upper", "A", "B", 0.75 * INCH, "M1"),
        SurveyTube("lower tube", "C", "D", 0.625 * INCH, "R"),
        SurveyTube("strut", "B", "D", 12.0),
    )
    assert same(plain(every()).tubes, wanted)


def test_each_distance_has_its_length_its_error_and_the_tubes_it_goes_over() -> None:
    """1 ft 10-1/16 in = 22.0625 in; a tape of ± 1/16 in, calipers of ± 1/64 in, or what the row says."""
    tape, calipers = INCH / 16, INCH / 64
    both = ("upper", "lower tube")
    wanted = (
        Distance("A", "B", 22.0625 * INCH, tape),
        Distance("A", "C", 9 * INCH, tape, "outside", both),
        Distance("A", "C", 228.0, calipers, "outside", both),
        Distance("B", "R", 9.25 * INCH, INCH / 8, "inside", ("strut", "lower tube")),
        Distance("A", "cross", 7 * INCH, tape, "outside", ("", "lower tube")),
        Distance("B", "floor", 31 * INCH, tape, "outside", ("strut", "")),
        Distance("D", "floor", 30 * INCH, tape, "inside", ("lower tube", "")),
        Distance("B", "D", 12 * INCH, 3.0),
        Distance("M1", "C", 8 * INCH, tape, "outside", ("", "lower tube")),
    )
    assert same(plain(every()).measurements[:9], wanted)


def test_the_other_measurements_are_in_millimetres_and_radians() -> None:
    """By hand: 8.2 deg = 0.143117 rad; a height is plumb whatever the frame; what is level rises by 0."""
    wanted = (
        Along("A", "B", "z", -2.5 * INCH, 2.0, plumb=True),
        Along("C", "D", "z", 3 * INCH, INCH / 2, plumb=True),
        Along("A", "floor", "z", 0.0, 2.0, plumb=True),
        Along("C", "R", "z", 0.0, 1.0, plumb=True),
        Plumb("A", "floor", INCH / 8),
        Along("A", "C", "x", 18 * INCH, 0.25 * INCH),
        Along("A", "D", "y", -25.4, 0.1 * INCH),
        Slope("upper", -0.143116998663535, math.radians(0.2)),
        Slope("strut", math.radians(3.5), math.radians(1)),
        Between("upper", "lower tube", math.radians(14), math.radians(2)),
        Between("strut", "upper", 1.0, 0.01),
    )
    assert same(plain(every()).measurements[9:], wanted)


def test_every_measurement_names_the_line_it_stands_in() -> None:
    lines = EVERY.read_text(encoding="utf-8").split("\n")
    for m in every().measurements:
        named = (m.a, m.b) if isinstance(m, Distance | Along | Plumb) else ()
        assert all(f'"{name}"' in lines[m.line - 1] for name in named), m
    assert lines[every().tubes[1].line - 1] == '[tubes."lower tube"]'
    assert lines[every().point("M1").line - 1] == "[points.M1]"


def test_the_sides_are_directions_of_the_frame() -> None:
    """By hand: x aft and z up make y = z × x point to the right as one sits in the aircraft."""
    assert [side.toward for side in every().sides] == [
        (-1, 0, 0),
        (1, 0, 0),
        (0, -1, 0),
        (0, 1, 0),
        (0, 0, 1),
        (0, 0, -1),
        (1, 0, 0),
        (0, 0, -1),
    ]


@pytest.mark.parametrize(
    ("left_right", "word", "y"),
    [
        ("from the seat", "left of", 1.0),
        ("from the seat", "right of", -1.0),
        ("looking aft", "left of", -1.0),
        ("looking aft", "right of", 1.0),
    ],
)
def test_left_and_right_turn_round_with_the_one_who_looks(left_right: str, word: str, y: float) -> None:
    """With x forward and z up, y points to the left as one sits in the aircraft."""
    text = LEAST.read_text(encoding="utf-8").replace(
        'plane = ["y", "A"]',
        f'plane = ["y", "A"], left_right = "{left_right}", sides = [["B", "{word}", "A"]]',
    )
    (side,) = read_survey_text(text).sides
    assert side.toward == (0.0, y, 0.0)


def test_the_frame() -> None:
    assert every().datum == Datum("A", "y", "floor", level=True)
    assert read_survey(LEAST).datum == Datum("F1", "x", "F2", plane_axis="y", in_plane="A")


def test_what_was_left_out_is_said_where_a_measurement_rests_on_it() -> None:
    assert every().assumed == ()
    survey = read_survey(LEAST)
    assert dict(survey.assumed) == {
        "units": "mm (bare numbers are millimetres; assumed)",
        "measuring.tape": "1.50 mm (usual for a tape over tubes; assumed)",
    }
    text = LEAST.read_text(encoding="utf-8") + 'measured.slopes = [["one", 3]]\n'
    survey = read_survey_text(text)
    assert "measuring.slope" in dict(survey.assumed)
    assert survey.measurements[0].error_rad == pytest.approx(math.radians(rule("survey-slope").value))


def test_the_tape_is_that_of_the_units() -> None:
    assert read_survey(LEAST).tape_mm == rule("survey-tape-metric").value
    text = LEAST.read_text(encoding="utf-8").replace("od = 19", 'od = "19 mm"')
    assert read_survey_text('units = "in"\n' + text).tape_mm == pytest.approx(INCH / 16)


def test_the_digest_follows_what_was_measured_and_nothing_else() -> None:
    text = EVERY.read_text(encoding="utf-8")
    same = (
        text.replace("# Every key", "# Another remark\n\n#"),
        text.replace('od = "3/4 in"', "od = 0.75"),
        text.replace('name = "every-key"', 'name = "called-otherwise"'),
        text.replace('  ["A", "B", "1 ft 10-1/16 in"],\n', "")
        .replace("distances = [\n", 'distances = [\n  ["B", "D", 12, "center", "+/- 3 mm", "tape"],\n', 1)
        .replace(
            '  ["B", "D", 12, "center", "+/- 3 mm", "tape"],\n  ["M1"', '  ["A", "B", 22.0625],\n  ["M1"'
        ),
    )
    assert {read_survey_text(each).digest for each in same} == {every().digest}
    changed = (
        text.replace("10-1/16", "10-1/8"),
        text.replace("± 1/8", "± 1/4"),
        text.replace('mark = "R"', 'mark = "C"'),
        text.replace('"forward of"', '"above"'),
        text.replace("level = true", 'plane = ["z", "C"]'),
    )
    assert len({read_survey_text(each).digest for each in (text, *changed)}) == len(changed) + 1


@pytest.mark.parametrize("path", WRONG, ids=lambda path: path.stem)
def test_wrong_surveys_do_not_conform_where_a_schema_can_tell(path: Path) -> None:
    try:
        written = tomllib.loads(path.read_text(encoding="utf-8"))
    except tomllib.TOMLDecodeError:
        return
    assert SCHEMA.is_valid(written) is (path.stem in ONLY_THE_READER_SEES)


def test_the_schema_is_one_of_the_draft() -> None:
    Draft202012Validator.check_schema(SCHEMA.schema)
    assert {path.stem for path in WRONG} >= ONLY_THE_READER_SEES


def test_a_survey_is_no_recipe_and_a_recipe_no_survey() -> None:
    from clampwright.recipe.read import read

    with pytest.raises(RecipeFaults, match="tape survey: clampwright survey solve"):
        read(EVERY)
