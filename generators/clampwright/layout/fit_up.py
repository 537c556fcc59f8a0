"""The fit-up plan: holes that meet parts which are not quite where they were measured.

A clamp slides along its tube and so takes up any error along it. One tube's clamps are the reference: they
can be slid to the distance of their holes, so those holes are drilled now. A hole over another tube sees
what the tubes err against each other, square to its own (`settling`). What the play of bolt, hole and foot
does not cover is drilled as a pilot and transferred in place. A gap is never closed with the bolt.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import atan2, degrees

from clampwright.layout.known_to import KnownTo, known
from clampwright.layout.measure_again import cure
from clampwright.layout.on_feet import reference_tube
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
    all_known: Sequence[KnownTo],
    frame: Frame,
    *,
    measuring: Measuring,
    units: str = "mm",
) -> FitUpPlan:
    """How every hole is made and which shims to have ready, from how sure each clamp's place is.

    Parameters
    ----------
    clamps, components, holes
        Of the layout; a clamp hole's `owner` is its clamp's label.
    all_known
        What each clamp is known to; a clamp that is not among them is taken as exact.
    frame
        The part's frame, for the direction of slots.
    measuring
        ± of the worst coordinate of a tube's end, and whether anybody stated it: for the sheets.
    units
        "mm" or "in", of the figures in sentences.

    Notes
    -----
    `uncertainty_mm` of a clamp hole is its clamp's `across_mm`; of a component's hole `caliper-error`.
    `clearance_mm` is `clearance_mm`. The reference is the tube with the most clamps, the first of several.
    Holes stand in the order of work: the reference's, the other clamps', the components', lightening holes.
    """
    by_label = {clamp.label: clamp for clamp in clamps}
    tube = reference_tube(clamps)
    many = {part.name: len(part.holes) for part in components}

    def fit(hole: Hole) -> FitUp:
        clamp = by_label.get(hole.owner) if hole.purpose == "clamp" else None
        if clamp is not None:
            sure = known(clamp.label, all_known) or KnownTo(clamp.label, 0.0, 0.0, 0.0, True)
            return _clamp_hole(hole, clamp, tube, sure, frame, units)
        if hole.purpose == "component":
            return _component_hole(hole, many.get(hole.owner, 1), units)
        return FitUp(hole.label, NOW, 0.0, 0.0, "Nothing is bolted through it: cut it after the fit.", "")

    return FitUpPlan(
        error_mm=measuring.error_mm,
        error_given=measuring.given,
        holes=tuple(fit(hole) for hole in sorted(holes, key=lambda hole: _turn(hole, by_label, tube))),
        shims=ready(clamps, all_known, units),
    )


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
    hole: Hole, clamp: ClampPlace, reference: str, sure: KnownTo, frame: Frame, units: str
) -> FitUp:
    play = clearance_mm(hole.fastener, hole.diameter_mm, clamp.clamp.foot_hole_mm)
    why = _why(clamp, reference, sure, play, units)
    direction = f"long way square to {clamp.tube} ({_across_deg(frame, clamp.axis):.0f}° from u)"
    return _decided(hole, sure, play, why, direction, units)


def _why(clamp: ClampPlace, reference: str, sure: KnownTo, play: float, units: str) -> str:
    unsure, forgiven = (show_length(value, units) for value in (sure.across_mm, play))
    figures = f"± {unsure} against ± {forgiven} of play in plate and foot"
    if clamp.tube == reference and not sure.across_mm:
        return (
            f"{clamp.tube} is the reference: its clamps slide to the holes, and errors along it cost nothing."
        )
    if clamp.tube == reference:
        why = f"One of several on the reference tube: {figures}."
    else:
        why = f"Place of {clamp.tube} against {reference} as measured: {figures}."
    if sure.reach_mm:
        why += f" Of that ± {show_length(sure.reach_mm, units)} is the clamps' reach, which nobody measured."
    return why


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


def _decided(hole: Hole, sure: KnownTo, play: float, why: str, direction: str, units: str) -> FitUp:
    unsure = sure.across_mm
    lacking = unsure - play
    if lacking <= 0:
        return FitUp(hole.label, NOW, unsure, play, why, "", "", sure.across_given)
    other, again = _other_way(hole, lacking, direction, units), cure(sure, play, units, "To drill it now")
    if other and 2 * lacking <= rule("slot-lengthening-most").value:
        why += f" A little filing does it: {other}."
        return FitUp(hole.label, SLOT, unsure, play, why, PILOT, again, sure.across_given)
    return FitUp(hole.label, PILOT, unsure, play, why, other, again, sure.across_given)


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
