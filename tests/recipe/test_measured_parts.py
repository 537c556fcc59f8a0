"""Measurements of finished parts: as people write them, as spreadsheets save them, and what can be wrong."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.recipe.faults import Fault, RecipeFaults
from clampwright.recipe.measured_cells import rows
from clampwright.recipe.measured_form import measuring_form
from clampwright.recipe.measured_model import Drawn, DrawnHole, DrawnLength, MeasuredHole, MeasuredLength
from clampwright.recipe.measured_part import read_measured, read_measured_text, together
from clampwright.recipe.measured_typed import measured_typed

HOLES = (DrawnHole("A1", (12.3, 45.6), 4.8514), DrawnHole("B1", (112.3, 45.6), 4.8514))
DRAWN = Drawn(
    "relay-plate", "mm", HOLES, (DrawnLength("S1", 12.7, 2), DrawnLength("S2L", 20.0, 1, 18.0)), 2.0
)
INCH = Drawn("relay-plate", "in", HOLES, (DrawnLength("S1", 12.7, 2),), 2.0)
BARE = Drawn("hose", "mm", (), (DrawnLength("S1", 12.7, 1),))
HEAD = "what,x,y,diameter,length\n"


def faults(text: str, drawn: Drawn = DRAWN) -> list[str]:
    with pytest.raises(RecipeFaults) as caught:
        read_measured_text(text, drawn, "m.csv")
    return [fault.text() for fault in caught.value.faults]


def test_a_plain_file_in_millimetres():
    part = read_measured_text(
        HEAD + "A1,12.31,45.58,4.9,\nB1,112.2,45.7,,\nS1,,,,12.72\nS1,,,,12.68\nthickness,,,,2.03\n"
        "plus or minus,,,,0.05\n",
        DRAWN,
    )
    assert part.holes == (
        MeasuredHole("A1", (12.31, 45.58), 4.9, 2),
        MeasuredHole("B1", (112.2, 45.7), None, 3),
    )
    assert part.lengths == (MeasuredLength("S1", 12.72, 4), MeasuredLength("S1", 12.68, 5))
    assert (part.thickness_mm, part.plus_minus_mm) == (2.03, 0.05)


def test_units_in_cells_in_the_head_and_of_the_recipe():
    """1.796 in is 45.6184 mm; 31/64 in is 12.303125 mm; a head's unit stands for its whole column."""
    part = read_measured_text(HEAD + "A1,31/64 in,1.796in,4.9 mm,\n", DRAWN)
    assert part.holes[0].at == pytest.approx((12.303125, 45.6184))
    assert read_measured_text("what,x in,y [in]\nA1,0.484,1.796\n", DRAWN).holes[0].at == pytest.approx(
        (12.2936, 45.6184)
    )
    assert read_measured_text(HEAD + "A1,0.484,1.796,0.191,\n", INCH).holes[0].diameter_mm == pytest.approx(
        4.8514
    )


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_what_spreadsheets_make_of_it(end):
    """A byte order mark, semicolons with decimal commas, quotes, padded rows, comments in quotes."""
    text = end.join(
        ['"# comment";;;;', "What;X;Y;Diameter;Length", 'A1;12,31;"45,58";4,9;', ";;;;", "s1;;;;12,7 mm", ""]
    )
    part = read_measured_text(text, DRAWN)
    assert part.holes[0].at == (12.31, 45.58)
    assert part.lengths[0].length_mm == 12.7
    tabs = read_measured_text("what\tx\ty\nA1\t12,31\t45.58\n", DRAWN)
    assert tabs.holes[0].at == (12.31, 45.58)


def test_a_file_with_a_byte_order_mark(tmp_path: Path):
    path = tmp_path / "m.csv"
    path.write_bytes(b"\xef\xbb\xbf" + (HEAD + "A1,12.3,45.6,,\n").encode())
    assert read_measured(path, DRAWN).holes[0].at == (12.3, 45.6)


def test_all_faults_come_at_once_with_line_and_column():
    found = faults(
        HEAD + "A1,12.3,abc,4.9,\nZ9,1,2,,\nS1,3,,,12.7\nB1,112.3\nA1,12.3,45.6,,\nS1,,,,1 lb\n,1,2,,\n"
    )
    assert [line.split(": ")[0] for line in found] == [
        "m.csv:2:9", "m.csv:3:1", "m.csv:4:4", "m.csv:5:1", "m.csv:7:7", "m.csv:8:1",
    ]  # fmt: skip


def test_an_unknown_label_is_answered_with_the_nearest():
    (line,) = faults(HEAD + "thicknes,,,,2.0\n")
    assert 'did you mean "thickness"?' in line
    assert '"A1", "B1", "S1", "S2L" or "thickness"' in line
    (line,) = faults(HEAD + "A1,1,2,,\n", BARE)
    assert "makes no plate" in line


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "found an empty file"),
        ("# only a comment\n", "found an empty file"),
        (HEAD, "at least one measurement"),
        (HEAD + "A1,,,,\n", "at least one measurement"),
        ("A1,12.3,45.6\n", "a row that names the columns"),
        ("what,x,y,dimeter\nA1,1,2,3\n", 'did you mean "diameter"?'),
        ("what,x,x,y\nA1,1,2,3\n", "each column once"),
        (HEAD + "A1,12,30,45,60,\n", "decimals are written with a point"),
        (HEAD + 'A1,"12,30",45.6,,\n', "write decimals with a point"),
        (HEAD + 'A1,"12.3,45.6\n', "quotes that close"),
        (HEAD + 'A1,"12.3"4,45.6\n', "the end of the cell after its quotes"),
        (HEAD + "A1,12.3,45.6,,\nA1,12.3,45.6,,\n", "it stands in line 2 already"),
        (HEAD + "S2L,,,,20\nS2L,,,,20\n", "at most one piece"),
        (HEAD + "thickness,,,,2\nthickness,,,,2\n", "the thickness once"),
        (HEAD + "A1,12.3,45.6,-4.8,\n", "above 0"),
        (HEAD + "S1,,,,0\n", "above 0"),
        (HEAD + "A1,12.3,45.6,,9\n", "a hole has no length"),
        (HEAD + "A1,,,4.9,\n", '"x" and "y" of its centre'),
    ],
)
def test_each_fault_says_what_to_do(text, says):
    assert any(says in line for line in faults(text))


@pytest.mark.parametrize(
    ("text", "drawn", "says"),
    [
        ("A1,0.484,1.796,,", DRAWN, 'Write the unit with it: "0.484 in"'),
        ("A1,12.3,45.6,,", INCH, 'Write the unit with it: "12.3 mm"'),
        ("S1,,,,0.5", DRAWN, 'Write the unit with it: "0.5 in"'),
        ("S1,,,,127", DRAWN, "is the decimal point where it should be?"),
    ],
)
def test_a_slip_of_unit_or_point_is_noticed(text, drawn, says):
    assert any(says in line for line in faults(HEAD + text + "\n", drawn))


def test_one_figure_ten_times_off_among_right_ones_is_read_and_judged():
    """A hole may truly be there: 11.23 where 112.3 is drawn."""
    assert read_measured_text(HEAD + "B1,11.23,45.6,,\n", DRAWN).holes[0].at == (11.23, 45.6)


def test_exchanged_x_and_y_are_no_slip_of_the_point():
    """4.5 and 45 in turn are ten times each other."""
    tall = Drawn("p", "mm", (DrawnHole("A1", (4.5, 45.0), 5.0), DrawnHole("B1", (4.4, 44.0), 5.0)))
    part = read_measured_text(HEAD + "A1,45,4.5,,\nB1,44,4.4,,\n", tall)
    assert [hole.at for hole in part.holes] == [(45.0, 4.5), (44.0, 4.4)]


def test_a_whole_form_in_another_unit_gets_one_message_at_its_heading():
    (line,) = faults("what,x in,y in,diameter in\nA1,12.3,45.6,4.85\nB1,112.3,45.6,4.85\n", INCH)
    assert line.startswith("m.csv:1:6: expected figures in inches, found 6 of 6 figures 25.4 times too large")
    assert "change the heading to x mm, y mm and diameter mm" in line
    (line,) = faults("what,x,y\nA1,1.23,4.56\nB1,11.23,4.56\n")
    assert "change the heading to x cm and y cm" in line


def test_a_line_that_names_the_separator_and_centimetres_are_read():
    """Spreadsheets write sep=; first; 1.23 cm is 12.3 mm."""
    part = read_measured_text("sep=;\nwhat;x cm;y (cm)\nA1;1,23;4.56\n", DRAWN)
    assert part.holes == (MeasuredHole("A1", (12.3, 45.6), None, 3),)


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"PK\x03\x04rest of a spreadsheet", "save it as CSV"),
        ("what,x\n".encode("utf-16"), "UTF-16"),
        (b"what,x,y\nA1,\xff1,2\n", "the byte 0xff"),
        (b"what,x\nA1,\0", "a zero byte"),
    ],
)
def test_files_that_are_no_text(tmp_path: Path, data: bytes, says: str):
    path = tmp_path / "m.csv"
    path.write_bytes(data)
    with pytest.raises(RecipeFaults, match=says):
        read_measured(path, DRAWN)


def test_no_file_a_folder_and_one_too_large(tmp_path: Path):
    (tmp_path / "other.csv").write_text(HEAD)
    with pytest.raises(RecipeFaults, match=r'beside it are "other.csv"'):
        read_measured(tmp_path / "m.csv", DRAWN)
    with pytest.raises(RecipeFaults, match="a folder"):
        read_measured(tmp_path, DRAWN)
    (tmp_path / "large.csv").write_bytes(b"x" * (300 * 1024))
    with pytest.raises(RecipeFaults, match="at most 256 KB"):
        read_measured(tmp_path / "large.csv", DRAWN)


@given(st.binary(max_size=200))
@settings(deadline=None, max_examples=150)
def test_no_bytes_give_a_traceback(tmp_path_factory: pytest.TempPathFactory, data: bytes):
    path = tmp_path_factory.getbasetemp() / "any.csv"
    path.write_bytes(data)
    with pytest.raises(RecipeFaults):
        read_measured(path, DRAWN)


@given(st.lists(st.lists(st.text(alphabet='aA1,;"\n\t .#-±x', max_size=6), max_size=6), max_size=6))
@settings(deadline=None, max_examples=150)
def test_no_cells_give_a_traceback(table: list[list[str]]):
    text = HEAD + "\n".join(",".join(row) for row in table)
    wrong: tuple[Fault, ...] = ()
    try:
        part = read_measured_text(text, DRAWN)
    except RecipeFaults as caught:
        wrong = caught.faults
    assert wrong or part.holes or part.lengths or part.thickness_mm
    assert all(fault.line >= 1 and fault.column >= 1 for fault in wrong)


@given(
    st.lists(
        st.lists(st.text(alphabet="aé,\"\n '", min_size=0, max_size=5), min_size=2, max_size=4),
        min_size=1,
        max_size=5,
    )
)
@settings(deadline=None, max_examples=150)
def test_cells_are_read_as_rfc_4180_has_them(table: list[list[str]]):
    """Python's own csv module writes them; only blanks at the ends of a cell and empty rows are dropped."""
    text = io.StringIO()
    csv.writer(text, quoting=csv.QUOTE_ALL).writerows(table)
    wrong: list[object] = []
    found = [[cell.text for cell in row] for row in rows(text.getvalue(), ",", "m.csv", wrong)]  # type: ignore[arg-type]
    wanted = [[cell.strip() for cell in row] for row in table]
    assert wrong == []
    assert found == [row for row in wanted if any(row)]


def test_the_form_comes_back_as_it_was_filled_in():
    """Written, every cell filled by another CSV writer, read: each hole and each piece with its value."""
    lines = measuring_form(DRAWN).decode("utf-8").splitlines()
    comments = [line for line in lines if line.startswith("#")]
    table = list(csv.reader(line for line in lines if not line.startswith("#")))
    assert comments
    assert [row[0] for row in table[1:]] == ["A1", "B1", "thickness", "S1", "S1", "S2L", "plus or minus"]
    assert {len(row) for row in table} == {10}
    for row in table[1:3]:
        row[1:4] = row[5:8]
    for row in table[3:6]:
        row[4] = row[8]
    filled = io.StringIO()
    csv.writer(filled).writerows(table)
    part = read_measured_text("\n".join(comments) + "\n" + filled.getvalue(), DRAWN)
    assert [(hole.label, hole.at, hole.diameter_mm) for hole in part.holes] == [
        ("A1", (12.3, 45.6), 4.85),
        ("B1", (112.3, 45.6), 4.85),
    ]
    assert [(one.mark, one.length_mm) for one in part.lengths] == [("S1", 12.7), ("S1", 12.7)]
    assert part.thickness_mm == 2.0


def test_an_empty_form_is_refused_and_an_inch_form_says_inches():
    with pytest.raises(RecipeFaults, match="nothing filled in"):
        read_measured_text(measuring_form(INCH).decode(), INCH)
    assert "what,x in,y in,diameter in,length in,drawn x in" in measuring_form(INCH).decode()


def test_typed_measurements():
    part = measured_typed(["a1=12.31,45.58", "B1 = 112,2; 45,7; 0.191 in"], ["S1=12.72", "S1=1/2 in"], DRAWN)
    assert [hole.at for hole in part.holes] == [(12.31, 45.58), (112.2, 45.7)]
    assert part.holes[1].diameter_mm == pytest.approx(4.8514)
    assert [one.length_mm for one in part.lengths] == [12.72, 12.7]


@pytest.mark.parametrize(
    ("holes", "bushings", "says"),
    [
        (["A1"], [], "--hole:1:1: expected LABEL=X,Y"),
        (["A1=12.3"], [], '"y" of its centre'),
        (["A1=12,30,45,60"], [], "semicolons part the figures"),
        (["A1="], [], "the figures are missing"),
        (["=1,2"], [], "LABEL=X,Y"),
        (["A11=1,2"], [], 'did you mean "A1"?'),
        ([], ["S1"], "--bushing:1:1: expected MARK=LENGTH"),
        ([], ["S1=12.7,3"], "expected MARK=LENGTH"),
        ([], ["S1=12.7", "S1=12.7", "S1=12.7"], "--bushing:3:1: S1: expected at most 2 pieces"),
        (["S1=1,2"], [], "a bushing has a length alone"),
        ([], ["A1=12"], "a hole has no length"),
        ([], ["S1=x"], "--bushing:1:4: S1: expected a length, about 12.70 mm"),
    ],
)
def test_typed_faults(holes, bushings, says):
    with pytest.raises(RecipeFaults) as caught:
        measured_typed(holes, bushings, DRAWN)
    assert says in "\n".join(fault.text() for fault in caught.value.faults)


def test_what_is_typed_stands_for_what_the_file_says():
    file = read_measured_text(HEAD + "A1,12.3,45.6,,\nB1,112.3,45.6,,\nS1,,,,12.6\nS1,,,,12.7\n", DRAWN)
    part = together(file, measured_typed(["B1=112.4,45.6"], ["S1=12.8"], DRAWN))
    assert {hole.label: hole.at[0] for hole in part.holes} == {"A1": 12.3, "B1": 112.4}
    assert [one.length_mm for one in part.lengths] == [12.8]
