"""What fills the gap between a clamp's foot and the part: nothing, washers, a shim or a bushing."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations_with_replacement
from math import pi

from clampwright.layout.placed import StackItem
from clampwright.quantities import show_length
from clampwright.trade.hardware import Washer, washers
from clampwright.trade.tables import rule

STEPS = {"mm": "metric", "in": "inch"}
CUBIC_METRES = 1e-9


def pack(
    gap_mm: float, bolt: str, temperature_c: float, units: str, *, most_washers: int | None = None
) -> tuple[StackItem, ...]:
    """The pieces between plate and foot, from the plate down, one item a piece.

    In this order: nothing below the rule `gap-nothing`; flat washers whose sum comes within
    `gap-washer-tolerance` of the gap, the fewest first; from `bushing-least` up a bushing of the
    gap's length; else a shim, under as many washers as leave less than a thin washer to fill.

    Parameters
    ----------
    gap_mm
        Distance from the plate's near face to the foot's outer face.
    bolt
        Bolt size through the gap, "AN3" or "M5".
    temperature_c
        Of the zone: bushings are aluminium up to `packing-aluminium-most`, stainless steel above.
        Shims are stainless steel and serve at any temperature.
    units
        "mm" or "in": increment of the made lengths (bushing 0.1 mm or 0.005 in, shim 0.05 mm or
        0.002 in) and the figures in `part`.
    most_washers
        Most washers to use; None: the rule `gap-washers-most`.

    Examples
    --------
    >>> [item.part for item in pack(0.8, "AN3", 90, "in")]
    ['AN960-10L']
    >>> [item.part for item in pack(12.77, "AN3", 90, "in")]
    ['bushing, 6061-T6, 0.4375 in OD x 0.1975 in bore x 0.505 in']
    >>> pack(0.05, "AN3", 90, "in")
    ()
    """
    if gap_mm < rule("gap-nothing").value:
        return ()
    most = int(rule("gap-washers-most").value) if most_washers is None else most_washers
    sets = _washer_sets(bolt, most)
    alone = _alone(gap_mm, sets)
    if alone:
        return tuple(washer_item(w, "washers") for w in alone)
    if gap_mm >= rule("bushing-least").value:
        return (_bushing(gap_mm, bolt, temperature_c, units),)
    under = _above_shim(gap_mm, sets)
    rest = gap_mm - _height(under)
    return (*(washer_item(w, "washers") for w in under), _shim(rest, bolt, units))


def washer_item(washer: Washer, name: str = "washer") -> StackItem:
    """A washer as a layer of a stack.

    Examples
    --------
    >>> from clampwright.trade.hardware import washer
    >>> thin = washer("AN3", "thin")
    >>> thin is not None and washer_item(thin).part
    'AN960-10L'
    """
    return StackItem(
        name,
        washer.part,
        washer.thickness_mm,
        od_mm=washer.od_mm,
        id_mm=washer.id_mm,
        mass_kg=washer.mass_kg,
        source=washer.source,
    )


def flat_washers(bolt: str) -> tuple[Washer, ...]:
    """Regular and thin washers of a bolt, thinnest first; empty where the tables have none.

    Examples
    --------
    >>> [washer.part for washer in flat_washers("AN4")]
    ['AN960-416L', 'AN960-416']
    """
    try:
        return tuple(washer for washer in washers(bolt) if washer.kind in ("thin", "regular"))
    except LookupError:
        return ()


def _washer_sets(bolt: str, most: int) -> list[tuple[Washer, ...]]:
    """Every choice of up to `most` washers, fewest first."""
    flat = flat_washers(bolt)
    return [chosen for count in range(most + 1) for chosen in combinations_with_replacement(flat, count)]


def _height(pieces: Sequence[Washer]) -> float:
    return sum(piece.thickness_mm for piece in pieces)


def _alone(gap_mm: float, sets: Sequence[tuple[Washer, ...]]) -> tuple[Washer, ...]:
    tolerance = rule("gap-washer-tolerance").value
    near = [chosen for chosen in sets if chosen and abs(_height(chosen) - gap_mm) <= tolerance]
    return min(near, key=lambda chosen: (len(chosen), abs(_height(chosen) - gap_mm)), default=())


def _above_shim(gap_mm: float, sets: Sequence[tuple[Washer, ...]]) -> tuple[Washer, ...]:
    """The fewest washers that leave less to fill than a thin washer."""
    thinnest = min((_height(chosen) for chosen in sets if chosen), default=gap_mm)
    fair = [chosen for chosen in sets if 0 < gap_mm - _height(chosen) <= thinnest]
    below = [chosen for chosen in sets if _height(chosen) < gap_mm]
    return min(fair, key=lambda c: (len(c), -_height(c)), default=max(below, key=_height))


def _rounded(value_mm: float, step_mm: float) -> float:
    return max(1, round(value_mm / step_mm)) * step_mm


def _ring_mass(density: float, outside_mm: float, bore_mm: float, length_mm: float) -> float:
    return density * pi / 4 * (outside_mm**2 - bore_mm**2) * length_mm * CUBIC_METRES


def _bushing(gap_mm: float, bolt: str, temperature_c: float, units: str) -> StackItem:
    length = _rounded(gap_mm, rule(f"bushing-step-{STEPS[units]}").value)
    cool = temperature_c <= rule("packing-aluminium-most").value
    material = "6061-T6" if cool else "304 stainless"
    return _ring("bushing", material, length, bolt, units)


def _shim(gap_mm: float, bolt: str, units: str) -> StackItem:
    thickness = _rounded(gap_mm, rule(f"shim-step-{STEPS[units]}").value)
    return _ring("shim", "304 stainless", thickness, bolt, units)


def _ring(name: str, material: str, length_mm: float, bolt: str, units: str) -> StackItem:
    """A turned or cut ring round the bolt, with everything needed to make it in `part`."""
    outside, bore = rule(f"bushing-od-{bolt.lower()}"), rule(f"bushing-id-{bolt.lower()}")
    density = rule(
        "packing-density-aluminium" if material == "6061-T6" else "packing-density-stainless"
    ).value
    od, hole, length = (show_length(v, units) for v in (outside.value, bore.value, length_mm))
    return StackItem(
        name,
        f"{name}, {material}, {od} OD x {hole} bore x {length}",
        length_mm,
        od_mm=outside.value,
        id_mm=bore.value,
        mass_kg=_ring_mass(density, outside.value, bore.value, length_mm),
        source=outside.source,
    )
