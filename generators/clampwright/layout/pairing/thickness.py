"""How thick the carried line is: as given, by its hose size, or a bundle's circle; sleeve added."""

from __future__ import annotations

from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.stand_off_placed import Bundle
from clampwright.recipe.stand_off_model import CarriedLine, WiresOfSize
from clampwright.trade.bundles import bundle_circle, wire_od_mm
from clampwright.trade.hoses import hose


def thickness(carried: CarriedLine) -> tuple[float, Bundle | None]:
    """Outside diameter with its sleeve, mm, and how the bundle's was found where it is one.

    Raises
    ------
    CannotLayOut
        The tables know no such hose or wire.

    >>> seven = (WiresOfSize(7, None, 1.5),)
    >>> where = (None, None, None, None, None, None)
    >>> thickness(CarriedLine("loom", "bundle", None, None, seven, 0.5, *where, "mount", 0))[0]
    5.5
    """
    try:
        bare, bundle = _bare(carried)
    except LookupError as none:
        raise CannotLayOut(
            f"{carried.name}: {none}", "give its measured outside diameter", carried.line
        ) from none
    return bare + 2 * carried.sleeve_mm, bundle


def _bare(carried: CarriedLine) -> tuple[float, Bundle | None]:
    if carried.od_mm is not None:
        return carried.od_mm, None
    if carried.hose_dash is not None:
        return hose(carried.hose_dash).od_mm, None
    bundle = _bundle(carried.wires)
    return bundle.od_mm, bundle


def _bundle(wires: tuple[WiresOfSize, ...]) -> Bundle:
    sizes = [(each.count, _wire(each)) for each in wires]
    circle = bundle_circle(sizes)
    return Bundle(circle.diameter_mm, circle.how, sum(count for count, _ in sizes), circle.source)


def _wire(each: WiresOfSize) -> float:
    if each.od_mm is not None:
        return each.od_mm
    assert each.gauge is not None
    return wire_od_mm(each.gauge)
