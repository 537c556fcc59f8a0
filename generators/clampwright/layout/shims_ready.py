"""Shims, washers and bushings to have on the bench when the tubes are not where they were measured."""

from __future__ import annotations

from collections.abc import Sequence

from clampwright.layout.increment import up_to
from clampwright.layout.known_to import KnownTo, known
from clampwright.layout.on_feet import stands_on
from clampwright.layout.packing import STEPS, flat_washers
from clampwright.layout.placed import ClampPlace, ShimReady
from clampwright.layout.said import named_list
from clampwright.quantities import show_length
from clampwright.trade.tables import rule


def ready(clamps: Sequence[ClampPlace], all_known: Sequence[KnownTo], units: str) -> tuple[ShimReady, ...]:
    """What to have ready at each clamp; the part is set on the feet that `stands_on` names, as listed.

    The gap at another clamp lies between gap − ± (not below 0) and gap + ±.

    Parameters
    ----------
    clamps
        In the order of the layout.
    all_known
        What each is known to; a clamp that is not among them is taken as exact.
    units
        "mm" or "in", of the figures in `advice`.
    """
    carry = stands_on(clamps)
    return tuple(_ready(clamp, carry, known(clamp.label, all_known), units) for clamp in clamps)


def _ready(clamp: ClampPlace, carry: Sequence[str], sure: KnownTo | None, units: str) -> ShimReady:
    spread = 0.0 if sure is None else sure.gap_mm
    low, high = max(0.0, clamp.gap_mm - spread), clamp.gap_mm + spread
    if clamp.label in carry:
        return ShimReady(clamp.label, clamp.gap_mm, low, high, _carries(clamp, carry, units))
    said = [_pieces(clamp, low, high, units), *_next_dash(clamp, spread)]
    if clamp.gap_mm < spread:
        said.append(
            f"a foot found higher than the part is left bare, and {named_list(tuple(carry))} are packed"
        )
    if sure is not None and sure.seat_mm > rule("gap-nothing").value:
        said.append("seats are defaults: measure them first")
    return ShimReady(clamp.label, clamp.gap_mm, low, high, "; ".join(said))


def _carries(clamp: ClampPlace, carry: Sequence[str], units: str) -> str:
    """A foot that the part is set on."""
    here = "packed as listed" if clamp.packing else "no shim here"
    feet = (
        f"The part is set on {named_list(tuple(carry))}" if len(carry) > 1 else "The part is set on this foot"
    )
    return f"{feet}: {here}. Pack the others, close no gap with a bolt."


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
