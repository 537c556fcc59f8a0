"""What a structure knows of its tubes, read from a recipe or a structure file, and what it then stands on."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from jsonschema import Draft202012Validator
from recipe.recipe_files import HERE

from clampwright.layout.kinds import lay_out
from clampwright.recipe.read import read, read_text
from clampwright.recipe.schema import structure_schema
from clampwright.structure.tubes import Structure, Tube

FOLDER = HERE / "valid"


def test_a_structure_file_carries_marks_and_the_covariance_of_its_tubes() -> None:
    """Rows by hand: 1 stands for 0.001 mm, what is not written is 0, mark = 2 in = 50.8 mm."""
    structure = read(FOLDER / "on-surveyed-tubes.toml").structure
    left, right = structure.tubes
    assert left == Tube("left", (0.0, 0.0, 0.0), (508.0, 0.0, 0.0), 19.05, pytest.approx(-38.1))
    assert right.mark_mm == 50.8
    known = structure.uncertainty
    assert known is not None
    assert (known.said, known.given) == ("tape survey two, 4 measurements", False)
    assert known.causes_are == ("A-B", "A-C", "B-C", "C-D")
    assert known.tubes == ("left", "lower right")
    wanted = np.zeros((12, 4))
    wanted[3, 0], wanted[5, 2] = 0.5, -0.25
    wanted[6, 1], wanted[7, :2] = 0.4, (0.3, -0.04)
    wanted[9, 3], wanted[11, 0] = 0.125, 0.001
    assert np.array(known.factor_mm) == pytest.approx(wanted)


def test_the_recipes_own_surroundings_leave_what_is_known_alone(tmp_path: Path) -> None:
    text = (FOLDER / "on-surveyed-tubes.toml").read_text(encoding="utf-8")
    more = text.replace('structure.file = "', 'structure.engine_moves = 0.25\nstructure.file = "')
    structure = read_text(more, FOLDER / "here.toml").structure
    assert structure.engine_moves_mm == 6.35
    assert structure.uncertainty == read(FOLDER / "on-surveyed-tubes.toml").structure.uncertainty


def test_two_tubes_by_one_spacing_and_their_angle() -> None:
    """Inside 130 mm at station 100; by hand y(100) = 130 + 10 + 7.9375 / cos 4 deg = 147.957."""
    structure = read(FOLDER / "two-tubes-every-key.toml").structure
    upper, lower = structure.tubes
    assert upper == Tube("upper", (0.0, 0.0, 0.0), (500.0, 0.0, 0.0), 20.0)
    assert lower.point(lower.station((100.0, 147.957, 0.0))) == pytest.approx((100.0, 147.957, 0.0), abs=1e-3)
    assert lower.direction[1] / lower.direction[0] == pytest.approx(-0.0699268, abs=1e-7)
    known = structure.uncertainty
    assert known is not None
    assert known.given
    assert len(known.causes_are) == known.causes
    assert (structure.panels[0].name, structure.engine_moves_mm) == ("firewall", 5.0)


def test_two_tubes_by_two_spacings_whichever_comes_first() -> None:
    """By hand: from 160 at 20 to 130 at 300 outside, slope -30/280; both walls off."""
    recipe = read(FOLDER / "two-tubes-least.toml")
    _, other = recipe.structure.tubes
    assert other.direction[1] / other.direction[0] == pytest.approx(-30 / 280)
    walls = 10 + 10 * np.hypot(1, 30 / 280)
    assert other.start[1] == pytest.approx(160 + 20 * 30 / 280 - walls)
    assert recipe.structure.uncertainty is not None
    assert not recipe.structure.uncertainty.given
    assumed = dict(recipe.assumed)
    assert {f"structure.two_tubes.{key}" for key in ("how", "error", "out_of_plane")} <= assumed.keys()
    assert "structure.two_tubes.angle_error" not in assumed
    assert lay_out(recipe).place.fits


def test_the_error_of_an_angle_is_assumed_only_where_there_is_one() -> None:
    text = (FOLDER / "two-tubes-every-key.toml").read_text(encoding="utf-8")
    recipe = read_text(text.replace('angle_error = "0.5 deg"\n', ""))
    assert dict(recipe.assumed)["structure.two_tubes.angle_error"].startswith("1 deg (")
    assert not recipe.structure.uncertainty.given


def test_a_structure_file_may_hold_two_tubes(tmp_path: Path) -> None:
    text = (FOLDER / "on-surveyed-tubes.toml").read_text(encoding="utf-8")
    recipe = read_text(text.replace("surveyed.toml", "two-tubes.toml"), FOLDER / "here.toml")
    assert [tube.name for tube in recipe.structure.tubes] == ["left", "right"]
    assert recipe.structure.tubes[1].start[1] == pytest.approx(5.25 * 25.4)
    assert (
        "two-tubes.toml: two_tubes.error",
        "1/16 in (usual for a tape over tubes; assumed)",
    ) in recipe.assumed


PANEL = '[structure.panels.wall]\npoint = [0, 0, -90]\nnormal = [0, 0, 1]\nthickness = 1\nmaterial = "304"\n'
KEPT = (
    "[structure.keep_outs.pipe]\nfrom = [0, 900, 0]\nto = [500, 900, 0]\nod = 20\ndistance = 30\n"
    'rides_on = "engine"\nkind = "hot"\n'
)


@pytest.mark.parametrize(
    ("more", "for_what"),
    [
        ("", "for the line, not surveyed; "),
        (PANEL, "for panels and the line, not surveyed; "),
        (PANEL + KEPT, "for panels, keep-outs and the line, not surveyed; "),
    ],
)
def test_an_error_that_is_assumed_beside_a_survey_is_told_for_what_it_stands(
    more: str, for_what: str
) -> None:
    text = (FOLDER / "two-tubes-least.toml").read_text(encoding="utf-8")
    assumed = dict(read_text(f"{text}\n{more}").assumed)
    assert assumed["measuring.error"] == f"1.50 mm ({for_what}usual for a mount measured by hand; practice)"


def test_an_error_that_stands_for_nothing_is_not_told() -> None:
    surveyed = read(FOLDER / "on-surveyed-tubes.toml")
    assert not surveyed.structure.panels + surveyed.structure.keep_outs
    assert "measuring.error" not in dict(surveyed.assumed)
    assert surveyed.measuring.given is False
    by_hand = dict(read(FOLDER / "two-tubes-and-a-component.toml").assumed)
    assert by_hand["measuring.error"].endswith(" (usual for a mount measured by hand; practice)")


def test_tubes_without_a_survey_are_as_they_were() -> None:
    structure = read(FOLDER / "two-tubes-and-a-component.toml").structure
    assert isinstance(structure, Structure)
    assert structure.uncertainty is None
    assert all(tube.mark_mm is None for tube in structure.tubes)


def test_the_digest_follows_what_is_known_and_marked() -> None:
    text = (FOLDER / "two-tubes-every-key.toml").read_text(encoding="utf-8")
    digests = {
        read_text(each).digest
        for each in (
            text,
            text.replace("error = 1\n", "error = 2\n"),
            text.replace("130", "131"),
            text.replace("out_of_plane = 2", "out_of_plane = 3"),
        )
    }
    assert len(digests) == 4


@pytest.mark.parametrize(
    ("name", "conforms"), [("two-ways", False), ("rows-wrong", False), ("rows-missing", True)]
)
def test_structure_files_conform_where_a_schema_can_tell(name: str, conforms: bool) -> None:
    import tomllib

    schema = Draft202012Validator(structure_schema())
    data = tomllib.loads((HERE / "wrong" / "shared" / f"{name}.toml").read_text(encoding="utf-8"))
    assert schema.is_valid(data) is conforms
