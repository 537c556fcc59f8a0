"""Choosing the stations of the clamps that the recipe leaves to the tool."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.layout.clamps_wanted import ClampWanted
from clampwright.layout.components import extent
from clampwright.layout.crowding import shortfall, step_past
from clampwright.layout.increment import up_to
from clampwright.layout.trial_places import Site, Trial, trial
from clampwright.layout.tube_lines import TubeLine
from clampwright.trade.tables import rule

Array = npt.NDArray[np.float64]

SHORT, LOPSIDED, NARROW, WIDE, OFF_MIDDLE = 100.0, 1.0, 0.3, 0.1, 0.02
"""What a millimetre costs in the search: short of room; clamps off the middle of the part; clamps nearer
together or farther apart than the footprints; the part off the middle of what the tubes offer. Only their
order matters: room first, then symmetry, then a short plate, then a place amid the tubes."""
_TRIES = 20
"""Trial places to either side of the middle, and twice as many trial spacings."""
_SAME = 1e-6


@dataclass(frozen=True, slots=True)
class Grid:
    """Trial places of the part's middle (p, 2), trial half spacings (h,), and what each costs by itself."""

    places: Array
    halves: Array
    cost: Array
    """(h, p)"""


def choose_stations(wanted: Sequence[ClampWanted], site: Site) -> tuple[tuple[ClampWanted, float], ...]:
    """Every clamp with its station: given ones as they are, the others where they have most room.

    The clamps of a tube stand evenly about the foot of the square from the part's middle to that tube, so
    that they are symmetric round what the plate carries. Spacings and middles are tried on a fixed grid;
    each trial is charged for what it is short of room (see `crowding.shortfall`), for leaving the middle
    and for size, and the cheapest one is taken, the first of equals. Chosen stations are rounded to the
    increment. Where no trial has room for everything, the clamps of every other tube are set wider or
    narrower too, so that those of tubes close by stand past each other (`crowding.step_past`). Where that
    does not serve either, the least bad trial is taken and the checks tell.
    """
    names = [line.tube.name for line in site.lines]
    indices = [names.index(w.tube) for w in wanted]
    if all(w.station_mm is not None for w in wanted):
        return tuple((w, w.station_mm or 0.0) for w in wanted)
    grid = _grid(wanted, indices, site)
    found = _best(wanted, indices, site, grid, 0.0)
    if found[0] > _SAME:
        past = step_past(max(w.clamp.band_width_mm for w in wanted), site)
        others = [_best(wanted, indices, site, grid, extra) for extra in (past, -past)]
        found = min([found, *others], key=lambda each: round(each[1], 6))
    return found[2]


def _best(
    wanted: Sequence[ClampWanted], indices: list[int], site: Site, grid: Grid, extra: float
) -> tuple[float, float, tuple[tuple[ClampWanted, float], ...]]:
    """What the cheapest trial is short of, its cost, and its stations; `extra` on every other tube's half."""
    trials, lopsided = _trials(wanted, indices, site, grid, extra)
    short = shortfall(trials, site)
    total = SHORT * short + LOPSIDED * lopsided + grid.cost + WIDE * abs(extra)
    best = int(np.argmax(total <= total.min() + _SAME))
    stations = tuple((t.wanted, float(t.stations.flat[best])) for t in trials)
    return float(short.flat[best]), float(total.flat[best]), stations


def _trials(
    wanted: Sequence[ClampWanted], indices: list[int], site: Site, grid: Grid, extra: float
) -> tuple[list[Trial], Array]:
    shape = grid.cost.shape
    trials: list[Trial | None] = [None] * len(wanted)
    lopsided = np.zeros(shape)
    for index, line in enumerate(site.lines):
        members = [k for k, i in enumerate(indices) if i == index]
        free = [k for k in members if wanted[k].station_mm is None]
        fixed = [s for k in members if (s := wanted[k].station_mm) is not None]
        foot = np.broadcast_to(_foot(line, grid.places), shape)
        halves = np.maximum(grid.halves + extra * (index % 2), 0.0)[:, None]
        stations, off = _spread(foot, halves, len(free), fixed, site.rooms[index], site.increment_mm)
        lopsided += off
        for k in members:
            given = wanted[k].station_mm
            at = np.full(shape, given) if given is not None else stations[free.index(k)]
            trials[k] = trial(wanted[k], index, at, site)
    return [t for t in trials if t is not None], lopsided


def _spread(
    foot: Array,
    half: Array,
    count: int,
    fixed: list[float],
    room: Sequence[tuple[float, float]],
    increment: float,
) -> tuple[list[Array], Array]:
    """Stations of the free clamps of one tube, and how far their middle had to leave the foot."""
    if count == 0:
        return [], np.abs(np.mean(fixed) - foot)
    if fixed and count == 1:
        parts = np.where(np.mean(fixed) > foot + _SAME, -1.0, 1.0)[None]
    else:
        parts = _parts(count)[:, None, None]
    reach = np.abs(parts).max() * half
    low, high = room[0][0] + reach, room[-1][1] - reach
    middle = np.where(low < high, np.clip(foot, low, np.maximum(low, high)), (low + high) / 2)
    middle = _rounded(middle, increment)
    stations = [_rounded(middle + part * half, increment) for part in parts]
    mean: Array = sum(stations, np.zeros(foot.shape)) + sum(fixed)
    off = np.abs(mean / (count + len(fixed)) - foot)
    return stations, np.where(off > increment, off, 0.0)


def _parts(count: int) -> Array:
    """Even places from -1 to 1; the middle for one."""
    return np.linspace(-1.0, 1.0, count) if count > 1 else np.zeros(1)


def _rounded(stations: Array, increment: float) -> Array:
    if increment <= 0:
        return stations
    return np.floor(stations / increment + 0.5 + _SAME) * increment


def _foot(line: TubeLine, places: Array) -> Array:
    """Station of the axis abreast of each place."""
    run = np.array(line.run)
    foot: Array = (places - np.array(line.start)) @ run / (run @ run)
    return foot


def _grid(wanted: Sequence[ClampWanted], indices: list[int], site: Site) -> Grid:
    counts = [indices.count(i) for i in range(len(site.lines))]
    bands = max(w.clamp.band_width_mm for w in wanted)
    least = (bands + rule("clamp-clearance").value) * (max(counts) - 1) / 2
    reach = max((room[-1][1] - room[0][0]) / 2 for room in site.rooms)
    fixed = _fixed(wanted, indices)
    places, off = _places(site, fixed)
    likely = _likely_half(site, places[0], fixed)
    halves = _halves(least, max(least, reach), likely, site.increment_mm)
    size = np.where(halves < likely, NARROW * (likely - halves), WIDE * (halves - likely))
    return Grid(places, halves, size[:, None] + OFF_MIDDLE * off[None, :])


def _fixed(wanted: Sequence[ClampWanted], indices: list[int]) -> dict[int, list[float]]:
    """Given stations by tube, of tubes that have two or more: these say where the part's middle is."""
    given: dict[int, list[float]] = {}
    for clamp, index in zip(wanted, indices, strict=True):
        if clamp.station_mm is not None:
            given.setdefault(index, []).append(clamp.station_mm)
    return {index: stations for index, stations in given.items() if len(stations) > 1}


def _halves(least: float, most: float, likely: float, increment: float) -> Array:
    """Half spacings to try: the likely one, and even steps either way."""
    likely = min(max(likely, least), most)
    step = max(rule("station-step").value, (most - least) / (2 * _TRIES))
    below, above = math.floor((likely - least) / step), math.floor((most - likely) / step)
    tries = [likely + i * step for i in range(-below, above + 1)]
    return np.array(sorted({up_to(h, increment) for h in tries}))


def _likely_half(site: Site, place: Array, fixed: dict[int, list[float]]) -> float:
    """Half of what given stations span, else of what is carried, else of the distance of the tubes."""
    if fixed:
        return max(max(stations) - min(stations) for stations in fixed.values()) / 2
    box = extent(site.components)
    if box is not None and box[2] > box[0]:
        return (box[2] - box[0]) / 2
    across = [line.plan(float(_foot(line, place)))[1] for line in site.lines]
    return (max(across) - min(across)) / 2


def _places(site: Site, fixed: dict[int, list[float]]) -> tuple[Array, Array]:
    """Trial places of the part's middle, and how far each is from the first."""
    runs = np.array([line.run for line in site.lines])
    values = np.linalg.eigvalsh(runs.T @ runs)
    crosswise = math.cos(math.radians(rule("tubes-crosswise-least").value))
    if values[1] - values[0] < crosswise * values.sum():
        return _crossing(site.lines)[None, :], np.zeros(1)
    lengthwise = [i for i, line in enumerate(site.lines) if abs(line.run[0]) >= crosswise]
    low, high = _common_stretch(site, lengthwise)
    step = max(rule("station-step").value, (high - low) / (2 * _TRIES))
    count = max(0, math.floor((high - low) / 2 / step))
    steps = sorted(range(-count, count + 1), key=lambda i: (abs(i), -i))
    us = (low + high) / 2 + step * np.array(steps)
    if fixed:
        us = np.array([_middle_u(site.lines[i], stations) for i, stations in sorted(fixed.items())])
    vs = np.mean([_across_at(site.lines[i], us) for i in lengthwise], axis=0)
    return np.stack([us, vs], axis=-1), np.abs(us - us[0])


def _middle_u(line: TubeLine, stations: list[float]) -> float:
    return line.plan((min(stations) + max(stations)) / 2)[0]


def _across_at(line: TubeLine, us: Array) -> Array:
    return line.start[1] + (us - line.start[0]) * line.run[1] / line.run[0]


def _common_stretch(site: Site, lengthwise: list[int]) -> tuple[float, float]:
    """Stretch of u that these tubes have room in; its middle (twice) where they have none in common."""
    ends = [
        sorted(site.lines[i].plan(station)[0] for station in (site.rooms[i][0][0], site.rooms[i][-1][1]))
        for i in lengthwise
    ]
    low, high = max(e[0] for e in ends), min(e[1] for e in ends)
    return (low, high) if low <= high else ((low + high) / 2, (low + high) / 2)


def _crossing(lines: Sequence[TubeLine]) -> Array:
    """The place with the least sum of squared distances to the tubes' lines in plan."""
    left, right = np.zeros((2, 2)), np.zeros(2)
    for line in lines:
        run = np.array(line.run) / math.hypot(*line.run)
        square = np.eye(2) - np.outer(run, run)
        left += square
        right += square @ np.array(line.start)
    return np.array(np.linalg.solve(left, right), dtype=float)
