"""The blank: stock sheet, gauge and corners."""

from __future__ import annotations

from functools import partial

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.finding import Finding
from clampwright.checks.wording import at_least, shown
from clampwright.layout.placed import PlateLayout
from clampwright.recipe.model import PlateJob
from clampwright.trade.materials import gauges
from clampwright.trade.tables import rule

_sheet = partial(Finding, "SHEET-1", "plate within the stock sheet")
_gauge = partial(Finding, "SHEET-2", "thickness is a stock gauge")
_outside = partial(Finding, "CORNER-1", "outside corners")
_inside = partial(Finding, "CORNER-2", "inside corners")


_SHEET_RULES = (
    "sheet-cut-allowance",
    "stock-sheet-usual-width",
    "stock-sheet-usual-length",
    "stock-sheet-largest-width",
    "stock-sheet-largest-length",
)


def size_of(layout: PlateLayout) -> tuple[float, float]:
    """Length and width of the outline's bounding box, mm, the longer first."""
    u_min, v_min, u_max, v_max = layout.outline.box()
    across, up = u_max - u_min, v_max - v_min
    return max(across, up), min(across, up)


def within_sheet(layout: PlateLayout) -> tuple[Finding, ...]:
    """SHEET-1: the blank fits its stock sheet, square to it, with room for the cut.

    The sheet that the recipe names, or else the usual one over the counter and the largest in stock.
    """
    stock = layout.recipe.asked(PlateJob).plate.sheet_mm
    if stock is None:
        return (_on_any_sheet(layout),)
    over = _over(stock, layout)
    sizes = f"{_blank(layout)}; sheet {_sides(stock, layout)}"
    found = partial(_on_sheet, value=over)
    if over <= SAME_MM:
        return (found(verdict="pass", says=f"{sizes}: it fits.", change=""),)
    change = (
        f"Take a sheet of at least {_needed(layout)}, or make the plate {at_least(over, layout)} smaller."
    )
    return (found(verdict="fail", says=f"{sizes}: {shown(over, layout)} too small.", change=change),)


def _on_sheet(verdict: str, value: float, says: str, change: str) -> Finding:
    sources = tuple(dict.fromkeys(rule(key).source for key in _SHEET_RULES))
    return _sheet("plate", verdict, value, 0.0, "mm", says, change, sources)


def _over(stock: tuple[float, float], layout: PlateLayout) -> float:
    """How much a stock sheet is too small for the blank, mm; negative where there is room."""
    long, short = blank_of(layout)
    return max(long - max(stock), short - min(stock))


def blank_of(layout: PlateLayout) -> tuple[float, float]:
    """Length and width of the piece to saw out, mm: the outline's box with room for the cut all round."""
    cut = rule("sheet-cut-allowance").value
    long, short = size_of(layout)
    return long + 2 * cut, short + 2 * cut


def _blank(layout: PlateLayout) -> str:
    long, short = blank_of(layout)
    return f"Blank {shown(long, layout)} by {shown(short, layout)} with room for the cut"


def _needed(layout: PlateLayout) -> str:
    long, short = blank_of(layout)
    return f"{at_least(long, layout)} by {at_least(short, layout)}"


def _sides(stock: tuple[float, float], layout: PlateLayout) -> str:
    return f"{shown(max(stock), layout)} by {shown(min(stock), layout)}"


def _on_any_sheet(layout: PlateLayout) -> Finding:
    """No sheet is named: against the sheets that are sold."""
    usual, largest = (
        (rule(f"stock-sheet-{kind}-width").value, rule(f"stock-sheet-{kind}-length").value)
        for kind in ("usual", "largest")
    )
    over = _over(usual, layout)
    if over <= SAME_MM:
        says = f"{_blank(layout)} fits the usual sheet of {_sides(usual, layout)}; the recipe names none."
        return _on_sheet("pass", over, says, "")
    says = (
        f"{_blank(layout)} is {shown(over, layout)} too large for the usual sheet of {_sides(usual, layout)}"
    )
    change = f"Buy a sheet of at least {_needed(layout)} and name it: sheet = [length, width]"
    beyond = _over(largest, layout)
    if beyond <= SAME_MM:
        return _on_sheet("caution", over, f"{says}.", f"{change}.")
    says = f"{_blank(layout)} is larger than the largest sheet in stock, {_sides(largest, layout)}."
    change = f"Make the plate {at_least(beyond, layout)} smaller, or build it of several plates."
    return _on_sheet("fail", beyond, says, change)


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
        return (
            found(
                verdict="pass", says=f"Outside corners have a radius of {shown(radius, layout)}.", change=""
            ),
        )
    says = f"Outside corners with a radius of {shown(radius, layout)} cut hands and hoses."
    change = f"Set corner_radius = {at_least(least.value, layout)} or more."
    return (found(verdict="caution", says=says, change=change),)


def inside_corners(layout: PlateLayout) -> tuple[Finding, ...]:
    """CORNER-2: inside corners are round enough not to start a crack."""
    radius = layout.outline.least_inside_radius()
    if radius is None:
        return ()
    least, cutter = rule("inside-corner-radius-least"), rule("cutter-inside-radius-least")
    found = partial(_inside, where="plate", value=radius, unit="mm")
    change = (
        f"Round inside corners to at least {at_least(least.value, layout)}: drill that corner before sawing."
    )
    if radius >= least.value - SAME_MM:
        says = f"Inside corners have a radius of {shown(radius, layout)}."
        return (found(verdict="pass", limit=least.value, says=says, change="", sources=(least.source,)),)
    if radius >= cutter.value - SAME_MM:
        says = f"Inside corners with a radius of {shown(radius, layout)} are tight enough to start a crack."
        return (
            found(verdict="caution", limit=least.value, says=says, change=change, sources=(least.source,)),
        )
    says = (
        f"Inside corners with a radius of {shown(radius, layout)} are as good as sharp: a crack starts there."
    )
    return (found(verdict="fail", limit=cutter.value, says=says, change=change, sources=(cutter.source,)),)


CHECKS = (
    Check(
        "SHEET-1",
        "plate within the stock sheet",
        "Bounding box of the outline and a cut all round against the recipe's stock sheet, or those sold.",
        within_sheet,
        rules=_SHEET_RULES,
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
        "Least radius of the outline's inside corners, against cracking; sharp below what a jet leaves.",
        inside_corners,
        rules=("inside-corner-radius-least", "cutter-inside-radius-least"),
    ),
)
