"""Plates and pieces with sizes for which ISO 2768-1 has no deviation: built and packed, limits printed."""

from __future__ import annotations

import io
import zipfile
from pathlib import Path

from pypdf import PdfReader

from clampwright.make import build_recipe
from clampwright.pack import pack_recipes

PLATE = """
kind = "accessory plate"
name = "near-edge"
units = "mm"
measuring.error = 0.1
shop = { tolerances = "v" }
clamps.at = [
  { tube = 'low', station = 150, reach = 20, seat = 12 },
  { tube = 'low', station = 350, reach = 20, seat = 12 },
  { tube = 'high', station = 250, reach = 20, seat = 12 },
]
structure.tubes.low = { start = [0, 0, 0], end = [500, 0, 0], od = 19.05 }
structure.tubes.high = { start = [0, 150, 0], end = [500, 150, 0], od = 19.05 }
carries = [{ name = "relay", mass = "0.1 kg", holes = [[-15, 0], [15, 0]], bolt = "#8", at = [0, -60] }]
plate = { thickness = 0.4, margin = 2.5 }
"""


def recipe(to: Path) -> Path:
    """A plate of 0.4 mm whose #8 holes lie 2.5 mm off the lower datum edge."""
    path = to / "near-edge.toml"
    path.write_text(PLATE, "utf-8")
    return path


def drawn(data: bytes) -> str:
    """All text of a drawing in one line."""
    return " ".join(" ".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages).split())


def test_a_build_prints_limits_where_the_table_gives_none(tmp_path: Path) -> None:
    """Class v begins above 3 mm: ISO 2768-1, table 1."""
    built = build_recipe(recipe(tmp_path), tmp_path / "out")
    assert built.no_part_because == ()
    text = drawn((built.folder / "near-edge-plate-drawing.pdf").read_bytes())
    assert "where ISO 2768-v gives none" in text.replace("\N{NO-BREAK SPACE}", " ")


def test_a_pack_is_made_of_it_too(tmp_path: Path) -> None:
    pack_recipes([recipe(tmp_path)], tmp_path / "bay.zip", True)
    with zipfile.ZipFile(tmp_path / "bay.zip") as archive:
        (name,) = [n for n in archive.namelist() if "/drawings/" in n and n.endswith(".pdf")]
        assert "where ISO 2768-v gives none" in drawn(archive.read(name))
