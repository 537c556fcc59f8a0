"""`clampwright verify` as a person at the bench uses it: the form, figures from calipers, what to do."""

from __future__ import annotations

import csv
import io
import json
import subprocess
import sys
from pathlib import Path

import pytest

TOP = Path(__file__).parents[2]
PLATE = TOP / "recipes" / "coil-plate.toml"
BUSHINGS = TOP / "recipes" / "separator-bushings.toml"


def clampwright(*words: str | Path, cwd: Path) -> subprocess.CompletedProcess[str]:
    """Run the command in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "clampwright_cli", *map(str, words)],
        capture_output=True,
        text=True,
        check=False,
        cwd=cwd,
    )


def filled(form: str, change: dict[str, dict[str, str]]) -> str:
    """A form with every measured cell as drawn, but for what is to be changed: label to column to figure."""
    said = [line for line in form.splitlines(keepends=True) if line.startswith("#")]
    rows = list(csv.DictReader(line for line in form.splitlines() if not line.startswith("#")))
    for row in rows:
        for column in ("x", "y", "diameter", "length"):
            key = next(name for name in row if name.split()[0] == column)
            row[key] = change.get(row["what"], {}).get(column, row[f"drawn {key}"])
    text = io.StringIO(newline="")
    writer = csv.DictWriter(text, list(rows[0]))
    writer.writeheader()
    writer.writerows(rows)
    return "".join(said) + text.getvalue()


def form_of(recipe: Path, folder: Path) -> str:
    """The form that the command writes."""
    run = clampwright("verify", recipe, "--form", "form.csv", cwd=folder)
    assert (run.returncode, run.stderr) == (0, "")
    return (folder / "form.csv").read_text(encoding="utf-8")


@pytest.mark.parametrize("recipe", [PLATE, BUSHINGS], ids=lambda path: path.stem)
def test_parts_exactly_as_drawn_fit(recipe: Path, tmp_path: Path) -> None:
    (tmp_path / "measured.csv").write_text(filled(form_of(recipe, tmp_path), {}), encoding="utf-8")
    run = clampwright("verify", recipe, "measured.csv", "--json", cwd=tmp_path)
    (result,) = json.loads(run.stdout)["results"]
    assert run.returncode == 0, run.stdout
    findings = result["findings"]["findings"]
    assert {f["code"] for f in findings} >= {"MADE-3"}
    assert not [f for f in findings if f["verdict"] == "fail"]


def test_a_component_hole_that_is_off_by_a_sixteenth_pinches_and_the_report_says_where(
    tmp_path: Path,
) -> None:
    off = filled(form_of(PLATE, tmp_path), {"C3": {"x": "4.5625"}})
    (tmp_path / "measured.csv").write_text(off, encoding="utf-8")
    run = clampwright("verify", PLATE, "measured.csv", cwd=tmp_path)
    assert run.returncode == 1
    failed = [line for line in run.stdout.splitlines() if "FAIL" in line]
    assert any("MADE-1" in line and "C3" in line for line in failed), run.stdout
    assert "DO NOT FIT" in run.stdout


def test_typed_measurements_stand_for_those_of_the_file(tmp_path: Path) -> None:
    off = filled(form_of(BUSHINGS, tmp_path), {"S1": {"length": "3"}})
    (tmp_path / "measured.csv").write_text(off, encoding="utf-8")
    bad = clampwright("verify", BUSHINGS, "measured.csv", "--brief", cwd=tmp_path)
    assert bad.returncode == 1
    assert "MADE-3" in bad.stdout
    rows = [line for line in form_of_rows(tmp_path) if line["what"] == "S1"]
    length = next(value for key, value in rows[0].items() if key.startswith("drawn length"))
    typed = [word for _ in rows for word in ("--bushing", f"S1={length}")]
    good = clampwright("verify", BUSHINGS, "measured.csv", *typed, "--brief", cwd=tmp_path)
    assert good.returncode == 0, good.stdout


def form_of_rows(folder: Path) -> list[dict[str, str]]:
    """The rows of the form written before."""
    lines = (folder / "form.csv").read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


def test_faults_of_a_file_come_all_at_once_with_their_lines(tmp_path: Path) -> None:
    (tmp_path / "measured.csv").write_text(
        "what,x,y,length\nC9,1,2,\nA1,5.56,,\nS1,,,long\n", encoding="utf-8"
    )
    run = clampwright("verify", PLATE, "measured.csv", cwd=tmp_path)
    assert run.returncode == 3
    assert run.stdout == ""
    assert [line.split(":")[:2] for line in run.stderr.splitlines()] == [
        ["measured.csv", "2"],
        ["measured.csv", "3"],
        ["measured.csv", "4"],
    ]


def test_nothing_measured_is_said_and_nothing_but_an_older_form_is_overwritten(tmp_path: Path) -> None:
    nothing = clampwright("verify", PLATE, cwd=tmp_path)
    assert nothing.returncode == 2
    assert "--form" in nothing.stderr
    form = form_of(PLATE, tmp_path)
    again = clampwright("verify", PLATE, "--form", "form.csv", cwd=tmp_path)
    assert again.returncode == 4
    assert (tmp_path / "form.csv").read_text(encoding="utf-8") == form
    (tmp_path / "mine.toml").write_bytes(PLATE.read_bytes())
    recipe = clampwright("verify", PLATE, "--form", "mine.toml", "--force", cwd=tmp_path)
    assert recipe.returncode == 4
    assert (tmp_path / "mine.toml").read_bytes() == PLATE.read_bytes()
    assert clampwright("verify", PLATE, "--form", "form.csv", "--force", cwd=tmp_path).returncode == 0
    missing = clampwright("verify", PLATE, "--form", "no/such/form.csv", cwd=tmp_path)
    assert missing.returncode == 4
    assert "No such file" in missing.stderr
