"""`clampwright pack` as a builder uses it: one file to hand over, refused where a check fails."""

from __future__ import annotations

import json
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
RECIPES = TOP / "recipes"
GOOD, FAILING = RECIPES / "oil-hose-stand-off.toml", RECIPES / "coil-plate-too-narrow.toml"


def clampwright(*words: str | Path, cwd: Path) -> subprocess.CompletedProcess[str]:
    """Run the command in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "clampwright_cli", *map(str, words)],
        capture_output=True,
        text=True,
        check=False,
        cwd=cwd,
    )


@pytest.fixture(scope="module")
def packed(tmp_path_factory: pytest.TempPathFactory) -> tuple[subprocess.CompletedProcess[str], Path]:
    """One recipe packed, and where."""
    folder = tmp_path_factory.mktemp("packed")
    return clampwright("pack", GOOD, "--to", "shop.zip", cwd=folder), folder / "shop.zip"


def test_the_report_names_every_file_of_the_zip(
    packed: tuple[subprocess.CompletedProcess[str], Path],
) -> None:
    run, path = packed
    assert run.returncode == 0, run.stderr
    with zipfile.ZipFile(path) as archive:
        names = [name.split("/", 1)[1] for name in archive.namelist()]
    said = run.stdout.split("\nFiles\n", 1)[1].splitlines()
    assert [line.strip() for line in said[: len(names)]] == names
    assert "READ-ME-FIRST.txt" in names
    assert "kit maker" in run.stdout


def test_what_rests_on_nothing_measured_is_said(
    packed: tuple[subprocess.CompletedProcess[str], Path],
) -> None:
    assert "CLAMP-5" in packed[0].stdout


def test_json_tells_the_same(tmp_path: Path) -> None:
    run = clampwright("pack", GOOD, "--to", "shop.zip", "--json", cwd=tmp_path)
    (result,) = json.loads(run.stdout)["results"]
    assert result["verdicts"] == {"oil-hose-stand-off": "unknown"}
    assert result["failing"] == []
    with zipfile.ZipFile(tmp_path / "shop.zip") as archive:
        assert len(result["files"]) == len(archive.namelist())


def test_a_failing_part_is_refused_and_nothing_is_written(tmp_path: Path) -> None:
    run = clampwright("pack", GOOD, FAILING, "--to", "shop.zip", cwd=tmp_path)
    assert run.returncode == 1
    assert not (tmp_path / "shop.zip").exists()
    assert "EDGE-1" in run.stdout + run.stderr
    assert "do: " in run.stdout + run.stderr
    assert "--anyway" in run.stdout + run.stderr


def test_told_otherwise_it_packs_and_the_status_still_says_so(tmp_path: Path) -> None:
    run = clampwright("pack", FAILING, "--anyway", "--to", "shop.zip", cwd=tmp_path)
    assert run.returncode == 1
    assert "packed all the same" in run.stdout
    with zipfile.ZipFile(tmp_path / "shop.zip") as archive:
        name = next(n for n in archive.namelist() if n.endswith("READ-ME-FIRST.txt"))
        assert "DO NOT MAKE" in archive.read(name).decode()


def test_every_wrong_recipe_is_told_at_once(tmp_path: Path) -> None:
    wrong = [next((RECIPES / "wrong").glob("*.toml")), tmp_path / "gone.toml"]
    run = clampwright("pack", *wrong, GOOD, "--to", "shop.zip", cwd=tmp_path)
    assert run.returncode == 3
    assert all(path.name in run.stderr for path in wrong)
    assert not (tmp_path / "shop.zip").exists()


def test_places_that_will_not_do(tmp_path: Path) -> None:
    (tmp_path / "mine.zip").write_bytes(b"my own")
    (tmp_path / "notes.txt").write_text("notes", encoding="utf-8")
    for target in ("mine.zip", "notes.txt", "notes.txt/shop.zip", "no/such/place/shop.zip"):
        run = clampwright("pack", GOOD, "--to", target, cwd=tmp_path)
        assert run.returncode == 4, target
        assert "Traceback" not in run.stderr
        assert run.stderr.strip(), target
    assert (tmp_path / "mine.zip").read_bytes() == b"my own"
