"""Right "stand-off" recipes, and the typed values they give."""

from __future__ import annotations

import pytest
from recipe.recipe_files import HERE

from clampwright.recipe.bushing_model import BushingStock
from clampwright.recipe.faults import RecipeFaults
from clampwright.recipe.model import Fastener, Measured
from clampwright.recipe.read import read, read_text
from clampwright.recipe.stand_off_model import PairClamp, StandOffJob, WiresOfSize

FOLDER = HERE / "valid"
LEAST = (FOLDER / "stand-off-least.toml").read_text(encoding="utf-8")


def job(name: str) -> StandOffJob:
    """The job of a recipe in the folder."""
    return read(FOLDER / f"stand-off-{name}.toml").asked(StandOffJob)


def least(old: str = "", new: str = "", more: str = "") -> StandOffJob:
    """The job of the shortest recipe with something else in it."""
    assert old in LEAST
    return read_text(LEAST.replace(old, new, 1) + more).asked(StandOffJob)


def test_every_key_arrives_in_the_projects_units() -> None:
    asked = job("every-key")
    line = asked.carried
    assert (asked.tube, asked.panel, asked.station_mm) == ("left", None, None)
    assert asked.fastener == Fastener("AN3", "MS21042", 5.0, None)
    assert (line.name, line.what, line.rides_on) == ("oil hose", "hose", "mount")
    assert (line.od_mm, line.sleeve_mm) == (pytest.approx(19.558), 1.0)
    assert (line.hose_dash, line.wires) == (None, ())
    assert line.point == pytest.approx((254.0, -101.6, 50.8))
    assert line.to == pytest.approx((254.0, 101.6, 63.5))
    assert line.next_supports_mm == pytest.approx((304.8, 254.0))
    assert asked.on_tube == PairClamp("CH", Measured(21.0, 14.0, 3.0), 13)
    assert asked.on_line == PairClamp("CJ", Measured(pytest.approx(21.59), pytest.approx(14.224), 3.175), 14)
    assert (asked.spacer_mm, asked.place) == (None, 2)
    assert asked.bushings == BushingStock("acetal", "tube", 9.525, 0.0, pytest.approx(304.8))


def test_the_line_knows_where_it_is_written() -> None:
    path = FOLDER / "stand-off-every-key.toml"
    line = path.read_text(encoding="utf-8").split("\n")[job("every-key").carried.line - 1]
    assert line == "[line]"


def test_a_bundle_on_a_panel() -> None:
    """[0, 3, 4] made one long is [0, 0.6, 0.8]; drill #10 is 0.1935 in."""
    asked = job("on-a-panel")
    line = asked.carried
    assert (asked.tube, asked.panel) == (None, "firewall")
    assert line.wires == (
        WiresOfSize(7, 20, None),
        WiresOfSize(2, 16, None),
        WiresOfSize(1, None, pytest.approx(2.794)),
    )
    assert (line.what, line.direction, line.beside_mm) == ("bundle", (0.0, 0.6, 0.8), 25.0)
    assert asked.fastener.hole_mm == pytest.approx(0.1935 * 25.4)


def test_a_spacer_at_hand_leaves_open_where_the_line_runs() -> None:
    asked = job("spacer-at-hand")
    line = asked.carried
    assert (asked.spacer_mm, asked.station_mm) == (0.0, pytest.approx(304.8))
    assert (line.point, line.to, line.direction, line.beside_mm) == (None,) * 4
    assert line.toward == (0.0, -0.6, 0.8)


def test_the_only_tube_is_meant_and_said() -> None:
    recipe = read(FOLDER / "stand-off-least.toml")
    asked = recipe.asked(StandOffJob)
    assumed = dict(recipe.assumed)
    assert asked.tube == "left"
    assert assumed["support.tube"] == "left (the only tube of the structure; assumed)"
    assert (asked.carried.what, asked.carried.hose_dash) == ("hose", 8)
    assert "line.what" not in assumed
    assert asked.on_tube == asked.on_line == PairClamp(None, Measured(), None)


def test_which_sort_of_line_follows_from_how_its_thickness_is_said() -> None:
    assert least("hose = 8", "wires = [[3, 22]]").carried.what == "bundle"
    recipe = read_text(LEAST.replace("hose = 8", "od = 12"))
    assert recipe.asked(StandOffJob).carried.what == "tube"
    assert dict(recipe.assumed)["line.what"] == "tube (only its diameter is given; assumed)"
    assert least("hose = 8", 'od = 6\nwhat = "cable"').carried.what == "cable"


@pytest.mark.parametrize(
    "course",
    [
        "point = [100, 0, 60]\ndirection = [1, 0, 0]\n",
        "point = [100, 0, 60]\nto = [0, 90, 60]\n",
        "beside = 60\n",
        "beside = 60\ntoward = [0, 1, 0]\n",
        "[spacer]\nlength = 3\n",
        "toward = [0, 1, 0]\n[spacer]\nlength = 3\n",
        "direction = [0, 1, 0]\n[spacer]\nlength = 3\n",
        "direction = [0, 1, 0]\ntoward = [0, 0, -1]\n[spacer]\nlength = 3\n",
        "point = [100, 0, 10]\nto = [0, 90, 12]\n[spacer]\nlength = 3\n",
    ],
)
def test_each_way_to_say_where_it_runs(course: str) -> None:
    assert least("beside = 60\n", course).carried.name == "oil hose"


@pytest.mark.parametrize("offset", [0.01, -0.01])
@pytest.mark.parametrize(
    "course",
    [
        "beside = {}\n",
        "point = [100, -50, {}]\nto = [130, 50, {}]\n",
        "point = [9, 0, {}]\ndirection = [1, 0, 0]\n",
    ],
    ids=["beside", "crossing", "parallel"],
)
def test_the_line_clears_its_tube_by_both_radii(course: str, offset: float) -> None:
    """A hose -8 has 0.77 in (19.558 mm), the tube 20 mm: 19.779 mm apart, 20.779 with its sleeve."""
    for sleeve in (0, 1):
        apart = 19.779 + sleeve + offset
        text = LEAST.replace("beside = 60\n", course.format(apart, apart) + f"sleeve = {sleeve}\n")
        if offset > 0:
            assert read_text(text)
            continue
        with pytest.raises(RecipeFaults, match=r"line\.(beside|point): expected"):
            read_text(text)


def test_a_bundle_is_as_thick_as_its_circle() -> None:
    """Seven equal circles, six round one, fill a circle of three diameters: 6 mm, and the tube has 20."""
    wires = 'wires = [[7, "2 mm"]]\nbeside = {}\n'
    old = "hose = 8\nbeside = 60\n"
    assert least(old, wires.format(13.01)).carried.beside_mm == 13.01
    with pytest.raises(RecipeFaults, match=r"more than both radii, 13\.00 mm"):
        least(old, wires.format(12.99))


def test_a_panel_may_lean_from_the_line_by_hand_measure_only() -> None:
    panel = (FOLDER / "stand-off-on-a-panel.toml").read_text(encoding="utf-8")
    path = FOLDER / "by-hand.toml"
    for x, reads in ((0.5, True), (1.5, False)):
        text = panel.replace("direction = [0, 3, 4]", f"direction = [{x}, 3, 4]")
        if reads:
            assert read_text(text, path)
            continue
        with pytest.raises(RecipeFaults, match="this is 17 deg off its face"):
            read_text(text, path)
