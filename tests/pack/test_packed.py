"""A pack of three recipes as a shop unpacks it: hashes, names, read-me, lists and drawings agree."""

from __future__ import annotations

import csv
import hashlib
import io
import json
import re
from pathlib import Path
from typing import Any

import pytest
from pack.packs import THREE, Unpacked, packed
from pypdf import PdfReader

RESERVED = {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(1, 10))}
"""Names of devices (Microsoft: Naming Files, Paths, and Namespaces)."""
FOLDERS = {"drawings", "step", "fit-check", "cutting", "lists", "inspection", "findings"}
READ_ME = "READ-ME-FIRST.txt"


def rows(pack: Unpacked, path: str) -> list[dict[str, str]]:
    """A list as a spreadsheet reads it."""
    return list(csv.DictReader(io.StringIO(pack.text(path), newline="")))


def manifest(pack: Unpacked) -> Any:
    """Its manifest."""
    return json.loads(pack.files["manifest.json"])


def pdf_text(data: bytes) -> str:
    """All text of a PDF."""
    return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages)


def test_the_manifest_lists_every_file_with_its_hash(three: Unpacked) -> None:
    listed = {entry["name"]: entry for entry in manifest(three)["files"]}
    assert set(listed) == set(three.files) - {"manifest.json"}
    for path, entry in listed.items():
        assert entry["sha256"] == hashlib.sha256(three.files[path]).hexdigest()
        assert entry["bytes"] == len(three.files[path]) > 0
        assert entry["about"]


def test_the_manifest_says_what_it_was_made_from(three: Unpacked) -> None:
    found = manifest(three)
    assert [recipe["name"] for recipe in found["recipes"]] == sorted(THREE)
    assert all(re.fullmatch(r"[0-9a-f]{16}", recipe["digest"]) for recipe in found["recipes"])
    assert found["pack"]["do_not_make"] is False
    assert found["versions"]["clampwright"]
    assert not re.search(rb"20\d\d-\d\d-\d\d", three.files["manifest.json"])


def test_names_serve_on_every_system(three: Unpacked) -> None:
    assert {path.split("/")[0] for path in three.files if "/" in path} == FOLDERS
    assert len({path.casefold() for path in three.files}) == len(three.files)
    for path in three.files:
        whole = f"{three.top}/{path}"
        assert len(whole) <= 140
        for word in whole.split("/"):
            assert re.fullmatch(r"[A-Za-z0-9_][A-Za-z0-9._+-]*[A-Za-z0-9_]", word), path
            assert word.split(".")[0].casefold() not in RESERVED


def test_the_read_me_names_every_file_and_none_that_is_missing(three: Unpacked) -> None:
    text = three.text(READ_ME)
    named = set(re.findall(r"(?<![\w.-])((?:[a-z-]+/)?[A-Za-z0-9][\w+-]*\.(?:[a-z0-9]+))\b", text))
    named = {name for name in named if name.rsplit(".", 1)[1] in {p.rsplit(".", 1)[1] for p in three.files}}
    named -= {"ap242.step", "ap214.step"}
    assert set(three.files) <= named
    assert {name for name in named if "/" in name} <= set(three.files)
    folders = set(re.findall(r"(?m)^([a-z-]+)/ ", text))
    assert folders == FOLDERS


def test_the_read_me_is_plain_text_for_any_editor(three: Unpacked) -> None:
    data = three.files[READ_ME]
    text = data.decode("ascii")
    assert data.count(b"\n") == data.count(b"\r\n") > 60
    assert max(len(line) for line in text.splitlines()) <= 110
    assert "?" not in re.sub(r"(?m)^[A-Z][^?\n]*\?(?: [A-Z][^?\n]*\?)?\r?$", "", text), "a letter was lost"


def test_the_read_me_answers_what_a_shop_asks(three: Unpacked) -> None:
    text = three.text(READ_ME)
    for words in (
        *("HOW MANY OF WHAT", "UNITS, TOLERANCES", "WHICH GOVERNS", "The PDF drawing governs"),
        *("another material", "final size", "Bend radius?", "Edges?", "grain", "millimetres", "WHO TO ASK"),
        *(
            "name ____",
            "phone ____",
            "experimental, amateur-built",
            "No hole goes into a tube",
            "NOT VERIFIED",
        ),
    ):
        assert words in text, words
    assert "DO NOT MAKE" not in text


def test_what_nobody_measured_is_listed(three: Unpacked) -> None:
    text = re.sub(r"\s+", " ", three.text(READ_ME))
    for name in THREE:
        found = json.loads(three.files[f"findings/{name}-findings.json"])
        unknown = {f["code"] for f in found["findings"] if f["verdict"] == "unknown"}
        assert unknown
        for code in unknown:
            assert re.search(rf"not verified: {name}: [^:]*\({code}\)", text), (name, code)


def test_every_part_has_its_files_and_they_are_there(three: Unpacked) -> None:
    parts = rows(three, "lists/parts-list.csv")
    assert {part["part_number"] for part in parts} == {"coil-plate-plate", "T1", "T2", "T3", "T4"}
    for part in parts:
        files = part["files"].split("; ")
        assert set(files) <= set(three.files)
        kinds = {file.split("/")[0] for file in files}
        flat = part["part_number"] == "coil-plate-plate"
        assert kinds == {"drawings", "step", "fit-check", *(["cutting"] if flat else [])}, part
        drawn = [file for file in files if file.startswith("drawings/")]
        assert {file.rsplit(".", 1)[1] for file in drawn} == {"pdf", "dxf"}
        pdfs = [pdf_text(three.files[file]) for file in drawn if file.endswith(".pdf")]
        assert all(part["part_number"] in text for text in pdfs)


def test_quantities_agree_from_list_to_list(three: Unpacked) -> None:
    parts = {row["part_number"]: row for row in rows(three, "lists/parts-list.csv")}
    for row in rows(three, "lists/cut-list.csv"):
        if row["line"] == "piece":
            assert parts[row["mark"]]["quantity"] == row["quantity"]
    made = {part["number"]: str(part["quantity"]) for part in manifest(three)["parts"]}
    assert made == {number: row["quantity"] for number, row in parts.items()}
    text = three.text(READ_ME)
    for number, row in parts.items():
        assert re.search(rf"(?m)^{number} +{row['quantity']} ", text)


def test_stock_to_buy_is_on_the_order_list(three: Unpacked) -> None:
    order = rows(three, "lists/order-list.csv")
    stocks = {row["part"]: row["to_order"] for row in order if row["kind"] == "bar stock"}
    cut = {r["stock"]: r["quantity"] for r in rows(three, "lists/cut-list.csv") if r["line"] == "stock"}
    assert stocks == cut
    assert [row["to_order"] for row in order if row["kind"] == "sheet stock"] == ["1"]


def test_the_inspection_page_has_every_clamp_bolt_and_torque(three: Unpacked) -> None:
    for paper in ("letter", "a4"):
        text = pdf_text(three.files[f"inspection/inspection-{paper}.pdf"])
        for name in THREE:
            assert name in text
            layout = json.loads(three.files[f"findings/{name}-findings.json"])
            assert layout["recipe"]["digest"] in text
        for words in (
            "upper-left",
            "lower-left",
            "oil hose",
            "MS21919WCJ12",
            "20 to 25 in-lb",
            "12 to 15 in-lb",
        ):
            assert words in text, words
        assert "exhaust" in text
        assert "No pull test loads are given" in text


def test_the_same_bytes_wherever_whenever_and_in_whichever_order(three: Unpacked, tmp_path: Path) -> None:
    """Another process: hash seed, clock's zone, working folder, zip's name and order of recipes differ."""
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    again = packed(
        elsewhere / "other name.zip",
        THREE[::-1],
        cwd=elsewhere,
        PYTHONHASHSEED="4242",
        TZ="Pacific/Auckland",
        LC_ALL="C",
    )
    differ = [path for path in three.files if three.files[path] != again.files.get(path)]
    assert differ == []
    assert again.data == three.data


def test_nothing_of_this_machine_is_in_it(three: Unpacked) -> None:
    for path, data in three.files.items():
        for word in (str(Path.home()), str(Path(__file__).parents[2]), "/tmp/"):
            if len(word) > 2:
                assert word.encode() not in data, (path, word)


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_pages_are_of_the_paper_that_they_are_named_for(three: Unpacked, paper: str) -> None:
    sizes = {"letter": (612.0, 792.0), "a4": (595.276, 841.89)}
    for page in PdfReader(io.BytesIO(three.files[f"inspection/inspection-{paper}.pdf"])).pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(
            sizes[paper], abs=0.01
        )
