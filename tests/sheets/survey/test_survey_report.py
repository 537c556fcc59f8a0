"""The report of a solved survey and the sheet of found tubes: all there, the worst first, slips boxed."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sheets.page_geometry import outside, overlapping, texts, words
from sheets.survey.measured_mounts import found, mount, odd_measurements, solved

from clampwright.sheets.drawing import Path, Sheet
from clampwright.sheets.ink import ACCENT, PALE
from clampwright.sheets.structure_found import found_sheet
from clampwright.sheets.survey_report import solved_sheet, solved_views
from clampwright.structure.found import Found
from clampwright.structure.survey.solved import SolvedSurvey

SURVEY = odd_measurements(mount())
CAREFUL = replace(
    solved(SURVEY),
    cautions=("Nothing checks the slope.",),
    survey=replace(SURVEY, assumed=(("measuring.tape", "0.0625 in (usual for a tape)"),)),
)
SOLVED: dict[str, SolvedSurvey] = {
    "usable": CAREFUL,
    "slip": solved(SURVEY, slip=True),
    "loose": solved(mount("mm"), loose=True),
    "nothing": replace(
        solved(mount()),
        points=(),
        judged=(),
        structure=None,
        take_next=(),
        redundancy=0,
        says=("Nothing was measured.",),
    ),
}


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", SOLVED)
def test_nothing_lies_over_anything(name: str, paper: str) -> None:
    for page in solved_sheet(SOLVED[name], paper).pages:
        assert outside(page, 8.0) == []
        assert overlapping(page) == []


def said(sheet: Sheet) -> str:
    return words(sheet.pages).replace("\n", " ")


def test_points_tubes_and_measurements_are_all_there() -> None:
    lines = [text.text for page in solved_sheet(CAREFUL, "a4").pages for text in texts(page)]
    for point in CAREFUL.points:
        assert point.name in lines
    for judged in CAREFUL.judged:
        assert judged.name in lines
    for tube in CAREFUL.structure.tubes:  # type: ignore[union-attr]
        assert f"{tube.length_mm / 25.4:.3f}" in lines
    assert "0.092" in lines
    assert "-8.02°" in lines


def test_a_usable_survey_forbids_nothing_and_says_what_it_rests_on() -> None:
    text = said(solved_sheet(CAREFUL, "letter"))
    assert "DO NOT USE" not in text
    assert "Nothing checks the slope." in text
    assert "measuring.tape: 0.0625 in (usual for a tape)" in text
    assert "0.94 times what was stated, as the stated ± lets expect" in text
    assert "kit maker's instructions come first" in text
    assert "mirror image" not in text


def test_measurements_stand_worst_first() -> None:
    lines = [text.text for page in solved_sheet(SOLVED["slip"], "a4").pages for text in texts(page)]
    start = lines.index("hides at most")
    order = [line for line in lines[start:] if line in {j.name for j in CAREFUL.judged}]
    score = {j.name: -1.0 if j.score is None else j.score for j in SOLVED["slip"].judged}
    scores = [score[name] for name in order]
    assert len(order) == len(SOLVED["slip"].judged)
    assert scores == sorted(scores, reverse=True)
    assert order[0] == SOLVED["slip"].blunders[0].name


def test_a_slip_is_boxed_with_what_it_should_probably_be() -> None:
    sheet = solved_sheet(SOLVED["slip"], "a4")
    text = said(sheet)
    assert "DO NOT USE YET" in text
    assert "measured 28.000 in, probably 27.000 in ± 0.075 in" in text
    assert "As likely: B-F3, C-F1." in text
    assert text.count("Is B forward of F1? Write sides.") == 1
    assert "Which of two mirror images?" in text
    frames = [
        i
        for i in sheet.pages[0].items
        if isinstance(i, Path) and i.pen and i.pen.width_mm == 0.5 and i.closed
    ]
    assert [frame.pen.colour for frame in frames if frame.pen] == [ACCENT, ACCENT]


def test_each_question_about_a_mirror_image_is_asked_once() -> None:
    """Whether or not the solver says it among its sentences, and however many points it moves."""
    slip = SOLVED["slip"]
    (mirror,) = slip.mirrors
    other = replace(mirror, point="K", ask="Is K above F1? Write sides.")
    settled = replace(mirror, point="M", ask="Is M above F1? Write sides.", resolved=True)
    for says in (slip.says, (*slip.says, mirror.ask, other.ask), (mirror.ask,)):
        some = replace(slip, mirrors=(mirror, mirror, other, settled), says=says)
        sheet = solved_sheet(some, "letter")
        text = said(sheet)
        assert text.count("Is B forward of F1?") == text.count("Is K above F1?") == 1
        assert "Is M above F1?" not in text
        assert "DO NOT USE YET" in text
        assert text.count("Two mirror images fit: answer what is asked below.") == len(sheet.pages)


def test_scores_are_explained_once_and_any_slip_hides_only_where_nothing_checks() -> None:
    sheet = solved_sheet(CAREFUL, "a4")
    assert (
        said(sheet).count("in its own standard deviations; above 3.3, the line beside the bars, look again")
        == 1
    )
    lines = [text.text for page in sheet.pages for text in texts(page)]
    assert lines.count("any") == sum(j.hides is None for j in CAREFUL.judged) == 2
    start = lines.index("F1-F2")
    (one,) = [j for j in CAREFUL.judged if j.name == "F1-F2"]
    assert lines[start + 4] == f"{one.score:.1f}"


def test_a_loose_figure_says_which_points() -> None:
    sheet = solved_sheet(SOLVED["loose"], "a4")
    assert "It can still move in 2 ways: K and L." in said(sheet)
    lines = [text.text for page in sheet.pages for text in texts(page)]
    assert lines.count("loose") == 3 * 2
    assert "not known yet" in lines


def bars(sheet: Sheet) -> list[tuple[float, str]]:
    """Lengths and colours of the bars beside the measurements, in order."""
    found_bars = []
    for page in sheet.pages:
        edge = page.width_mm - 8.0
        for item in page.items:
            if isinstance(item, Path) and item.pen is None and item.fill in (ACCENT, PALE) and item.closed:
                xs = [x for x, _ in item.points]
                if min(xs) == pytest.approx(edge - 21.0):
                    found_bars.append((max(xs) - min(xs), item.fill))
    return found_bars


def test_bars_are_as_long_as_their_scores() -> None:
    """Half the room is where to look again: 3.29 standard deviations, 1 in 1000 (Baarda 1968)."""
    judged = sorted((j for j in CAREFUL.judged if j.score is not None), key=lambda j: -(j.score or 0.0))
    drawn = bars(solved_sheet(CAREFUL, "a4"))
    expected = [min((j.score or 0.0) / 6.58, 1.0) * 21.0 for j in judged]
    assert [long for long, _ in drawn] == pytest.approx([long for long in expected if long > 0.05])
    assert {colour for _, colour in drawn} == {PALE}
    slip = bars(solved_sheet(SOLVED["slip"], "a4"))
    assert slip[0] == (pytest.approx(21.0), ACCENT)


def test_the_picture_alone_has_points_and_tubes() -> None:
    page = solved_views(CAREFUL)
    lines = [text.text for text in texts(page)]
    assert overlapping(page) == []
    for tube in CAREFUL.survey.tubes:
        assert lines.count(tube.name) == 4
    for point in CAREFUL.survey.points:
        assert point.name in lines


NONE = Found("empty.stl", "mm", "given", (), (), (1.0, 1.0, 1.0), 0)


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize(
    "tubes", [found(1), found(9), found(40, "каркас.step"), NONE], ids=["1", "9", "40", "0"]
)
def test_found_sheets(tubes: Found, units: str, paper: str) -> None:
    sheet = found_sheet(tubes, paper, units)
    for page in sheet.pages:
        assert outside(page, 8.0) == []
        assert overlapping(page) == []
    lines = [text.text for page in sheet.pages for text in texts(page)]
    for each in tubes.tubes:
        assert str(each.number) in lines
        assert each.tube.name in lines


def test_a_found_sheet_tells_doubts_what_was_left_and_the_unit() -> None:
    text = said(found_sheet(found(9), "a4", "mm"))
    assert "1, t0: Seen from one side only." in text
    assert "2, t1: " not in text
    assert "rounded corners of a square rail" in text
    assert "Unit of the file: in (guessed from the size: look at the lengths)" in text
    assert "18.98 ± 0.10" in text
    assert "189°, 100 %" in text
    assert "1.10, 0.00" in text
    assert "No round tube was found." in said(found_sheet(NONE, "a4", "mm"))


def drawing() -> Found:
    """Tubes of a drawing: nothing about them was measured."""
    exact = tuple(
        replace(
            t,
            od_plus_minus_mm=0.0,
            ends_plus_minus_mm=0.0,
            angle_plus_minus_rad=0.0,
            residual_mm=0.0,
            doubts=(),
        )
        for t in found(4).tubes
    )
    return replace(found(4), tubes=exact, doubts=("Half of it was read only.",))


def test_a_drawing_has_no_plus_minus_and_its_own_axes() -> None:
    text = said(found_sheet(drawing(), "letter", "mm"))
    assert "No ±: these are the file's own figures." in text
    assert "The axes x, y and z are the file's own" in text
    assert "Half of it was read only." in text
    for word in ("firewall", "ellipse", "direction ±", "exact", "nose looking aft"):
        assert word not in text
    scan = said(found_sheet(found(4), "letter", "mm"))
    assert "direction ±" in scan
    assert "No ±" not in scan


def test_the_same_sheets_twice() -> None:
    assert solved_sheet(CAREFUL, "a4") == solved_sheet(CAREFUL, "a4")
    assert found_sheet(found(9), "a4") == found_sheet(found(9), "a4")
