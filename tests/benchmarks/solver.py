"""Prints how long the search for 6 holes on 8 tubes takes: 16 777 216 ways to assign holes to sides.

    python tests/benchmarks/solver.py

The budget is a second for each structure, every assignment looked at or ruled out by a bound that loses none.
Where nothing fits, near misses take further passes with larger and larger misfits.
"""

from __future__ import annotations

import math
import sys
import time
from dataclasses import replace
from pathlib import Path

import numpy as np
import numpy.typing as npt

sys.path.insert(0, str(Path(__file__).parents[1]))

from joined_recipes import MEASURED, bushing_job, bushing_recipe

from clampwright.layout.mounting.holders import holders
from clampwright.layout.mounting.solving import Solved, solve
from clampwright.recipe.bushing_model import BushingJob, ClampsOn, Lug, Pose
from clampwright.recipe.model import Recipe
from clampwright.structure.tubes import Structure, Tube

HOLES = ((-60.0, -40.0), (60.0, -45.0), (70.0, 50.0), (-55.0, 40.0), (5.0, 70.0), (0.0, -75.0))
GRID = ((-75.0, -75.0), (0.0, -75.0), (75.0, -75.0), (-75.0, 75.0), (0.0, 75.0), (75.0, 75.0))
BUDGET_S = 1.0


def scattered() -> list[Tube]:
    """Tubes across one another in all directions of a plane, at slightly different heights: every set of
    them can carry the component, each with a normal of its own."""
    rng = np.random.default_rng(3)
    return [
        _tube(k, rng.uniform(0, math.pi), rng.uniform(-150, 150, 2), rng.uniform(-5, 5)) for k in range(8)
    ]


def side_by_side() -> list[Tube]:
    """Parallel tubes at even distances, as a pattern of holes at even distances likes them."""
    return [_tube(k, 0.0, np.array([0.0, 75.0 * k - 260.0]), 0.0) for k in range(8)]


def crossed() -> list[Tube]:
    """Four tubes square across four others."""
    rows = [_tube(k, 0.0, np.array([0.0, 110.0 * k - 165.0]), 0.0) for k in range(4)]
    return rows + [_tube(k + 4, math.pi / 2, np.array([110.0 * k - 165.0, 0.0]), 0.0) for k in range(4)]


def recipe(tubes: list[Tube], holes: tuple[tuple[float, float], ...]) -> Recipe:
    """A component of six holes that may go anywhere, any way round."""
    job = bushing_job()
    component = replace(job.component, lugs=tuple(Lug(at, 3.0, 0.0) for at in holes), body=None)
    pose = Pose(None, None, (0.0, 0.0, 1.0), None, None, False, 3.0)
    clamps = ClampsOn(tuple(t.name for t in tubes), None, MEASURED, None, ())
    return bushing_recipe(Structure(tuple(tubes)), component=component, pose=pose, clamps=clamps)


def timed(asked: Recipe, *, wider: bool, runs: int = 3) -> tuple[float, Solved]:
    """Best time of some runs, and what was found."""
    best = math.inf
    for _ in range(runs):
        start = time.perf_counter()
        solved = solve(asked.asked(BushingJob), holders(asked), wider=wider)
        best = min(best, time.perf_counter() - start)
    assert solved is not None
    return best, solved


def main() -> None:
    """Print the table."""
    print(f"{'6 holes, 8 tubes':<42}{'examined':>12}{'fit':>7}{'time':>9}  budget {BUDGET_S:.1f} s")
    for made in (scattered, side_by_side, crossed):
        for pattern, holes in (("odd pattern", HOLES), ("even pattern", GRID)):
            asked = recipe(made(), holes)
            for wider in (False, True):
                took, solved = timed(asked, wider=wider)
                name = f"{made.__name__}, {pattern}{', near misses' if wider else ''}"
                verdict = "" if wider else "within" if took <= BUDGET_S else "OVER"
                print(f"{name:<42}{solved.examined:>12}{solved.fitting:>7}{took:>7.2f} s  {verdict}")


def _tube(number: int, angle: float, middle: npt.NDArray[np.float64], height: float) -> Tube:
    half = 300.0 * np.array([math.cos(angle), math.sin(angle)])
    (x, y), (dx, dy) = middle.tolist(), half.tolist()
    return Tube(f"t{number}", (x - dx, y - dy, height), (x + dx, y + dy, height), 19.05)


if __name__ == "__main__":
    main()
