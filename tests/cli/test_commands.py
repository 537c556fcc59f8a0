"""The commands as a person or a program uses them: output, exit status, nothing half-written."""

from __future__ import annotations

import hashlib
import json
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
EXAMPLE = TOP / "recipes" / "coil-plate.toml"


def clampwright(*words: str | Path, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    """Run the command in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "clampwright_cli", *map(str, words)],
        capture_output=True,
        text=True,
        check=False,
        cwd=cwd,
    )


def tree(folder: Path) -> dict[str, str]:
    """Every file below a folder and its SHA-256."""
    return {
        str(path.relative_to(folder)): hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }


def spoilt(tmp_path: Path, old: str, new: str, name: str = "spoilt.toml") -> Path:
    """The example with one text replaced, its structure file beside it."""
    text = EXAMPLE.read_text(encoding="utf-8")
    assert old in text
    (tmp_path / "engine-mount.toml").write_bytes((TOP / "recipes" / "engine-mount.toml").read_bytes())
    path = tmp_path / name
    path.write_text(text.replace(old, new), encoding="utf-8")
    return path


def test_check_reports_clamps_holes_findings_and_what_was_assumed() -> None:
    run = clampwright("check", EXAMPLE)
    assert run.returncode == 0, run.stderr
    assert run.stderr == ""
    for word in ("Clamps", "Holes", "Findings:", "based on:", "kit maker's instructions"):
        assert word in run.stdout
    assert "\x1b" not in run.stdout, "colours belong on a terminal"


def test_check_json_is_one_document_with_the_same_verdicts() -> None:
    run = clampwright("check", "--json", EXAMPLE)
    result = json.loads(run.stdout)["results"][0]
    assert result["status"] == run.returncode == 0
    assert {finding["verdict"] for finding in result["findings"]["findings"]} <= {
        "pass",
        "caution",
        "fail",
        "unknown",
    }


def test_strict_counts_what_nobody_measured() -> None:
    assert clampwright("check", "--strict", EXAMPLE).returncode == 1


def test_a_failed_check_leaves_with_1_and_says_what_to_do(tmp_path: Path) -> None:
    recipe = spoilt(tmp_path, "[plate]\n", '[plate]\nmargin = "0.15 in"\n')
    run = clampwright("check", recipe)
    assert run.returncode == 1
    assert "FAIL" in run.stdout
    assert "EDGE-1" in run.stdout
    assert "DO NOT DRILL" in run.stdout


def test_faults_go_to_standard_error_with_file_and_line(tmp_path: Path) -> None:
    recipe = spoilt(tmp_path, 'material = "6061-T6"', 'matrial = "6061-T6"')
    line = 1 + recipe.read_text(encoding="utf-8").splitlines().index('matrial = "6061-T6"')
    run = clampwright("check", recipe)
    assert run.returncode == 3
    assert run.stdout == ""
    assert f"spoilt.toml:{line}:" in run.stderr
    assert "material" in run.stderr
    assert "Traceback" not in run.stderr


def test_faults_as_json_stay_on_standard_output(tmp_path: Path) -> None:
    recipe = spoilt(tmp_path, 'material = "6061-T6"', 'material = "6061-T7"')
    run = clampwright("check", "--json", recipe)
    assert run.returncode == 3
    (fault,) = json.loads(run.stdout)["results"][0]["faults"]
    assert fault["key"] == "plate.material"
    assert "6061-T6" in fault["hint"] + fault["expected"]


@pytest.mark.parametrize("words", [("check",), ("check", "a.toml", "--nonsense"), ("nonsense",)])
def test_a_wrong_command_line_leaves_with_2(words: tuple[str, ...]) -> None:
    assert clampwright(*words).returncode == 2


def test_a_missing_recipe_leaves_with_3(tmp_path: Path) -> None:
    run = clampwright("check", tmp_path / "nowhere.toml")
    assert run.returncode == 3
    assert "nowhere.toml" in run.stderr


def test_build_writes_everything_and_the_same_bytes_again(tmp_path: Path) -> None:
    first = clampwright("build", EXAMPLE, "--out", tmp_path / "one")
    second = clampwright("build", EXAMPLE, "--out", tmp_path / "two")
    assert (first.returncode, second.returncode) == (0, 0), first.stderr
    assert first.stderr == "", "no progress in a pipe"
    once, again = tree(tmp_path / "one"), tree(tmp_path / "two")
    assert once == again
    endings = {Path(name).suffix for name in once}
    assert {".step", ".stl", ".dxf", ".pdf", ".csv", ".json", ".svg"} <= endings
    assert all(name in first.stdout for name in (Path(n).name for n in once))


def test_several_recipes_side_by_side_give_what_each_gives_alone(tmp_path: Path) -> None:
    other = spoilt(tmp_path, 'name = "coil-plate"', 'name = "second-plate"')
    both = clampwright("build", "--json", EXAMPLE, other, "--out", tmp_path / "both")
    assert both.returncode == 0, both.stdout
    assert [r["status"] for r in json.loads(both.stdout)["results"]] == [0, 0]
    clampwright("build", EXAMPLE, "--out", tmp_path / "alone")
    assert tree(tmp_path / "both" / "coil-plate") == tree(tmp_path / "alone" / "coil-plate")
    assert (tmp_path / "both" / "second-plate").is_dir()


def test_two_recipes_of_one_name_are_refused_before_anything_is_written(tmp_path: Path) -> None:
    other = spoilt(tmp_path, "# ", "#  ")
    run = clampwright("build", EXAMPLE, other, "--out", tmp_path / "out")
    assert run.returncode == 3
    assert "coil-plate" in run.stderr
    assert not (tmp_path / "out").exists()


def test_a_bad_recipe_among_good_ones_stops_only_itself(tmp_path: Path) -> None:
    bad = spoilt(tmp_path, 'kind = "accessory plate"', 'kind = "accessory plait"')
    run = clampwright("build", EXAMPLE, bad, "--out", tmp_path / "out")
    assert run.returncode == 3
    assert "accessory plate" in run.stderr
    assert [path.name for path in (tmp_path / "out").iterdir()] == ["coil-plate"]


def test_a_folder_that_cannot_be_written_leaves_with_4(tmp_path: Path) -> None:
    (tmp_path / "taken").write_text("not a folder", encoding="utf-8")
    run = clampwright("build", EXAMPLE, "--out", tmp_path / "taken" / "below")
    assert run.returncode == 4
    assert "Traceback" not in run.stderr
    assert "--out" in run.stderr


def test_new_writes_a_recipe_that_checks_and_keeps_what_is_there(tmp_path: Path) -> None:
    for units in ("in", "mm"):
        target = tmp_path / f"mine-{units}.toml"
        assert clampwright("new", target, "--units", units).returncode == 0
        assert clampwright("check", target).returncode in (0, 1)
    before = target.read_bytes()
    again = clampwright("new", target)
    assert again.returncode == 4
    assert "--force" in again.stderr
    assert target.read_bytes() == before


def test_a_recipe_name_never_leaves_the_output_folder(tmp_path: Path) -> None:
    for name in ("../escaped", "/somewhere/escaped", "..", "a/b", ".hidden", ""):
        recipe = spoilt(tmp_path, 'name = "coil-plate"', f"name = {json.dumps(name)}")
        assert clampwright("build", recipe, "--out", tmp_path / "out").returncode == 3
    assert not (tmp_path / "out").exists()
    assert not list(tmp_path.glob("escaped*"))


def test_look_ups_answer_and_suggest() -> None:
    assert "0.1910" in clampwright("drill", "#11").stdout or "0.191 in" in clampwright("drill", "#11").stdout
    assert "AN3-5A" in clampwright("bolt", "AN3").stdout
    assert "MS21919WCH12" in clampwright("clamp", "3/4 in", "--code", "CH").stdout
    wrong = clampwright("bolt", "AN33")
    assert wrong.returncode == 2
    assert "AN3" in wrong.stderr
    unknown = clampwright("explain", "zzzz")
    assert unknown.returncode == 1
    assert "Traceback" not in unknown.stderr
