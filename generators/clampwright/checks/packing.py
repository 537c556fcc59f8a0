"""Packing: the gap between foot and plate is filled, and no bushing is so tall that its bolt bends."""

from __future__ import annotations

from functools import partial

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.finding import Finding
from clampwright.checks.wording import at_least, at_most, shown
from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.cut_long import longer_at
from clampwright.layout.how_sure import known_to
from clampwright.layout.known_to import KnownTo, known
from clampwright.layout.placed import ClampPlace, PlateLayout
from clampwright.recipe.model import PlateJob
from clampwright.trade.bolts import bolt
from clampwright.trade.tables import Rule, rule

_gap = partial(Finding, "GAP-1", "gap over the foot")
_bushing = partial(Finding, "GAP-2", "bushing height")


OnClamps = PlateLayout | BushingLayout
"""Kinds whose clamps lie under one rigid part."""


def carried(layout: OnClamps) -> str:
    """The rigid part that lies on the clamps, in a word."""
    return "plate" if isinstance(layout, PlateLayout) else "component"


def gap(layout: OnClamps) -> tuple[Finding, ...]:
    """GAP-1: what packs each gap is as thick as the gap; the bolt is never to pull it closed."""
    return tuple(_packed(c, layout) for c in layout.clamps)


def packing_thickness(place: ClampPlace) -> float:
    """Thickness of washers, shim or bushing between foot and plate, mm."""
    return sum(i.thickness_mm * i.count for i in place.packing)


def rests_on_a_default(place: ClampPlace, layout: OnClamps) -> bool:
    """Whether a gap rests on a seat nobody measured.

    The plate's height comes from the highest foot, so that clamp's gap is the stand-off whatever its seat;
    the others' gaps are differences of seats, where a default cancels out between clamps of one size and
    one seat.
    """
    return bool(_seats_to_measure(place, layout))


def _seats_to_measure(place: ClampPlace, layout: OnClamps) -> tuple[ClampPlace, ...]:
    """The clamps, this one and the highest, whose default seats a gap rests on."""
    highest = min(layout.clamps, key=lambda c: c.gap_mm)
    one, other = place.clamp, highest.clamp
    alike = one.part == other.part and abs(one.seat_mm - other.seat_mm) <= SAME_MM
    if place.gap_mm <= highest.gap_mm + SAME_MM or alike:
        return ()
    return tuple(c for c in (place, highest) if "seat" not in c.measured)


def _limit(place: ClampPlace) -> Rule:
    """How near the packing has to come to the gap: washers come in fixed thicknesses."""
    only_washers = bool(place.packing) and all(i.name == "washers" for i in place.packing)
    return rule("gap-washer-tolerance" if only_washers else "gap-nothing")


def _packed(place: ClampPlace, layout: OnClamps) -> Finding:
    most = _limit(place)
    packing = packing_thickness(place)
    left = place.gap_mm - packing
    found = partial(_gap, where=place.label, value=left, limit=most.value, unit="mm", sources=(most.source,))
    gap_is = f"Gap of {shown(place.gap_mm, layout)}, packed with {shown(packing, layout)}"
    if left > most.value + SAME_MM:
        says = f"{gap_is}: the bolt would pull the {carried(layout)} down {shown(left, layout)}."
        return found(verdict="fail", says=says, change=f"Pack it with {shown(place.gap_mm, layout)}.")
    if left < -most.value - SAME_MM:
        says = f"{gap_is}: the {carried(layout)} would stand {shown(-left, layout)} too high here."
        change = f"Pack it with {at_most(max(place.gap_mm, 0.0), layout)}; no shim thicker than the gap."
        return found(verdict="fail", says=says, change=change)
    says = _filled(place, packing, layout)
    sure = known(place.label, known_to(layout))
    found = partial(found, plus_minus=None if sure is None else sure.gap_mm)
    doubt = rule("gap-doubt-most").value
    unsure = sure if sure is not None and sure.gap_mm > doubt + SAME_MM else None
    if unsure is not None:
        says = f"{says} {_known(unsure, layout)}"
    if rests_on_a_default(place, layout):
        taken = " and ".join(
            f"{c.clamp.part} ({shown(c.clamp.seat_mm, layout)} was taken)"
            for c in _seats_to_measure(place, layout)
        )
        change = f"Before making the packing measure the seat of {taken}: what it is off, the gap is off."
        if unsure is not None:
            change = f"{change} {_found_first(place, unsure, layout)}"
        return found(verdict="unknown", says=f"{says} It rests on default seats.", change=change)
    if unsure is not None:
        verdict = "caution" if unsure.gap_given else "unknown"
        return found(verdict=verdict, says=says, change=_found_first(place, unsure, layout))
    return found(verdict="pass", says=says, change="")


def _known(sure: KnownTo, layout: OnClamps) -> str:
    """How well a gap is known, and from what."""
    why = "" if sure.gap_given else ", a default nobody measured"
    most = f", most of it from {sure.gap_most_from}" if sure.gap_most_from else ""
    return f"The gap is known to ± {shown(sure.gap_mm, layout)}{why}{most}."


def _found_first(place: ClampPlace, sure: KnownTo, layout: OnClamps) -> str:
    """What is done about a gap that is not known well enough to make its packing beforehand."""
    if any(item.name == "bushing" for item in place.packing):
        longer = longer_at(place.label, layout.bushings, known_to(layout), layout.recipe.units)
        return (
            f"Cut the bushing {shown(longer, layout)} longer than listed, measure the gap with the "
            f"{carried(layout)} on its other feet, and trim it to that."
        )
    return (
        f"Measure the gap with the {carried(layout)} on its other feet before packing it, and have shims "
        f"ready up to {at_least(place.gap_mm + sure.gap_mm, layout)}."
    )


def _filled(place: ClampPlace, packing: float, layout: OnClamps) -> str:
    if not place.packing:
        return f"The foot meets the {carried(layout)}; nothing to pack."
    names = ", ".join(_piece(i.count, i.part or i.name) for i in place.packing)
    return f"Gap of {shown(place.gap_mm, layout)}, packed with {shown(packing, layout)}: {names}."


def _piece(count: int, part: str) -> str:
    return part if count == 1 else f"{count} x {part}"


def bushing_height(layout: PlateLayout) -> tuple[Finding, ...]:
    """GAP-2: no bushing on a single bolt is taller than a few bolt diameters."""
    return tuple(_tall(c, layout) for c in layout.clamps if any(i.name == "bushing" for i in c.packing))


def _tall(place: ClampPlace, layout: PlateLayout) -> Finding:
    usual, most = rule("bushing-height-usual"), rule("bushing-height-most")
    size = bolt(place.stack.bolt)
    height = packing_thickness(place)
    ratio = height / size.nominal_mm
    found = partial(_bushing, where=place.label, value=ratio, unit="D")
    says = f"Bushing {shown(height, layout)} tall on one {size.name}: {ratio:.1f} bolt diameters"
    if height <= usual.value * size.nominal_mm + SAME_MM:
        return found(verdict="pass", limit=usual.value, says=f"{says}.", change="", sources=(usual.source,))
    change = _lower(place, usual.value * size.nominal_mm, layout)
    if height <= most.value * size.nominal_mm + SAME_MM:
        says = f"{says} where {usual.value:g} are usual; a tall bushing rocks and bends its bolt."
        return found(verdict="caution", limit=usual.value, says=says, change=change, sources=(usual.source,))
    says = f"{says} where {most.value:g} are the most: the bolt is a lever, and bends."
    return found(verdict="fail", limit=most.value, says=says, change=change, sources=(most.source,))


def _lower(place: ClampPlace, most_mm: float, layout: PlateLayout) -> str:
    """What brings a bushing down to `most_mm`: less stand-off as far as there is any, else other feet."""
    over = packing_thickness(place) - most_mm
    stand_off = layout.recipe.asked(PlateJob).plate.stand_off_mm
    if stand_off >= over - SAME_MM:
        return f"Set stand_off = {at_most(max(0.0, stand_off - over), layout)} or less."
    rest = (
        "use other tubes, whose clamps stand that much nearer to one level, or a bracket with clamps of its "
        "own at this corner instead of a bushing"
    )
    most = at_most(most_mm, layout)
    if stand_off > 0:
        less = at_least(over - stand_off, layout)
        return f"Set stand_off = 0; to come down the other {less} to {most}, {rest}."
    return f"To come down {at_least(over, layout)} to {most}, {rest}."


GAPS = (
    Check(
        "GAP-1",
        "gap over the foot",
        "Gap between the foot's face and the plate, or the component's lug, less what packs it, and its ±.",
        gap,
        rules=("gap-nothing", "gap-washer-tolerance", "gap-doubt-most", "bushing-trim"),
    ),
)
CHECKS = (
    *GAPS,
    Check(
        "GAP-2",
        "bushing height",
        "Height of each bushing over the nominal diameter of its bolt.",
        bushing_height,
        rules=("bushing-height-usual", "bushing-height-most"),
    ),
)
