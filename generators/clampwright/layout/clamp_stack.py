"""A clamp's packing and stack together: packing that leaves the bolt no length is chosen anew."""

from __future__ import annotations

from clampwright.layout.packing import pack
from clampwright.layout.placed import Stack, StackItem
from clampwright.layout.stacks import build_stack, clamp_items, count_washers
from clampwright.trade.hardware import Nut


def packed_stack(
    gap_mm: float,
    thickness_mm: float,
    feet_mm: float,
    bolt: str,
    nut: Nut,
    temperature_c: float,
    units: str,
    *,
    nut_height_mm: float | None = None,
) -> tuple[tuple[StackItem, ...], Stack]:
    """Packing for a gap, and the stack with it.

    Washers in the packing use up the washers that a bolt may have, and with them the means to make a
    dash fit. Where no dash fits, the same gap is packed with fewer washers, down to a bushing or shim
    alone, and the first packing whose bolt fits is taken (the usual packing where none does).

    Parameters
    ----------
    gap_mm, thickness_mm, feet_mm
        Foot to plate, plate, and both feet squeezed together.
    bolt, nut, nut_height_mm
        As `build_stack` takes them.
    temperature_c, units
        As `pack` takes them.

    Examples
    --------
    >>> from clampwright.trade.hardware import nut
    >>> packing, stack = packed_stack(0.0, 2.286, 2.604, "AN3", nut("MS21044", "AN3"), 90, "in")
    >>> packing, stack.chosen is not None and stack.chosen.length.part
    ((), 'AN3-5A')
    """
    usual = pack(gap_mm, bolt, temperature_c, units)
    tries = [usual]
    tries += [
        pack(gap_mm, bolt, temperature_c, units, most_washers=most)
        for most in range(count_washers(usual) - 1, -1, -1)
    ]
    built = [
        (
            tried,
            build_stack(
                bolt, clamp_items(thickness_mm, tried, feet_mm, bolt), nut, nut_height_mm=nut_height_mm
            ),
        )
        for tried in tries
    ]
    return next(((p, s) for p, s in built if s.chosen is not None and s.chosen.fits), built[0])
