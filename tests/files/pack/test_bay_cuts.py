"""The cut list of a bay: every bushing of every recipe comes out of its bars, no more than needed."""

from __future__ import annotations

import csv
import io
import math
import shutil
from collections import Counter
from pathlib import Path

import pytest
from files.pack.packed_bays import RECIPES, THREE, bay, checked

from clampwright.files.pack.bay import Bay
from clampwright.files.pack.bay_cuts import BayCuts, bay_cut_list, bay_cuts
from clampwright.files.pack.stock_lines import bar_lines
from clampwright.layout.shop.turned import turned
from clampwright.make import Checked, check_recipe
from clampwright.pack import bay_of
from clampwright.trade.tables import rule


def cuts_of(of: Bay) -> tuple[BayCuts, ...]:
    """The bars of a bay."""
    return bay_cuts(of, turned([job.layout for job in of.jobs]))


def rows(of: Bay) -> list[dict[str, str]]:
    """The list as a spreadsheet reads it."""
    text = bay_cut_list(of, cuts_of(of)).data.decode("utf-8")
    return list(csv.DictReader(io.StringIO(text, newline="")))


@pytest.mark.parametrize("sets", [1, 7])
def test_every_bushing_of_every_recipe_is_cut(sets: int) -> None:
    made = bay(*THREE, quantity=sets)
    wanted: Counter[str] = Counter()
    for name in THREE:
        for part in checked(name).layout.bushings:
            wanted[part.stock] += part.quantity * sets
    cut = Counter({each.stock: sum(len(bar.cuts) for bar in each.cuts.bars) for each in cuts_of(made)})
    assert cut == wanted


@pytest.mark.parametrize("sets", [1, 7, 40])
def test_bars_hold_their_pieces(sets: int) -> None:
    """Pieces, a saw cut between each two, facing on both ends: no longer than the bar, by plain sums."""
    facing = rule("bushing-facing").value
    for each in cuts_of(bay(*THREE, quantity=sets)):
        lengths = {group.number: group.length_mm for group in each.groups}
        for bar in each.cuts.bars:
            pieces = [cut.length_mm for cut in bar.cuts]
            assert pieces == pytest.approx([lengths[cut.mark] + facing for cut in bar.cuts])
            used = sum(pieces) + bar.kerf_mm * (len(pieces) - 1)
            assert used <= bar.length_mm + 1e-6
        per_mark = Counter(cut.mark for bar in each.cuts.bars for cut in bar.cuts)
        assert per_mark == {group.number: group.quantity for group in each.groups}
        whole = sum((group.length_mm + facing) * group.quantity for group in each.groups)
        assert len(each.cuts.bars) <= 2 * math.ceil(whole / each.cuts.bars[0].length_mm)


def test_recipes_share_a_bar() -> None:
    """Each recipe alone takes a bar of the 7/16 tube; together they fit on one."""
    both = cuts_of(bay("coil-plate", "separator-bushings"))
    (shared,) = (each for each in both if len(each.recipes) == 2)
    assert len(shared.cuts.bars) == 1
    alone = [cuts_of(bay(name)) for name in ("coil-plate", "separator-bushings")]
    assert sum(len(each.cuts.bars) for of in alone for each in of if each.stock == shared.stock) == 2


def test_the_list_says_whose_each_piece_is() -> None:
    found = rows(bay(*THREE))
    pieces = [row for row in found if row["line"] == "piece"]
    said = Counter[str]()
    for row in pieces:
        for own in row["for"].split("; "):
            name, count = own.split(": ")[0].split()[0], int(own.split(": ")[1].split(" at ")[0])
            said[name] += count
    assert said == {name: sum(p.quantity for p in checked(name).layout.bushings) for name in THREE}
    bars = [row for row in found if row["line"] == "bar"]
    assert sum(int(row["quantity"]) for row in bars) == sum(int(row["quantity"]) for row in pieces)


def test_bars_to_buy_are_the_bars_cut() -> None:
    made = cuts_of(bay(*THREE, quantity=9))
    lines = list(bar_lines(made, "in"))
    assert [(line.stock, line.pieces) for line in lines] == [(c.stock, len(c.cuts.bars)) for c in made]
    assert all(" in" in line.what for line in lines)


def test_failing_pieces_say_so() -> None:
    found = rows(bay("coil-plate-too-narrow"))
    assert {row["check"] for row in found} <= {"DO NOT MAKE: a check fails"}


def kerf_recipe(folder: Path, name: str, kerf: str) -> Checked:
    """The separator's bushings under another name, cut with another saw."""
    shutil.copy(RECIPES / "engine-mount.toml", folder)
    text = (RECIPES / "separator-bushings.toml").read_text(encoding="utf-8")
    text = text.replace('name = "separator-bushings"', f'name = "{name}"')
    path = folder / f"{name}.toml"
    path.write_text(f'{text}\n[bushings]\nkerf = "{kerf}"\n', encoding="utf-8")
    return check_recipe(path)


@pytest.mark.parametrize("wide_first", [False, True])
def test_the_wider_saw_cut_and_both_faces_count(tmp_path: Path, *, wide_first: bool) -> None:
    """By plain sums: each piece is its length and the facing; 2 mm between each two, and at the bar's end."""
    saws = ("2 mm", "1 mm") if wide_first else ("1 mm", "2 mm")
    both = bay_of(
        [kerf_recipe(tmp_path, name, kerf) for name, kerf in zip(("one", "two"), saws, strict=True)]
    )
    for each in cuts_of(both):
        lengths = {group.number: group.length_mm for group in each.groups}
        for bar in each.cuts.bars:
            assert bar.kerf_mm == pytest.approx(2.0)
            used = sum(lengths[cut.mark] + rule("bushing-facing").value + 2.0 for cut in bar.cuts)
            assert bar.left_mm == pytest.approx(bar.length_mm - used)
    found = rows(both)
    assert {row["kerf_mm"] for row in found if row["line"] != "piece"} == {"2.000"}
    pieces = [row for row in found if row["line"] == "piece"]
    assert pieces
    for row in pieces:
        longer = float(row["cut_length_mm"]) - float(row["length_mm"])
        assert longer == pytest.approx(rule("bushing-facing").value, abs=1.1e-3)


def test_bar_needed_is_pieces_facing_and_a_cut_behind_each() -> None:
    """By plain sums, where each bar has something left: n pieces take n saw cuts."""
    for each in cuts_of(bay(*THREE)):
        assert all(bar.left_mm > 0 for bar in each.cuts.bars)
        pieces = [cut.length_mm for bar in each.cuts.bars for cut in bar.cuts]
        kerf = each.cuts.bars[0].kerf_mm
        assert each.needed_mm == pytest.approx(sum(pieces) + kerf * len(pieces))
        (line,) = (line for line in bar_lines([each], "mm"))
        assert line.note.startswith(f"at least {each.needed_mm:.2f} mm")
        assert "enough" not in line.note
