"""Where the geometry gives no part: sheets and records all the same, nothing to cut or print from."""

from __future__ import annotations

import io
import json
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader
from solids.hand_layout import hand_layout

from clampwright.checks.all_checks import check
from clampwright.files import solid_files
from clampwright.files.everything import with_no_part, write_everything
from clampwright.files.shop_drawings import DrawingDiffers, NotDrawn
from clampwright.files.step_read_back import NotAsMade
from clampwright.files.stl import NotWatertight
from clampwright.layout.outline import Line, Outline
from clampwright.layout.placed import Hole, PlateLayout
from clampwright.quantities import Vec2
from clampwright.solids.exchange import NotTransferred

LAYOUT = hand_layout()
MACHINE = (".step", ".stl", ".dxf")


def with_hole(at: Vec2) -> PlateLayout:
    """The hand layout with one hole more."""
    more = Hole("X1", "lightening", "", at, 12.0, "", "hole saw", "")
    return replace(LAYOUT, holes=(*LAYOUT.holes, more))


def with_short_piece() -> PlateLayout:
    """The hand layout with a side of its outline broken 0.02 mm before its end."""
    first, *others = LAYOUT.outline.pieces
    assert isinstance(first, Line)
    share = 1 - 0.02 / first.length_mm
    a, b = first.start, first.end
    middle = (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))
    return replace(LAYOUT, outline=Outline((Line(a, middle), Line(middle, b), *others)))


def built(layout: PlateLayout, out: Path) -> tuple[Path, list[str]]:
    """The folder of a build, and the reasons in its manifest."""
    made = write_everything(layout, check(layout), out, lambda _: None)
    assert {path.name for path in made.folder.iterdir()} == set(made.files)
    reasons: list[str] = json.loads((made.folder / "manifest.json").read_bytes())["no_part_because"]
    assert tuple(reasons) == made.no_part_because
    return made.folder, reasons


def assert_only_for_people(folder: Path) -> None:
    """No file for a machine, none drawn from a solid; every page of every sheet says not to drill."""
    names = {path.name for path in folder.iterdir()}
    assert not [name for name in names if name.endswith(MACHINE)]
    assert {name for name in names if name.endswith(".svg")} == {"coil-plate-drill-template.svg"}
    assert {"coil-plate-hardware.csv", "coil-plate-layout.json", "coil-plate-findings.json"} <= names
    sheets = [path for path in folder.iterdir() if path.suffix == ".pdf"]
    kinds = ("drill-template", "drill-sheet", "bushing-cut-sheet", "installation", "tube-wraps")
    assert len(sheets) == len(kinds) * len(LAYOUT.recipe.template.papers) > 0
    for sheet in sheets:
        never = "DO NOT DRILL" if "drill" in sheet.name else "DO NOT"
        for page in PdfReader(io.BytesIO(sheet.read_bytes())).pages:
            assert never in page.extract_text(), sheet.name
    assert json.loads((folder / "manifest.json").read_bytes())["verdict"] == "fail"
    assert json.loads((folder / "coil-plate-findings.json").read_bytes())["verdict"] == "fail"


@pytest.mark.parametrize(
    ("at", "says"),
    [
        (LAYOUT.holes[0].at, "holes A1 and X1 overlap"),
        ((60.0, 0.5), "hole X1 crosses the edge"),
        ((60.0, -40.0), "hole X1 lies outside the plate"),
    ],
)
def test_holes_that_meet_something_leave_no_part(at: Vec2, says: str, tmp_path: Path) -> None:
    folder, reasons = built(with_hole(at), tmp_path)
    assert any(says in reason for reason in reasons), reasons
    assert_only_for_people(folder)


def test_a_contour_that_machines_do_not_follow_leaves_no_part(tmp_path: Path) -> None:
    folder, (reason,) = built(with_short_piece(), tmp_path)
    assert "is 0.02 mm long; machines follow 0.05 mm or more" in reason
    assert_only_for_people(folder)


def refuse(kind: Callable[[str], Exception]) -> Callable[..., object]:
    """Something that refuses its work."""

    def refusing(*_: object) -> object:
        raise kind("by hand")

    return refusing


@pytest.mark.parametrize(("what", "kind"), [("stl", NotWatertight), ("step_part", NotTransferred)])
def test_a_file_that_does_not_come_out_leaves_no_part(
    what: str, kind: Callable[[str], Exception], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(solid_files, what, refuse(kind))
    folder, reasons = built(LAYOUT, tmp_path)
    assert reasons == ["by hand"]
    assert_only_for_people(folder)
    findings = json.loads((folder / "coil-plate-findings.json").read_bytes())["findings"]
    assert findings[0]["code"] == "PART-1"
    assert "by hand" in findings[0]["says"]


def test_with_no_finding_at_all_the_missing_part_is_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(solid_files, "stl", refuse(NotWatertight))
    made = write_everything(LAYOUT, (), tmp_path, lambda _: None)
    folder = made.folder
    assert [finding.code for finding in made.findings] == ["PART-1"]
    (only,) = json.loads((folder / "coil-plate-findings.json").read_bytes())["findings"]
    assert (only["code"], only["verdict"], only["where"]) == ("PART-1", "fail", "plate")
    assert "by hand" in only["says"]
    assert_only_for_people(folder)


def test_a_fault_of_the_program_is_still_a_fault(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(solid_files, "stl", refuse(RuntimeError))
    with pytest.raises(RuntimeError, match="by hand"):
        write_everything(LAYOUT, (), tmp_path, lambda _: None)
    assert list(tmp_path.iterdir()) == []


def test_a_good_layout_has_its_parts_and_no_reason(tmp_path: Path) -> None:
    folder, reasons = built(LAYOUT, tmp_path)
    assert reasons == []
    assert {path.suffix for path in folder.iterdir()} >= set(MACHINE)
    assert {path.name for path in folder.iterdir() if path.suffix == ".svg"} == {
        "coil-plate-part.svg",
        "coil-plate-assembly.svg",
        "coil-plate-drill-template.svg",
    }


def test_a_fault_of_the_program_is_reported_and_no_change_of_the_recipe_is_asked_for() -> None:
    """A STEP file that is not what it was made from is nobody's outline."""
    (own,) = with_no_part((), (str(NotAsMade("volume differs")),), NotAsMade.own_fault)
    assert "Please report it" in own.change
    assert "outline" not in own.change
    (room,) = with_no_part((), (str(NotDrawn("no room")),), NotDrawn.own_fault)
    assert room.change.startswith("Change outline")
    assert DrawingDiffers.own_fault
