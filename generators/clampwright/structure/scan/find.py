"""Round straight tubes in a scan: where they run, how thick they are, and how sure that is."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import numpy as np

from clampwright.quantities import Vec3
from clampwright.structure.found import Found, FoundTube, NotTaken
from clampwright.structure.not_readable import NotReadable
from clampwright.structure.scan.choosing import Chosen, chosen
from clampwright.structure.scan.cloud import Array, Cloud, reach
from clampwright.structure.scan.doubts import doubts, of_file
from clampwright.structure.scan.drawn import as_drawn, is_drawing
from clampwright.structure.scan.gathering import Step, gathered
from clampwright.structure.scan.reading import read_cloud
from clampwright.structure.scan.sample import Sample, sample_of
from clampwright.structure.scan.spread import ends_along, factor, spread
from clampwright.structure.scan.straight import bow
from clampwright.structure.scan.unit import MM, unit_of
from clampwright.structure.stock_sizes import stock_size
from clampwright.structure.tubes import Tube
from clampwright.trade.tables import rule

_NOT_TAKEN_MOST = 40


def _quiet(words: str, share: float | None) -> None:
    """Says nothing of how far the search is."""


def tubes_in_scan(path: Path, unit: str | None = None, step: Step = _quiet, *, units: str = "mm") -> Found:
    """Every round straight tube in a mesh or in points, and the round things that were not taken for one.

    Parameters
    ----------
    path : Path
        STL, PLY or OBJ, or lines of x, y, z.
    unit : str, optional
        "mm", "cm", "m" or "in"; guessed from the size where nobody says it.
    step : function, optional
        Told what is being done, and what share of it is done where that is known.
    units : str
        "mm" or "in": what lengths are said in, in doubts and in why something was not taken.

    Raises
    ------
    NotReadable
        For a file that no tubes can be looked for in: what is wrong with it, and what to do.
    """
    step(f"reading {path.name}", None)
    read = read_cloud(path)
    name, how = unit_of(read.points, unit, units)
    cloud = read.times(MM[name])
    size = reach(cloud.points)
    middle = np.median(cloud.points[:: max(1, len(cloud.points) // 100_000)], axis=0)
    step("looking which way the skin faces", None)
    about = _cut_away(Cloud(cloud.points - middle, cloud.facets, cloud.left_out))
    sample = sample_of(about)
    tubes, not_taken = found_with(about, sample, middle, step, units)
    return Found(
        path.name,
        name,
        how,
        tubes,
        not_taken,
        _place(size),
        read.looked_at,
        of_file(sample, read, tubes, units),
    )


def found_in(cloud: Cloud, origin: Array) -> tuple[tuple[FoundTube, ...], tuple[NotTaken, ...]]:
    """Tubes, and what was not taken, in a cloud in mm that lies about its own origin; `origin` is added."""
    cloud = _cut_away(cloud)
    return found_with(cloud, sample_of(cloud), origin, _quiet)


def found_with(
    cloud: Cloud, sample: Sample, origin: Array, step: Step, units: str = "mm"
) -> tuple[tuple[FoundTube, ...], tuple[NotTaken, ...]]:
    """The same, with the sample of the cloud at hand."""
    step("looking for round pieces", 0.0)
    pieces = gathered(sample, step)
    step("fitting the tubes", None)
    taken, not_taken = chosen(cloud, sample, pieces, origin, units)
    return _numbered(taken, origin, units), tuple(not_taken[:_NOT_TAKEN_MOST])


def _cut_away(cloud: Cloud) -> Cloud:
    """Without stray points so far off that they would spread the cells of the search over nothing."""
    if cloud.facets is not None:
        return cloud
    long = float(np.linalg.norm(reach(cloud.points)))
    near = np.abs(cloud.points).max(axis=1) < 3.0 * long + 1.0
    if int(near.sum()) < 30:
        raise NotReadable("its points lie too far apart", "export the whole scan")
    return cloud if bool(near.all()) else Cloud(cloud.points[near])


def _numbered(taken: list[Chosen], origin: Array, units: str) -> tuple[FoundTube, ...]:
    order = sorted(taken, key=lambda tube: tube.fitted.low - tube.fitted.high)
    drawn = is_drawing([tube.fitted.rms for tube in taken])
    found = [_found(n, each, origin, drawn) for n, each in enumerate(order, start=1)]
    return tuple(replace(tube, doubts=doubts(tube, found, units)) for tube in found)


def _found(number: int, tube: Chosen, origin: Array, drawn: bool) -> FoundTube:
    """As found, of the stock size that it agrees with, unless it was seen from one side only."""
    found = _as_fitted(number, tube, origin)
    if drawn:
        found = as_drawn(found)
    stock = stock_size(found.od_found_mm, found.od_plus_minus_mm or rule("scan-od-agrees").value)
    if stock is None:
        return found
    one_sided = math.degrees(found.coverage_rad) < rule("scan-coverage-one-sided").value
    used = found.tube if one_sided else replace(found.tube, od_mm=stock[1])
    return replace(found, tube=used, stock=stock[0])


def _as_fitted(number: int, tube: Chosen, origin: Array) -> FoundTube:
    fitted, skin, cylinder = tube.fitted, tube.skin, tube.fitted.cylinder
    how, bent = spread(fitted), bow(fitted)
    start, end = (_place(cylinder.point + s * cylinder.axis + origin) for s in (fitted.low, fitted.high))
    return FoundTube(
        number,
        Tube(f"tube-{number}", start, end, 2 * cylinder.radius),
        2 * cylinder.radius,
        how.od_plus_minus,
        "",
        tube.bore,
        skin.angle,
        max(how.across(fitted.low), how.across(fitted.high)),
        how.angle_plus_minus,
        fitted.rms,
        fitted.count,
        factor(fitted, how),
        along_plus_minus_mm=ends_along(fitted),
        skin_share=skin.share,
        gaps_mm=skin.gaps(),
        bow_mm=bent.bow if bent.sure else 0.0,
    )


def _place(point: Array) -> Vec3:
    return float(point[0]), float(point[1]), float(point[2])
