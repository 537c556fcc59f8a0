"""Files about measured structures: names, both papers, text that another reader finds, equal bytes."""

from __future__ import annotations

import io
import xml.etree.ElementTree as ElementTree
from dataclasses import replace

import pypdf
import pytest
from sheets.survey.measured_mounts import found, mount, solved, wanted

from clampwright.files.safe_names import safe_name
from clampwright.files.survey_files import form_files, found_files, solved_files
from clampwright.files.written import Written
from clampwright.structure.survey.model import Side

SURVEY = mount()
MADE = {
    "blank form": form_files(None, ()),
    "form": form_files(SURVEY, wanted(SURVEY)[:12]),
    "solved": solved_files(solved(SURVEY)),
    "loose": solved_files(solved(SURVEY, loose=True)),
    "found": found_files(found(8, "мотор рама.step")),
}


def text(file: Written) -> str:
    return "\n".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(file.data)).pages)


@pytest.mark.parametrize("made", MADE)
def test_names_are_plain_and_each_paper_is_there(made: str) -> None:
    names = [file.name for file in MADE[made]]
    assert len(set(names)) == len(names)
    assert [safe_name(name) for name in names] == names
    assert sum(name.endswith("-letter.pdf") for name in names) == 1
    assert sum(name.endswith("-a4.pdf") for name in names) == 1


def test_names_say_whose_they_are() -> None:
    assert [file.name for file in MADE["blank form"]] == ["survey-form-letter.pdf", "survey-form-a4.pdf"]
    assert [file.name for file in MADE["form"]] == [
        "oddlark-mount-form-letter.pdf",
        "oddlark-mount-form-a4.pdf",
    ]
    assert MADE["solved"][-1].name == "oddlark-mount-views.svg"


@pytest.mark.parametrize("made", MADE)
def test_pages_have_their_paper_and_their_count(made: str) -> None:
    """Sizes read back by pypdf, in points of 1/72 in."""
    for file in MADE[made]:
        if not file.name.endswith(".pdf"):
            continue
        pages = pypdf.PdfReader(io.BytesIO(file.data)).pages
        size = (612.0, 792.0) if "-letter" in file.name else (595.28, 841.89)
        assert dict(file.facts)["pages"] == len(pages)
        for page in pages:
            assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(size, abs=0.1)


def test_another_reader_finds_the_text() -> None:
    form = text(MADE["form"][1])
    for point in SURVEY.points:
        assert point.name in form
    assert "HOW TO MEASURE slanted tubes, alone" in form
    report = text(MADE["solved"][1])
    for tube in SURVEY.tubes:
        assert tube.name in report
    assert "DO NOT USE YET" in text(MADE["loose"][1])
    assert "TUBES FOUND, by number" in text(MADE["found"][1])


def test_a_form_says_that_no_more_is_needed_only_of_a_survey_that_holds() -> None:
    """Nothing may be wanted for another reason: what was measured is solved to know."""
    said = "Nothing more is needed"
    assert said in text(form_files(SURVEY, ())[0])
    for loose in (
        replace(SURVEY, measurements=()),
        replace(SURVEY, measurements=SURVEY.measurements[:9]),
        replace(SURVEY, datum=replace(SURVEY.datum, through=SURVEY.datum.origin)),
    ):
        assert said not in text(form_files(loose, ())[0])


def test_a_form_for_a_solved_survey_shows_it_where_it_is() -> None:
    bare = replace(SURVEY, points=tuple(replace(p, rough=None) for p in SURVEY.points))
    beside = Side("A", (1.0, 0.0, 0.0), "F1"), Side("B", (1.0, 0.0, 0.0), "F1")
    known = replace(bare, sides=beside)
    assert "A scheme: which points" not in text(form_files(known, ())[0])
    assert "A scheme: which points" in text(form_files(replace(known, measurements=()), ())[0])


@pytest.mark.parametrize("made", ["solved", "loose", "found"])
def test_pictures_are_well_formed(made: str) -> None:
    root = ElementTree.fromstring(MADE[made][-1].data)
    said = {each.text for each in root.iter("{http://www.w3.org/2000/svg}text")}
    assert ("from +z" if made == "found" else "from +z, above") in said
    assert ("8" if made == "found" else "ring-top") in said


def test_a_name_in_other_letters_becomes_a_plain_one() -> None:
    assert form_files(replace(SURVEY, name="мотор"), ())[0].name == "tubes-form-letter.pdf"


def test_the_same_bytes_twice() -> None:
    again = {"form": form_files(SURVEY, wanted(SURVEY)[:12]), "solved": solved_files(solved(SURVEY))}
    for name, files in again.items():
        assert [file.sha256 for file in files] == [file.sha256 for file in MADE[name]]
