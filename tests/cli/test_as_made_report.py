"""The report on finished parts: from a filled form to what to do, in words and columns."""

from __future__ import annotations

import csv
import io
from pathlib import Path

import pytest

from clampwright.verify import form_of, verify_recipe
from clampwright_cli.as_made_report import report

RECIPES = Path(__file__).parents[2] / "recipes"
COIL = RECIPES / "coil-plate.toml"


def filled(recipe: Path, **changes: dict[str, str]) -> str:
    """The form with every drawn figure copied over, some changed."""
    lines = form_of(recipe).decode("utf-8").splitlines()
    rows = list(csv.reader(line for line in lines if not line.startswith("#")))
    columns = {name.split()[0]: place for place, name in enumerate(rows[0][:5])}
    for row in rows[1:]:
        row[1:5] = row[5:9]
        for column, value in changes.get(row[0], {}).items():
            row[columns[column]] = value
        if row[0] == "plus or minus":
            row[4] = "0.02 mm"
    text = io.StringIO()
    csv.writer(text).writerows(rows)
    return text.getvalue()


def told(tmp_path: Path, recipe: Path, detail: str = "usual", **changes: dict[str, str]) -> str:
    path = tmp_path / "measured.csv"
    path.write_text(filled(recipe, **changes), encoding="utf-8")
    return report(verify_recipe(recipe, path), detail)


@pytest.mark.parametrize("name", ["coil-plate", "separator-bushings", "oil-hose-stand-off"])
def test_a_form_filled_with_what_is_drawn_passes(tmp_path: Path, name: str) -> None:
    text = told(tmp_path, RECIPES / f"{name}.toml")
    assert "The parts fit as measured." in text
    assert "FAIL" not in text
    assert "The kit maker's" in text


def test_a_hole_drilled_off_is_named_with_what_to_do(tmp_path: Path) -> None:
    text = " ".join(told(tmp_path, COIL, C3={"y": "3.665"}).split())
    assert "C3 is left out of that for coil pack: it alone is to blame." in text
    assert "File hole C3 0.040 in toward the bottom edge" in text
    assert "AN970-3" in text
    assert "do not draw it together with the bolts" in text


def test_a_plate_marked_out_askew_is_shifted_back(tmp_path: Path) -> None:
    moved = {"A1": {"x": "5.5825"}, "A2": {"x": "0.4731"}, "B1": {"x": "5.5669"}, "B2": {"x": "0.4575"}}
    text = told(tmp_path, COIL, **moved)
    assert "Before anything else is drilled or transferred, shift the plate 0.020 in left." in text


def test_columns_stand_under_their_heads_and_no_line_is_endless(tmp_path: Path) -> None:
    for recipe in (COIL, RECIPES / "separator-bushings.toml"):
        for line in told(tmp_path, recipe, "all", D2={"y": "3.26"}).splitlines():
            assert len(line) <= 130
    text = told(tmp_path, COIL)
    heads = next(line for line in text.splitlines() if "off its bolt" in line)
    row = next(line for line in text.splitlines() if line.startswith("  A1 ") and "5.5625" in line)
    for head in ("measured in", "off its bolt", "forgiven"):
        at = heads.index(head)
        assert row[at - 1] == " "
        assert row[at] != " "


def test_what_is_not_measured_is_unknown(tmp_path: Path) -> None:
    done = verify_recipe(COIL, None, ["A1=5.5625,0.4375"], ["S1=0.25"])
    text = " ".join(report(done, "usual").split())
    assert done.verdict == "unknown"
    assert "Nobody measured A2, B1, B2, C1, C2, C3, C4, D1, D2, S1 (1 of 2 pieces), S2, S2L" in text
    assert "1 hole, 1 bushing measured to ± 0.006 in, a default nobody stated" in text
