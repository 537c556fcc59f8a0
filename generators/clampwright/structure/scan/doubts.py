"""What a person has to look at before using a tube that was found in a scan."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

import numpy as np

from clampwright.quantities import show_length
from clampwright.quantities.directions import dot
from clampwright.structure.found import FoundTube
from clampwright.structure.scan.cloud import Cloud, reach
from clampwright.structure.scan.drawn import said_of_drawing
from clampwright.structure.scan.sample import Sample
from clampwright.structure.stock_sizes import stock_sizes
from clampwright.structure.wording import stretch, with_plus_minus
from clampwright.trade.tables import rule


def doubts(found: FoundTube, all_found: Sequence[FoundTube], units: str = "mm") -> tuple[str, ...]:
    """One sentence for each thing that is to be looked at, lengths in "mm" or "in"."""
    return (
        *_of_diameter(found, units),
        *_of_length(found, units),
        *_of_shape(found, units),
        *_of_others(found, all_found),
    )


def of_file(sample: Sample, cloud: Cloud, tubes: Sequence[FoundTube], units: str = "mm") -> tuple[str, ...]:
    """What is to be known of the scan as a whole: that there is no tube in it, too few points for thin tubes,
    that it is a drawing, and what was left out."""
    said = []
    if not tubes:
        long = show_length(float(np.linalg.norm(reach(sample.points))), units)
        said.append(
            f"No round tube was found in it. It would be {long} from corner to corner: is its unit right?"
        )
    thin = sample.apart_mm / rule("scan-spacing-most").value
    if not sample.outward and thin > rule("scan-od-least").value:
        said.append(
            f"Its points lie about {show_length(sample.apart_mm, units)} apart: tubes thinner than "
            f"{show_length(thin, units)} may be missed or found in pieces; scan more closely for them."
        )
    if tubes and not any(tube.spread_mm for tube in tubes):
        said.append(said_of_drawing(units))
    if cloud.left_out:
        are = "is" if cloud.left_out == 1 else "are"
        what = "point or facet" if cloud.left_out == 1 else "points or facets"
        said.append(f"{cloud.left_out} {what} {are} no number, or without area: left out.")
    return tuple(said)


def _of_diameter(found: FoundTube, units: str) -> Iterator[str]:
    seen = math.degrees(found.coverage_rad)
    size = with_plus_minus(found.od_found_mm, found.od_plus_minus_mm, units)
    if seen < rule("scan-coverage-one-sided").value:
        agrees = f" ({found.stock} agrees with it)" if found.stock else ""
        yield (
            f"Only {seen:.0f}° of it was seen: its diameter, {size}{agrees}, rests on one side and is used "
            "as found; measure it with calipers."
        )
    if not found.stock:
        near = [name for name, od in stock_sizes() if abs(od - found.od_found_mm) <= found.od_plus_minus_mm]
        if near:
            yield f"Its diameter, {size}, agrees with {' and '.join(near)}: measure it with calipers."
        elif seen >= rule("scan-coverage-one-sided").value:
            yield f"Its diameter, {size}, is no stock size (paint? another size?): measure it with calipers."


def _of_length(found: FoundTube, units: str) -> Iterator[str]:
    if found.tube.length_mm < rule("scan-length-short").value * found.od_found_mm:
        yield (
            f"It is short, {found.tube.length_mm / found.od_found_mm:.1f} of its diameters: "
            "a bolt, a bushing or a pipe fitting looks the same."
        )
    for start, end in found.gaps_mm:
        yield f"No skin was seen from station {stretch(start, end, units)}: hidden, or not one tube."


def _of_shape(found: FoundTube, units: str) -> Iterator[str]:
    if found.bow_mm > rule("scan-bow-most").value:
        yield f"Its axis bows by {show_length(found.bow_mm, units)}: it is bent, or two tubes in line."


def _of_others(found: FoundTube, all_found: Sequence[FoundTube]) -> Iterator[str]:
    for other in all_found:
        if other.number != found.number and _in_line(found, other):
            yield f"It is in line with {other.tube.name}: perhaps one tube, hidden in between."


def _in_line(one: FoundTube, other: FoundTube) -> bool:
    radius = 0.5 * one.od_found_mm
    if abs(other.od_found_mm - one.od_found_mm) > 0.3 * radius:
        return False
    if abs(dot(one.tube.direction, other.tube.direction)) < math.cos(math.radians(2.0)):
        return False
    ends = [(end, one.tube.point(one.tube.station(end))) for end in (other.tube.start, other.tube.end)]
    return all(math.dist(end, foot) < 0.3 * radius for end, foot in ends)
