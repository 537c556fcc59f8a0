"""A pack of a part that must not be made: every single file in it says so."""

from __future__ import annotations

import io
import json
import re
import zipfile
from dataclasses import replace
from pathlib import Path

import ezdxf
import pytest
from pack.packs import THREE, TOO_NARROW, Unpacked, packed
from pypdf import PdfReader
from solids.hand_layout import hand_layout

from clampwright.checks.all_checks import check
from clampwright.checks.finding import Finding
from clampwright.files.from_solids import FromSolids
from clampwright.files.pack.bay import Bay
from clampwright.files.pack.everything import pack_files
from clampwright.layout.placed import Hole
from clampwright.make import Checked
from clampwright.pack import WillNotPack, bay_of

STOP = re.compile(r"DO NOT (MAKE|DRILL|INSTALL|CUT)")


def says_stop(path: str, data: bytes) -> bool:
    """Whether a file, read as whoever opens it does, says that the part is not to be made."""
    kind = path.rsplit(".", 1)[1]
    if kind == "pdf":
        pages = [page.extract_text() for page in PdfReader(io.BytesIO(data)).pages]
        return bool(pages) and all(STOP.search(text) for text in pages)
    if kind == "dxf":
        document = ezdxf.read(io.StringIO(data.decode("utf-8")))
        properties = " ".join(text for _, text in document.header.custom_vars.properties)
        return STOP.search(properties) is not None
    if kind == "step":
        header = data.decode("ascii").split("ENDSEC;")[0]
        described = re.search(r"FILE_DESCRIPTION\(\((.*?)\),", header, re.DOTALL)
        return described is not None and STOP.search(described[1]) is not None
    if kind == "3mf":
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            model = next(name for name in archive.namelist() if name.endswith(".model"))
            return STOP.search(archive.read(model).decode("utf-8")) is not None
    if kind == "stl":
        return STOP.search(data[:80].decode("ascii")) is not None
    if kind == "csv":
        _, *lines = data.decode("utf-8").splitlines()
        return bool(lines) and all(STOP.search(line) for line in lines)
    return STOP.search(data.decode("utf-8")) is not None


RECORDS = re.compile(r"findings/.*\.(json|csv)")
"""What the checks measured: said by their verdicts."""


def test_every_file_says_so(failing: Unpacked) -> None:
    silent = [p for p, data in failing.files.items() if not RECORDS.fullmatch(p) and not says_stop(p, data)]
    assert silent == []
    kinds = {path.rsplit(".", 1)[1] for path in failing.files}
    assert kinds == {"pdf", "dxf", "step", "stl", "3mf", "csv", "json", "txt"}


def test_the_manifest_says_so(failing: Unpacked) -> None:
    found = json.loads(failing.files["manifest.json"])
    assert found["pack"]["do_not_make"] is True
    assert found["verdict"] == "fail"
    (recipe,) = found["recipes"]
    assert (recipe["name"], recipe["verdict"]) == (TOO_NARROW, "fail")
    assert recipe["failing"]


def test_the_findings_say_so(failing: Unpacked) -> None:
    found = json.loads(failing.files[f"findings/{TOO_NARROW}-findings.json"])
    assert found["verdict"] == "fail"
    assert found["count"]["fail"] >= 1


def test_the_read_me_says_it_first_and_why(failing: Unpacked) -> None:
    text = failing.text("READ-ME-FIRST.txt")
    assert "DO NOT MAKE" in "\n".join(text.splitlines()[:6])
    flat = re.sub(r"[\s*]+", " ", text)
    found = json.loads(failing.files[f"findings/{TOO_NARROW}-findings.json"])
    for finding in found["findings"]:
        if finding["verdict"] == "fail":
            assert finding["code"] in flat


def test_a_good_pack_says_it_nowhere(three: Unpacked) -> None:
    loud = [
        path for path, data in three.files.items() if not RECORDS.fullmatch(path) and says_stop(path, data)
    ]
    assert loud == []


def test_beside_a_good_recipe_only_what_is_bad_or_shared_says_so(tmp_path: Path) -> None:
    mixed = packed(tmp_path / "bay.zip", [TOO_NARROW, THREE[2]], anyway=True)
    drawn = {path: data for path, data in mixed.files.items() if path.endswith((".pdf", ".dxf"))}
    loud = {path for path, data in drawn.items() if says_stop(path, data)}
    own = {path for path in drawn if TOO_NARROW in path}
    assert own <= loud
    assert "inspection/inspection-a4.pdf" in loud
    good = [path for path in mixed.files if path.startswith("step/oil-hose")]
    assert good
    assert not any(says_stop(path, mixed.files[path]) for path in good)


def test_where_no_part_can_be_made_there_is_nothing_to_make_it_from() -> None:
    """The example plate with one hole more that meets another: contours that cross."""
    layout = hand_layout()
    more = Hole("X1", "lightening", "", layout.holes[0].at, 12.0, "", "hole saw", "")
    crossing = replace(layout, holes=(*layout.holes, more))
    seen: list[str] = []

    def refuse(bay: Bay) -> None:
        seen.extend(finding.code for job in bay.failing for finding in job.failing)

    made = pack_files(bay_of([Checked(crossing, check(crossing))]), lambda words: None, refuse)
    assert "CUT-3" in seen
    (job,) = made.bay.jobs
    assert any("overlap" in why for why in job.no_part_because)
    to_make_from = ("drawings", "step", "cutting", "fit-check")
    assert not [path for path in made.files if path.split("/")[0] in to_make_from]
    with zipfile.ZipFile(io.BytesIO(made.data)) as archive:
        text = archive.read(f"{layout.recipe.name}/READ-ME-FIRST.txt").decode("ascii")
    assert "No part of it can be made" in text
    assert "all parts are bought" not in text
    assert "The PDF drawing governs" not in text


def test_what_only_the_solids_show_stops_a_pack_too(monkeypatch: pytest.MonkeyPatch) -> None:
    """A failing finding of the solids reaches the last look before anything is drawn."""
    failing = Finding("SOLID-1", "clearance", "A1", "fail", 0.0, 3.0, "mm", "They touch.", "Move 3 mm.", ())
    found = FromSolids((), (failing,))
    monkeypatch.setattr("clampwright.files.exact.exact_findings", lambda layout, bodies: found)

    def refuse(bay: Bay) -> None:
        assert [job.failing for job in bay.failing] == [(failing,)]
        raise WillNotPack(())

    layout = hand_layout()
    with pytest.raises(WillNotPack):
        pack_files(bay_of([Checked(layout, ())]), lambda words: None, refuse)
