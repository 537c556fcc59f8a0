"""The example recipes that share one mount: what they show holds, by arithmetic of its own."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from recipe.recipe_files import BAY, MOUNT

from clampwright.layout.kinds import lay_out
from clampwright.recipe.faults import RecipeFaults
from clampwright.recipe.read import read
from clampwright.trade.clamps import loop_clamp

FOLDER = MOUNT.parent
WRONG = tuple(sorted((FOLDER / "wrong").glob("*.toml")))
NUMBERS = {"Five": 5, "Seven": 7}


def test_all_stand_on_the_same_mount() -> None:
    structures = {read(path).structure for path in BAY}
    assert len(structures) == 1


def test_the_separator_fits_where_its_pattern_meets_both_tubes() -> None:
    """By hand: square to both tubes its two rows run beside the axes at each clamp's reach.

    Two lugs lie on the row of the upper tube at any station; the third comes onto the row of the middle tube
    where the rows, which splay, are as far apart as the lugs: one station, from the length of a triangle.
    """
    recipe = read(FOLDER / "separator-bushings.toml")
    layout = lay_out(recipe)
    assert layout.answer.fits
    assert layout.answer.worst_misfit_mm < 1e-6
    upper, middle = (recipe.structure.tube(f"{name}-right") for name in ("upper", "middle"))
    along, other = np.array(upper.direction), np.array(middle.direction)
    normal = np.cross(along, other) / np.linalg.norm(np.cross(along, other))
    across, other_across = np.cross(normal, along), np.cross(normal, other)
    toward = np.sign((np.array(middle.start) - upper.start) @ across)
    first, second = (loop_clamp(tube.od_mm, "CJ").reach_mm for tube in (upper, middle))
    row = np.array(upper.start) + toward * first * across
    far = np.array(middle.start) - toward * second * other_across
    lugs = 4.9 * 25.4
    # far + s other lies `lugs` from the first row:
    s = (toward * lugs - (far - row) @ across) / (other @ across)
    station = float((far + s * other - row) @ along) + float((row - upper.start) @ along)
    held = {hole.hole: hole for hole in layout.answer.holes}
    assert held[3].station_mm == pytest.approx(s, abs=1e-3)
    assert held[1].station_mm == pytest.approx(station - 1.5 * 25.4, abs=1e-3)
    assert held[2].station_mm == pytest.approx(station + 1.5 * 25.4, abs=1e-3)


def test_the_regulator_misses_by_half_the_splay() -> None:
    """By hand: two rows of holes 3.2 in long between tubes that splay by 9.17 deg.

    Turned to share the splay, each row is off by half of it: 1.6 in x tan(4.585 deg) = 0.128 in.
    """
    recipe = read(FOLDER / "regulator-too-wide.toml")
    upper, middle = (recipe.structure.tube(f"{name}-left") for name in ("upper", "middle"))
    splay = math.acos(sum(a * b for a, b in zip(upper.direction, middle.direction, strict=True)))
    assert math.degrees(splay) == pytest.approx(9.17, abs=0.01)
    answer = lay_out(recipe).answer
    assert not answer.fits
    assert answer.worst_misfit_mm == pytest.approx(1.6 * 25.4 * math.tan(splay / 2), rel=0.01)


def test_the_hose_crosses_with_a_spacer_of_what_the_seats_leave() -> None:
    """L = distance of the axes less both seats, for a pair of clamps square to each other's lines."""
    layout = lay_out(read(FOLDER / "oil-hose-stand-off.toml"))
    assert layout.place.fits
    seats = sum(loop.clamp.seat_mm for loop in layout.loops)
    assert layout.place.spacer_mm == pytest.approx(layout.distance_mm - seats, abs=1e-6)
    assert layout.place.spacer_mm > 12


def test_the_plain_pair_lies_foot_to_foot() -> None:
    layout = lay_out(read(FOLDER / "plain-pair.toml"))
    assert layout.line_solved
    assert layout.place.fits
    assert layout.bushings == ()
    height = sum(loop.clamp.seat_mm for loop in layout.loops)
    assert layout.distance_mm >= height - 1e-6
    tube = layout.recipe.structure.tube("upper-left")
    assert layout.line.direction == pytest.approx(tube.direction)


def test_the_bundle_stands_off_the_firewall() -> None:
    layout = lay_out(read(FOLDER / "bundle-on-firewall.toml"))
    assert layout.place.fits
    assert layout.bundle is not None
    assert layout.bundle.wires == 10
    assert layout.distance_mm == pytest.approx(25.4)


@pytest.mark.parametrize("path", WRONG, ids=lambda path: path.stem)
def test_the_mistaken_ones_have_as_many_mistakes_as_they_say(path: Path) -> None:
    with pytest.raises(RecipeFaults) as caught:
        read(path)
    said = path.read_text(encoding="utf-8").split()[1]
    assert len(caught.value.faults) == NUMBERS[said]
    assert len({fault.line for fault in caught.value.faults}) == NUMBERS[said]
