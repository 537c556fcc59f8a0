"""Shims, washers and bushings to have on the bench when the tubes are not where they were measured."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt

from clampwright.layout.increment import up_to
from clampwright.layout.packing import STEPS, flat_washers
from clampwright.layout.placed import ClampPlace, ShimReady
from clampwright.quantities import show_length
from clampwright.trade.tables import rule

EVEN = 6
"""Decimals of a millimetre: feet that differ by less stand equally high, and the first is taken."""


def height_spread_mm(error_mm: float) -> float:
    """± of the height between two feet on measured tubes (95 %): error·√2, two coordinates' errors.

    Examples
    --------
    >>> round(height_spread_mm(1.5), 2)
    2.12
    """
    return error_mm * sqrt(2)


def ready(clamps: Sequence[ClampPlace], error_mm: float, units: str) -> tuple[ShimReady, ...]:
    """What to have ready at each clamp; the part is set on the highest foot, which needs nothing.

    The gap at another clamp lies between gap − error·√2 (not below 0) and gap + error·√2.

    Parameters
    ----------
    clamps
        In the order of the layout.
    error_mm
        ± of a measured coordinate, 95 %.
    units
        "mm" or "in", of the figures in `advice`.
    """
    if not clamps:
        return ()
    highest = max(clamps, key=lambda clamp: round(clamp.seat_z_mm, EVEN))
    return tuple(_reference(c) if c is highest else _ready(c, highest, error_mm, units) for c in clamps)


def _reference(clamp: ClampPlace) -> ShimReady:
    here = "packed as listed" if clamp.packing else "no shim here"
    advice = f"The part is set on this foot, the highest: {here}. Pack the others, close no gap with a bolt."
    return ShimReady(clamp.label, clamp.gap_mm, clamp.gap_mm, clamp.gap_mm, advice)


def _ready(clamp: ClampPlace, highest: ClampPlace, error_mm: float, units: str) -> ShimReady:
    spread = height_spread_mm(error_mm)
    low, high = max(0.0, clamp.gap_mm - spread), clamp.gap_mm + spread
    said = [_pieces(clamp, low, high, units), *_next_dash(clamp, spread)]
    if clamp.gap_mm < spread:
        said.append(f"a foot found higher than {highest.label}'s is left bare, and {highest.label} is packed")
    if "seat" not in clamp.measured and clamp.clamp.seat_mm != highest.clamp.seat_mm:
        said.append("its seat is a default: measure it first")
    return ShimReady(clamp.label, clamp.gap_mm, low, high, "; ".join(said))


def _pieces(clamp: ClampPlace, low: float, high: float, units: str) -> str:
    """Washers that make up every gap to the highest, or a bushing cut long."""
    washers = _washers(clamp.stack.bolt, high)
    if not washers or low >= rule("bushing-least").value:
        return _long_bushing(high, units)
    many = high > rule("bushing-least").value
    return f"{_long_bushing(high, units)}; for a small gap {washers}" if many else washers


def _washers(bolt: str, high: float) -> str:
    flat = flat_washers(bolt)
    if not flat:
        return ""
    thickest, most = flat[-1], int(rule("gap-washers-most").value)
    count = min(most, int(high / thickest.thickness_mm))
    counts = [(1, washer.part) for washer in flat[:-1]] + ([(count, thickest.part)] if count else [])
    return f"{' and '.join(f'{n} x {part}' for n, part in counts)} and shim stock" if counts else "shim stock"


def _long_bushing(high: float, units: str) -> str:
    cut = up_to(high + rule("bushing-trim").value, rule(f"bushing-step-{STEPS[units]}").value)
    return f"a bushing cut {show_length(cut, units)} long and trimmed to the gap found"


def _next_dash(clamp: ClampPlace, spread: float) -> list[str]:
    """The bolts that the stack would need at the ends of the range."""
    stack = clamp.stack
    lower = stack.below if clamp.gap_mm > 0 else None
    parts = [choice.length.part for choice in (lower, stack.above) if choice is not None]
    return [f"{' and '.join(parts)} at hand besides the listed bolt"] if parts and spread > 0 else []
