"""A figure is handed out only where every other one that agrees with the measurements is ruled out.

The true coordinates are stated here, and every reading is worked out from them by plain arithmetic.
"""

from __future__ import annotations

from itertools import combinations

import numpy as np

from clampwright.structure.survey.model import Along, Datum, Distance, Measurement, Side, Survey, SurveyPoint
from clampwright.structure.survey.solve import solve
from clampwright.structure.survey.solved import SolvedSurvey

Places = dict[str, tuple[float, float, float]]

WALL: Places = {"F": (0.0, 0.0, 0.0), "G": (0.0, 620.0, 0.0), "H": (0.0, 300.0, 580.0)}
RING: Places = {"P": (330.0, 60.0, 90.0), "Q": (350.0, 540.0, 110.0), "R": (300.0, 320.0, 470.0)}
DATUM = Datum("F", "y", "G", plane_axis="z", in_plane="H")
NOSE_UP = np.array((-0.12, 0.0, 1.0)) / np.hypot(0.12, 1.0)
AHEAD = (1.0, 0.0, 0.0)


def tape(places: Places, *pairs: tuple[str, str]) -> list[Measurement]:
    return [Distance(a, b, float(np.linalg.norm(np.subtract(places[a], places[b]))), 1.0) for a, b in pairs]


def height(places: Places, a: str, b: str) -> Measurement:
    rise = float(np.subtract(places[b], places[a]) @ NOSE_UP)
    return Along(a, b, "z", rise, 1.5, plumb=True)


def solved(places: Places, taken: list[Measurement], *sides: Side) -> SolvedSurvey:
    points = tuple(SurveyPoint(name) for name in places)
    return solve(Survey("s", "", "mm", points, (), tuple(taken), DATUM, sides))


def off(places: Places, found: SolvedSurvey) -> float:
    return max(float(np.linalg.norm(np.subtract(p.at, places[p.name]))) for p in found.points)


def test_heights_by_level_tell_no_mirror_image_of_the_whole_from_the_other() -> None:
    """Gravity, which nobody gave in this frame, is mirrored with the figure."""
    places = WALL | RING
    taken = tape(places, *combinations(places, 2)) + [height(places, "F", name) for name in "PQR"]
    asked = solved(places, taken)
    assert asked.structure is None
    assert [set(mirror.moves) for mirror in asked.mirrors if not mirror.resolved] == [set(RING)]
    ahead, behind = (solved(places, taken, Side("P", (way, 0.0, 0.0), "F")) for way in (1.0, -1.0))
    mirrored = {name: (-x, y, z) for name, (x, y, z) in places.items()}
    assert not ahead.says
    assert off(places, ahead) < 0.01
    assert not behind.says
    assert off(mirrored, behind) < 0.01


def test_a_side_that_two_flips_together_satisfy_too_settles_neither() -> None:
    """S hangs on P, Q and R: it may be ahead of F in the whole as in its mirror image."""
    places = WALL | RING | {"S": (720.0, 310.0, 230.0)}
    taken = tape(places, *combinations(WALL | RING, 2), *(("S", n) for n in RING))
    across = np.array(places["S"])
    p, q, r = (np.array(places[name]) for name in RING)
    normal = np.cross(q - p, r - p)
    normal /= np.linalg.norm(normal)
    flipped = across - 2.0 * float((across - p) @ normal) * normal
    assert flipped[0] < 0.0 < across[0]
    by_s = solved(places, taken, Side("S", AHEAD, "F"))
    assert by_s.structure is None
    assert any(not mirror.resolved for mirror in by_s.mirrors)
    both = solved(places, taken, Side("S", AHEAD, "F"), Side("P", AHEAD, "F"))
    assert all(mirror.resolved for mirror in both.mirrors)
    assert not both.says
    assert off(places, both) < 0.01


def test_a_point_almost_in_the_plane_of_its_three_is_asked_for_or_cautioned() -> None:
    """Height h and ± of about 1 mm x 300 / h: the images are farther apart than that from about 15 mm on."""
    high, low = (WALL | RING | {"S": (h, 290.0, 190.0)} for h in (40.0, 4.0))
    for places, asks in ((high, True), (low, False)):
        pairs = (*combinations(WALL | RING, 2), *(("S", n) for n in WALL))
        found = solved(places, tape(places, *pairs), Side("P", AHEAD, "F"))
        open_still = [mirror.point for mirror in found.mirrors if not mirror.resolved]
        assert (open_still == ["S"]) == asks
        assert found.structure is None or not asks
