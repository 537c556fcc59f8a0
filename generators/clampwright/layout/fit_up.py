"""The fit-up plan: holes that meet parts which are not quite where they were measured.

A clamp slides along its tube and so takes up any error along it. One tube's clamps are the reference: they
can be slid to the distance of their holes, so those holes are drilled now. A hole over another tube sees
the error of the distance between the two tubes, square to its own. What the play of bolt, hole and foot
does not cover is drilled as a pilot and transferred in place. A gap is never closed with the bolt.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from math import atan2, degrees, hypot, sqrt

from clampwright.layout.placed import ClampPlace, FitUp, FitUpPlan, Frame, Hole, PlacedComponent
from clampwright.layout.shims_ready import ready
from clampwright.layout.slot import cover, opening_mm
from clampwright.quantities import Vec3, show_length
from clampwright.recipe.model import Measuring
from clampwright.trade import bolts
from clampwright.trade.fasteners import nominal_mm
from clampwright.trade.tables import rule

NOW = "drill now"
PILOT = "pilot, transfer in place"
SLOT = "slot"


def plan(
    clamps: Sequence[ClampPlace],
    components: Sequence[PlacedComponent],
    holes: Sequence[Hole],
    measuring: Measuring,
    frame: Frame,
    *,
    rounding_mm: float,
    units: str = "mm",
) -> FitUpPlan:
    """How every hole is made and which shims to have ready, from the stated measuring error.

    Parameters
    ----------
    clamps, components, holes
        Of the layout; a clamp hole's `owner` is its clamp's label.
    measuring
        ± of a measured tube coordinate, 95 %.
    frame
        The part's frame, for the direction of slots.
    rounding_mm
        Increment to which the clamp holes' coordinates were rounded.
    units
        "mm" or "in", of the figures in sentences.

    Notes
    -----
    `uncertainty_mm` of a clamp hole is `across_tubes_mm`, 0 on the reference tube; of a component's hole
    `caliper-error`. `clearance_mm` is `clearance_mm`. The reference is the tube with the most clamps, the
    first of several. Holes stand in the order of work: the reference's, the other clamps', the
    components', lightening holes.
    """
    by_label = {clamp.label: clamp for clamp in clamps}
    tube = reference_tube(clamps)
    first = next((clamp for clamp in clamps if clamp.tube == tube), None)
    many = {part.name: len(part.holes) for part in components}

    def fit(hole: Hole) -> FitUp:
        clamp = by_label.get(hole.owner) if hole.purpose == "clamp" else None
        if clamp is not None and first is not None:
            return _clamp_hole(hole, clamp, first, measuring.error_mm, rounding_mm, frame, units)
        if hole.purpose == "component":
            return _component_hole(hole, many.get(hole.owner, 1), units)
        return FitUp(hole.label, NOW, 0.0, 0.0, "Nothing is bolted through it: cut it after the fit.", "")

    return FitUpPlan(
        error_mm=measuring.error_mm,
        error_given=measuring.given,
        holes=tuple(fit(hole) for hole in sorted(holes, key=lambda hole: _turn(hole, by_label, tube))),
        shims=ready(clamps, measuring.error_mm, units),
    )


def reference_tube(clamps: Sequence[ClampPlace]) -> str:
    """The tube with the most clamps, the first of several; "" without clamps."""
    counts = Counter(clamp.tube for clamp in clamps)
    return max(counts, key=lambda tube: counts[tube], default="")


def across_tubes_mm(error_mm: float, rounding_mm: float, reach_mm: float = 0.0) -> float:
    """± of a hole's place against a tube other than the reference, square to that tube (95 %).

    Two tubes' coordinates of error e each, two holes' coordinates rounded to r, and the clamps' reach:
    √(2·e² + 2·(r/√3)² + reach²). Rounding is evenly spread over ± r/2: standard deviation r/√12, twice
    that at 95 % (JCGM 100, 4.3.7). Between the measured ends of a tube the error of its axis is e or
    less, so that e stands for every station.

    Examples
    --------
    >>> round(across_tubes_mm(1.5, 0.0), 3)
    2.121
    """
    return sqrt(2 * error_mm**2 + 2 * rounding_mm**2 / 3 + reach_mm**2)


def reach_error_mm(one: ClampPlace, other: ClampPlace) -> float:
    """± that the reach of two clamps adds between their holes: 0 on one tube where both lie on one side.

    Measured reaches err on their own (root sum square of `caliper-error`); defaults err the same way, so
    that `reach-error-default` counts in full for each.
    """
    if one.tube == other.tube and one.turn == other.turn:
        return 0.0
    errors = [
        rule("caliper-error" if "reach" in clamp.measured else "reach-error-default").value
        for clamp in (one, other)
    ]
    both = "reach" in one.measured and "reach" in other.measured
    return hypot(*errors) if both else sum(errors)


def largest_shank_mm(fastener: str) -> float:
    """Largest shank of a bolt, nominal diameter of a screw size.

    Examples
    --------
    >>> round(largest_shank_mm("AN3"), 4), round(largest_shank_mm("#8"), 4)
    (4.8006, 4.1656)
    """
    if fastener in bolts.bolt_names():
        return bolts.bolt(fastener).shank_max_mm
    return nominal_mm(fastener)


def clearance_mm(fastener: str, *diameters_mm: float) -> float:
    """± that a bolt can stand off centre in a row of holes: Σ (hole − largest shank)/2.

    Examples
    --------
    An AN3 bolt in a 0.196 in plate hole and a 0.203 in foot: (0.007 + 0.014)/2 in.

    >>> round(clearance_mm("AN3", 4.9784, 5.1562), 4)
    0.2667
    """
    shank = largest_shank_mm(fastener)
    return sum(max(0.0, (diameter - shank) / 2) for diameter in diameters_mm)


def _turn(hole: Hole, by_label: dict[str, ClampPlace], tube: str) -> int:
    """Place in the order of work."""
    if hole.purpose == "clamp":
        clamp = by_label.get(hole.owner)
        return 0 if clamp is not None and clamp.tube == tube else 1
    return 2 if hole.purpose == "component" else 3


def _clamp_hole(
    hole: Hole,
    clamp: ClampPlace,
    first: ClampPlace,
    error_mm: float,
    rounding_mm: float,
    frame: Frame,
    units: str,
) -> FitUp:
    reach = reach_error_mm(clamp, first)
    on_reference = clamp.tube == first.tube
    unsure = reach if on_reference else across_tubes_mm(error_mm, rounding_mm, reach)
    play = clearance_mm(hole.fastener, hole.diameter_mm, clamp.clamp.foot_hole_mm)
    sure = f"± {show_length(unsure, units)} against ± {show_length(play, units)} of play in plate and foot"
    if on_reference and not reach:
        why = (
            f"{clamp.tube} is the reference: its clamps slide to the holes, and errors along it cost nothing."
        )
    elif on_reference:
        why = f"On the reference tube, on the other side of it from {first.label}: {sure}."
    else:
        why = f"Distance between {first.tube} and {clamp.tube} as measured: {sure}."
    if reach and "reach" not in clamp.measured & first.measured:
        why += f" Of that ± {show_length(reach, units)} is the clamps' reach, which nobody measured."
    bearing = _across_deg(frame, clamp.axis)
    direction = f"long way square to {clamp.tube} ({bearing:.0f}° from u)"
    return _decided(hole, unsure, play, why, direction, units)


def _component_hole(hole: Hole, many: int, units: str) -> FitUp:
    unsure = rule("caliper-error").value if many > 1 else 0.0
    play = clearance_mm(hole.fastener, hole.diameter_mm)
    if many == 1:
        return FitUp(hole.label, NOW, unsure, play, f"The only hole of {hole.owner}: nothing to match.", "")
    why = (
        f"Pattern of {hole.owner} taken with calipers: ± {show_length(unsure, units)} against "
        f"± {show_length(play, units)} of play in the plate, the lug's own hole not counted."
    )
    if unsure <= play:
        return FitUp(hole.label, NOW, unsure, play, why, "")
    why += f" Transfer from {hole.owner} itself."
    return FitUp(hole.label, PILOT, unsure, play, why, _other_way(hole, unsure - play, "", units))


def _decided(hole: Hole, unsure: float, play: float, why: str, direction: str, units: str) -> FitUp:
    lacking = unsure - play
    if lacking <= 0:
        return FitUp(hole.label, NOW, unsure, play, why, "")
    other = _other_way(hole, lacking, direction, units)
    if other and 2 * lacking <= rule("slot-lengthening-most").value:
        why += f" A little filing does it: {other}."
        return FitUp(hole.label, SLOT, unsure, play, why, PILOT)
    return FitUp(hole.label, PILOT, unsure, play, why, other)


def _other_way(hole: Hole, lacking: float, direction: str, units: str) -> str:
    """A slot (where `direction` is given) or oversize hole and its large washer, or ""."""
    length = opening_mm(hole.diameter_mm, lacking)
    large = cover(hole.fastener, hole.diameter_mm, length)
    if large is None:
        return ""
    size = show_length(length, units)
    if direction:
        opening = f"a slot {show_length(hole.diameter_mm, units)} x {size}, {direction},"
    else:
        opening = f"an oversize hole of {size}"
    return f"{opening} under a large washer {large.part}"


def _across_deg(frame: Frame, axis: Vec3) -> float:
    """Direction square to a tube in the part's plane, degrees from u, 0 to 180."""
    along_u, along_v = (sum(a * b for a, b in zip(axis, way, strict=True)) for way in (frame.u, frame.v))
    return degrees(atan2(along_u, -along_v)) % 180.0
