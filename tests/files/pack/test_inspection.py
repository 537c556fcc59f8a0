"""The inspection page as it is printed: one page for an ordinary bay, and no page without work on it."""

from __future__ import annotations

import io
from dataclasses import replace

import pytest
from files.pack.packed_bays import THREE, bay
from pypdf import PdfReader

from clampwright.files.pack.bay import Bay
from clampwright.files.pack.inspection import inspection_files

PLATES = ("coil-plate", "coil-plate-too-narrow", "two-tube-minimum")
MANY = (*THREE, "two-tube-minimum", "plain-pair", "bundle-on-firewall", "two-tubes-by-tape")


def pages(of: Bay) -> dict[str, list[str]]:
    """Text of each page, by file."""
    return {
        file.name: [page.extract_text() for page in PdfReader(io.BytesIO(file.data)).pages]
        for file in inspection_files(of)
    }


def without_failures(of: Bay) -> Bay:
    """The bay as if no check failed."""
    jobs = [replace(j, findings=tuple(f for f in j.findings if f.verdict != "fail")) for j in of.jobs]
    return Bay(tuple(jobs))


@pytest.mark.parametrize("names", [THREE, PLATES], ids=["three kinds", "three plates on four clamps each"])
def test_three_recipes_go_on_one_page_of_either_paper(names: tuple[str, ...]) -> None:
    found = pages(without_failures(bay(*names)))
    assert set(found) == {"inspection-letter.pdf", "inspection-a4.pdf"}
    for (text,) in found.values():
        assert all(name in text for name in names)
        for words in ("experimental, amateur-built", "not judged", "No pull test loads", "nothing was added"):
            assert words in text, words


def test_every_page_has_clamps_or_bolts_to_look_at() -> None:
    for texts in pages(bay(*MANY)).values():
        assert len(texts) > 1
        assert all("MS21919" in text or "AN3-" in text for text in texts)
        assert "experimental, amateur-built" in texts[0]
