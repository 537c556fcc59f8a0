"""The lock nut of a layout's bolts."""

from __future__ import annotations

from clampwright.layout.cannot import CannotLayOut
from clampwright.recipe.model import Fastener, Zone
from clampwright.trade.hardware import Nut, nut, nut_for


def lock_nut(fastener: Fastener, zone: Zone) -> Nut:
    """The nut asked for, else the one for the zone's temperature.

    Raises
    ------
    CannotLayOut
        The tables have no such nut.

    Examples
    --------
    >>> lock_nut(Fastener("AN3", None, None, None), Zone(90.0, True, ())).part
    'MS21044N3'
    """
    try:
        if fastener.nut is None:
            return nut_for(fastener.bolt, zone.temperature_c)
        return nut(fastener.nut, fastener.bolt)
    except LookupError as missing:
        raise CannotLayOut(str(missing), "give another fastener.nut or fastener.bolt") from missing
