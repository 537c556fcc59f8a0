"""`clampwright survey` as a person uses it: forms, tubes from a tape, from a drawing, from a scan."""

from __future__ import annotations

import json
import math
import subprocess
import sys
from pathlib import Path

import pytest

from clampwright.recipe.read import read

TOP = Path(__file__).parents[2]
SURVEY = TOP / "recipes" / "mount-survey.toml"
WRONG = TOP / "recipes" / "mount-survey-wrong.toml"


def clampwright(*words: str | Path, cwd: Path | None = None) -> subprocess.CompletedProcess[str]:
    """Run the command in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "clampwright_cli", *map(str, words)],
        capture_output=True,
        text=True,
        check=False,
        cwd=cwd,
    )


@pytest.fixture(scope="module")
def drawing(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two tubes in a STEP file: 3/4 in across, 400 mm long, and 5/8 in, 300 mm."""
    import cadquery as cq

    tubes = cq.Workplane("XY").circle(19.05 / 2).circle(16.5 / 2).extrude(400.0)
    tubes = tubes.add(cq.Workplane("XZ", origin=(100, 0, 0)).circle(15.875 / 2).circle(14 / 2).extrude(300.0))
    path = tmp_path_factory.mktemp("drawing") / "two tubes.step"
    cq.exporters.export(cq.Workplane(cq.Compound.makeCompound(tubes.vals())), str(path))
    return path


def test_survey_alone_writes_the_blank_form_on_both_papers_and_says_what_comes_next(tmp_path: Path) -> None:
    run = clampwright("survey", cwd=tmp_path)
    assert (run.returncode, run.stderr) == (0, "")
    names = {path.name for path in (tmp_path / "out" / "survey-form").iterdir()}
    assert {"manifest.json"} < names
    assert sum(name.endswith("letter.pdf") for name in names) >= 1
    assert sum(name.endswith("a4.pdf") for name in names) >= 1
    assert "clampwright survey solve" in run.stdout


def test_a_new_survey_reads_and_gets_its_form(tmp_path: Path) -> None:
    assert clampwright("survey", "new", "mine", "--units", "mm", cwd=tmp_path).returncode == 0
    again = clampwright("survey", "new", "mine", cwd=tmp_path)
    assert again.returncode == 4
    assert "there already" in again.stderr
    run = clampwright("survey", "sheet", "mine.toml", cwd=tmp_path)
    assert run.returncode == 0, run.stderr
    assert (tmp_path / "out" / "mine-form" / "manifest.json").exists()


def test_a_solved_survey_gives_tubes_that_a_recipe_can_stand_on(tmp_path: Path) -> None:
    run = clampwright("survey", "solve", SURVEY, "--to", "tubes.toml", cwd=tmp_path)
    assert (run.returncode, run.stderr) == (0, ""), run.stdout + run.stderr
    (tmp_path / "plate.toml").write_text(
        'kind = "accessory plate"\nname = "on-survey"\nunits = "in"\nstructure.file = "tubes.toml"\n'
        'clamps.on = ["upper-left", "middle-left"]\n'
        'carries = [{ name = "relay", mass = "0.2 lb", holes = [[-0.5, 0], [0.5, 0]] }]\n',
        encoding="utf-8",
    )
    recipe = read(tmp_path / "plate.toml")
    assert recipe.structure.uncertainty is not None
    assert recipe.structure.uncertainty.given
    checked = clampwright("check", "plate.toml", cwd=tmp_path)
    assert checked.returncode in (0, 1)
    assert checked.stderr == ""


def test_the_structure_file_is_not_overwritten_unasked(tmp_path: Path) -> None:
    (tmp_path / "tubes.toml").write_text("mine\n", encoding="utf-8")
    run = clampwright("survey", "solve", SURVEY, "--to", "tubes.toml", cwd=tmp_path)
    assert run.returncode == 4
    assert "there already" in run.stderr
    assert (tmp_path / "tubes.toml").read_text(encoding="utf-8") == "mine\n"
    assert not (tmp_path / "out").exists()
    assert (
        clampwright("survey", "solve", SURVEY, "--to", "tubes.toml", "--force", cwd=tmp_path).returncode == 0
    )


def test_json_is_one_document_with_every_point_and_measurement(tmp_path: Path) -> None:
    run = clampwright("survey", "solve", SURVEY, "--json", cwd=tmp_path)
    result = json.loads(run.stdout)["results"][0]
    assert result["usable"] is True
    assert len(result["measurements"]) > 20
    assert all(math.isfinite(value) for point in result["points"] for value in point["plus_minus_mm"])
    written = json.loads(
        (tmp_path / result["folder"] / f"{result['survey']['name']}-solved.json").read_text()
    )
    assert {key: result[key] for key in written} == written


def test_a_survey_with_a_blunder_names_it_and_gives_no_tubes(tmp_path: Path) -> None:
    run = clampwright("survey", "solve", WRONG, "--to", "tubes.toml", cwd=tmp_path)
    assert run.returncode == 1, run.stdout + run.stderr
    assert "NOT TO BE BUILT ON" in run.stdout
    assert "tubes.toml was not written" in run.stdout
    assert not (tmp_path / "tubes.toml").exists()
    assert not list((tmp_path / "out").rglob("*-tubes.toml"))
    assert list((tmp_path / "out").rglob("*.pdf")), "a report to look at is written all the same"


def test_tubes_in_a_drawing_are_listed_then_taken_by_number_and_name(drawing: Path, tmp_path: Path) -> None:
    run = clampwright("survey", "find", drawing, cwd=tmp_path)
    assert (run.returncode, run.stderr) == (0, ""), run.stderr
    assert "2 round tubes" in run.stdout
    assert list((tmp_path / "out" / "two-tubes-tubes").glob("*.svg")), "a picture to choose by"
    words = ("--take", "1,2", "--name", "1=long", "--to", "tubes.toml")
    run = clampwright("survey", "find", drawing, *words, cwd=tmp_path)
    assert run.returncode == 0, run.stderr
    assert "[measuring] error" in run.stdout
    text = (tmp_path / "tubes.toml").read_text(encoding="utf-8")
    assert "[tubes.long]" in text


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--take", "7"), "7"),
        (("--take", "one"), "numbers of tubes"),
        (("--name", "1=x"), "--take"),
        (("--take", "1", "--name", "long"), "a number and a name"),
        (("--take", "1", "--name", "2=x"), "2"),
        (("--take", "1", "--name", "1=../x"), "no name for a tube"),
        (("--take", "1", "--name", "²=x"), "a number and a name"),
        (("--take", "1", "--name", "1=x", "--name", "1=y"), "has a name already"),
    ],
)
def test_a_choice_that_cannot_be_is_said(
    drawing: Path, tmp_path: Path, words: tuple[str, ...], says: str
) -> None:
    run = clampwright("survey", "find", drawing, *words, cwd=tmp_path)
    assert run.returncode == 2
    assert says in run.stderr
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("name", ["no.step", "no.stl", "no.ply", "no.dae", "no"])
@pytest.mark.parametrize("data", [b"", b"hello\n", bytes(range(256)) * 4, None])
def test_what_is_no_drawing_and_no_scan_is_said_without_a_traceback(
    tmp_path: Path, name: str, data: bytes | None
) -> None:
    if data is not None:
        (tmp_path / name).write_bytes(data)
    run = clampwright("survey", "find", name, cwd=tmp_path)
    assert run.returncode == 3, run.stdout + run.stderr
    assert run.stderr.startswith(name)
    assert "Do: " in run.stderr
    assert "Traceback" not in run.stderr


def test_finding_tubes_in_a_drawing_does_not_load_the_whole_of_cad(drawing: Path, tmp_path: Path) -> None:
    script = (
        "import sys\nfrom clampwright.measure import find_tubes\nfrom pathlib import Path\n"
        f"assert len(find_tubes(Path({str(drawing)!r})).tubes) == 2\n"
        "print(sorted(set(sys.modules) & {'cadquery', 'reportlab', 'trimesh', 'ezdxf'}))"
    )
    run = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "[]"


def test_a_scan_without_a_unit_gives_no_tubes_until_it_is_told(tmp_path: Path) -> None:
    import trimesh

    trimesh.creation.cylinder(radius=19.05 / 2, height=400.0, sections=96).export(tmp_path / "bar.stl")
    assert clampwright("survey", "find", "bar.stl", cwd=tmp_path).returncode == 0
    guessed = clampwright("survey", "find", "bar.stl", "--take", "1", "--to", "tubes.toml", cwd=tmp_path)
    assert guessed.returncode == 2
    assert "--unit mm" in guessed.stderr
    assert not (tmp_path / "tubes.toml").exists()
    words = ("--unit", "mm", "--take", "1", "--name", "1=bar", "--to", "tubes.toml")
    told = clampwright("survey", "find", "bar.stl", *words, cwd=tmp_path)
    assert told.returncode == 0, told.stderr
    assert "[tubes.bar]" in (tmp_path / "tubes.toml").read_text(encoding="utf-8")


def test_a_loose_survey_says_what_can_move_and_what_to_measure(tmp_path: Path) -> None:
    clampwright("survey", "new", "loose", cwd=tmp_path)
    text = (tmp_path / "loose.toml").read_text(encoding="utf-8")
    kept = [line for line in text.splitlines() if not (line.lstrip().startswith("[") and '"D"' in line)]
    (tmp_path / "loose.toml").write_text("\n".join(kept) + "\n", encoding="utf-8")
    run = clampwright("survey", "solve", "loose.toml", cwd=tmp_path)
    assert run.returncode == 1, run.stdout + run.stderr
    assert "D" in run.stdout.split("can still move")[0]
    assert "Worth measuring next" in run.stdout
    data = json.loads(clampwright("survey", "solve", "loose.toml", "--json", cwd=tmp_path).stdout)
    assert data["results"][0]["freedoms"] >= 1
    assert None in next(p for p in data["results"][0]["points"] if p["name"] == "D")["plus_minus_mm"]


@pytest.mark.parametrize("to", ["mine.toml", "nowhere/tubes.toml", "."])
def test_the_input_is_never_overwritten_and_nothing_is_half_written(tmp_path: Path, to: str) -> None:
    (tmp_path / "mine.toml").write_bytes(SURVEY.read_bytes())
    run = clampwright("survey", "solve", "mine.toml", "--to", to, "--force", cwd=tmp_path)
    assert run.returncode == 4
    assert "nothing was written" in run.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["mine.toml"]
    assert (tmp_path / "mine.toml").read_bytes() == SURVEY.read_bytes()


def test_nothing_is_written_where_the_folder_is_somebody_elses(tmp_path: Path) -> None:
    (tmp_path / "out" / "mount-survey").mkdir(parents=True)
    (tmp_path / "out" / "mount-survey" / "notes.txt").write_text("mine", encoding="utf-8")
    run = clampwright("survey", "solve", SURVEY, "--to", "tubes.toml", cwd=tmp_path)
    assert run.returncode == 4
    assert not (tmp_path / "tubes.toml").exists()
