"""The blank: stock sheet, gauge and corners."""

from __future__ import annotations

from functools import partial

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.finding import Finding
from clampwright.checks.wording import at_least, shown
from clampwright.layout.placed import PlateLayout
from clampwright.trade.materials import gauges
from clampwright.trade.tables import rule

_sheet = partial(Finding, "SHEET-1", "plate within the stock sheet")
_gauge = partial(Finding, "SHEET-2", "thickness is a stock gauge")
_outside = partial(Finding, "CORNER-1", "outside corners")
_inside = partial(Finding, "CORNER-2", "inside corners")


def size_of(layout: PlateLayout) -> tuple[float, float]:
    """Length and width of the outline's bounding box, mm, the longer first."""
    u_min, v_min, u_max, v_max = layout.outline.box()
    across, up = u_max - u_min, v_max - v_min
    return max(across, up), min(across, up)


def within_sheet(layout: PlateLayout) -> tuple[Finding, ...]:
    """SHEET-1: the blank fits the stock sheet that the recipe names, square to it, with room for the cut."""
    stock = layout.recipe.job.plate.sheet_mm
    if stock is None:
        return ()
    cut = rule("sheet-cut-allowance")
    long, short = (side + 2 * cut.value for side in size_of(layout))
    over = max(long - max(stock), short - min(stock))
    sizes = (
        f"Blank {shown(long, layout)} by {shown(short, layout)} with room for the cut; "
        f"sheet {shown(max(stock), layout)} by {shown(min(stock), layout)}"
    )
    found = partial(_sheet, where="plate", value=over, limit=0.0, unit="mm", sources=(cut.source,))
    if over <= SAME_MM:
        return (found(verdict="pass", says=f"{sizes}: it fits.", change=""),)
    change = (
        f"Take a sheet of at least {at_least(long, layout)} by {at_least(short, layout)}, "
        f"or make the plate {at_least(over, layout)} smaller."
    )
    return (found(verdict="fail", says=f"{sizes}: {shown(over, layout)} too small.", change=change),)


def stock_gauge(layout: PlateLayout) -> tuple[Finding, ...]:
    """SHEET-2: the plate's thickness is one that the material is sold in."""
    stock = gauges(layout.material.name)
    nearest = min(stock, key=lambda g: abs(g.thickness_mm - layout.thickness_mm))
    off = abs(nearest.thickness_mm - layout.thickness_mm)
    match = rule("gauge-match")
    found = partial(_gauge, where="plate", value=off, limit=match.value, unit="mm", sources=(nearest.source,))
    thick = f"{shown(layout.thickness_mm, layout)} {layout.material.name}"
    if off <= match.value:
        return (found(verdict="pass", says=f"{thick} is a stock gauge.", change=""),)
    thinner = [g for g in stock if g.thickness_mm < layout.thickness_mm][-1:]
    thicker = [g for g in stock if g.thickness_mm > layout.thickness_mm][:1]
    sold = " or ".join(shown(g.thickness_mm, layout) for g in (*thinner, *thicker))
    says = f"{thick} is not in the list of stock gauges."
    return (found(verdict="caution", says=says, change=f"Take {sold}."),)


def outside_corners(layout: PlateLayout) -> tuple[Finding, ...]:
    """CORNER-1: outside corners are rounded."""
    radius = layout.outline.least_outside_radius()
    if radius is None:
        return ()
    least = rule("corner-radius-least")
    found = partial(
        _outside, where="plate", value=radius, limit=least.value, unit="mm", sources=(least.source,)
    )
    if radius >= least.value - SAME_MM:
        return (found(verdict="pass", says=f"Outside corners {shown(radius, layout)} in radius.", change=""),)
    says = f"Outside corners {shown(radius, layout)} in radius cut hands and hoses."
    change = f"Set corner_radius to at least {at_least(least.value, layout)}."
    return (found(verdict="caution", says=says, change=change),)


def inside_corners(layout: PlateLayout) -> tuple[Finding, ...]:
    """CORNER-2: inside corners are round enough not to start a crack, and can be cut at all."""
    radius = layout.outline.least_inside_radius()
    if radius is None:
        return ()
    least, cutter = rule("inside-corner-radius-least"), rule("cutter-inside-radius-least")
    found = partial(_inside, where="plate", value=radius, unit="mm")
    change = (
        f"Round inside corners to at least {at_least(least.value, layout)}: drill that corner before sawing."
    )
    if radius >= least.value - SAME_MM:
        says = f"Inside corners {shown(radius, layout)} in radius."
        return (found(verdict="pass", limit=least.value, says=says, change="", sources=(least.source,)),)
    if radius >= cutter.value - SAME_MM:
        says = f"Inside corners {shown(radius, layout)} in radius: tight enough to start a crack."
        return (
            found(verdict="caution", limit=least.value, says=says, change=change, sources=(least.source,)),
        )
    says = f"Inside corners {shown(radius, layout)} in radius start a crack, and no jet cuts them."
    return (found(verdict="fail", limit=cutter.value, says=says, change=change, sources=(cutter.source,)),)


CHECKS = (
    Check(
        "SHEET-1",
        "plate within the stock sheet",
        "Bounding box of the outline and a cut all round against the recipe's stock sheet.",
        within_sheet,
        rules=("sheet-cut-allowance",),
    ),
    Check(
        "SHEET-2",
        "thickness is a stock gauge",
        "Thickness against the nearest gauge that the material is sold in.",
        stock_gauge,
        rules=("gauge-match",),
        sources=("gauge-aluminium", "gauge-4130", "gauge-stainless", "gauge-titanium"),
    ),
    Check(
        "CORNER-1",
        "outside corners",
        "Least radius of the outline's outside corners.",
        outside_corners,
        rules=("corner-radius-least",),
    ),
    Check(
        "CORNER-2",
        "inside corners",
        "Least radius of the outline's inside corners, against cracking and against the cutter.",
        inside_corners,
        rules=("inside-corner-radius-least", "cutter-inside-radius-least"),
    ),
)
