"""Bolts and plate as made: whether the bolt still fits its stack, and whether the sheet is the one drawn."""

from __future__ import annotations

from functools import partial

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.bolt_advice import refit
from clampwright.checks.bolt_reach import stack_range
from clampwright.checks.finding import Finding
from clampwright.checks.made_wording import Made
from clampwright.checks.wording import at_least, shown
from clampwright.layout.as_made import Refit
from clampwright.layout.placed import PlateLayout
from clampwright.trade.materials import Gauge, gauges
from clampwright.trade.tables import rule

_bolt = partial(Finding, "MADE-4", "bolts fit their finished stacks", unit="threads")
_sheet = partial(Finding, "MADE-8", "thickness of the finished plate", unit="mm")
_RULES = ("threads-showing-least", "threads-hidden-most", "sheet-thickness-tolerance")


def bolts_fit(made: Made) -> tuple[Finding, ...]:
    """MADE-4: with measured lengths and thickness the bolt chosen still grips, and shows a thread."""
    return tuple(_fits(each, made) for each in made.fit.stacks)


def _fits(each: Refit, made: Made) -> Finding:
    found = partial(
        _bolt,
        where=each.label,
        limit=rule("threads-showing-least").value,
        sources=tuple(dict.fromkeys(rule(key).source for key in _RULES)),
    )
    thick = shown(each.made.thickness_mm, made.layout)
    was = shown(each.planned.thickness_mm, made.layout)
    chosen = each.made.chosen
    if chosen is None:
        says = f"The stack is {thick} thick, {was} as drawn; no document gives lengths of {each.made.bolt}."
        return found(verdict="unknown", value=None, says=says, change=f"Try the bolt in {thick}.")
    says = f"In {thick} as made ({was} as drawn) {chosen.says}"
    found = partial(found, value=chosen.threads_showing)
    if each.fits:
        return found(verdict="pass", says=f"{says}.", change="")
    explained = _explained(each, made)
    if explained:
        return found(verdict="caution", says=f"{says}: {explained}.", change=_helps(each, made))
    better = each.better.chosen if each.better is not None else None
    if each.better is not None and better is not None and better.fits:
        washers = f", {each.better.adjusted}" if each.better.adjusted else ""
        inside = f"{better.threads_in_stack:.1f} threads then stay in the stack"
        change = f"Take {better.length.part}{washers}: {inside}."
        return found(verdict="fail", says=f"{says}.", change=change)
    return found(verdict="fail", says=f"{says}.", change=refit(each.made, made.layout))


def _explained(each: Refit, made: Made) -> str:
    """In words: rules of thumb missed by no more than the drawn tolerances explain; "" where by more."""
    if each.drawn_to is None or each.made.chosen is None:
        return ""
    low, high = stack_range(each.made.chosen.length, each.made)
    thinner, thicker = each.drawn_to
    under, over = low - each.made.thickness_mm, each.made.thickness_mm - high
    if low > high or under > thinner + SAME_MM or over > thicker + SAME_MM:
        return ""
    off, may = (under, thinner) if under > over else (over, thicker)
    by, way = at_least(off, made.layout), "thinner" if under > over else "thicker"
    return (
        f"{by} {way} than it suits, which the tolerances explain that it is drawn with: all that was "
        f"measured of it is within its limits, and they make up {at_least(may, made.layout)}"
    )


def _helps(each: Refit, made: Made) -> str:
    """What brings the bolt within its rules again: other washers, else another bolt, else another stack."""
    chosen, better = each.made.chosen, each.better.chosen if each.better is not None else None
    if each.washers and chosen is not None:
        return f"Keep {chosen.length.part}, with {each.washers}."
    if each.better is not None and better is not None and better.fits:
        return f"Take {better.length.part}{f', {each.better.adjusted}' if each.better.adjusted else ''}."
    return refit(each.made, made.layout)


def thickness(made: Made) -> tuple[Finding, ...]:
    """MADE-8: the plate is nearer to the gauge that it is drawn in than to any other it is sold in."""
    layout, measured = made.layout, made.measured.thickness_mm
    if measured is None or not isinstance(layout, PlateLayout):
        return ()
    drawn = layout.thickness_mm
    same = rule("sheet-thickness-tolerance").value
    sold = [gauge for gauge in gauges(layout.material.name) if abs(gauge.thickness_mm - drawn) > same]
    nearest = min(sold, key=lambda gauge: abs(gauge.thickness_mm - measured), default=None)
    if nearest is None or abs(measured - drawn) < abs(measured - nearest.thickness_mm):
        if nearest is not None and _doubtful(measured, drawn, nearest.thickness_mm, made):
            return (_cannot_tell(measured, drawn, nearest, made),)
        return (_as_drawn(measured, drawn, nearest, made),)
    other = shown(nearest.thickness_mm, layout)
    says = (
        f"The plate is {shown(measured, layout)} thick where {shown(drawn, layout)} are drawn: the sheet "
        f"sold as {other}."
    )
    thin = measured < drawn
    change = (
        f"Make it again from {shown(drawn, layout)}."
        if thin
        else f"Set thickness = {other} in the recipe and check it anew: its stacks are thicker."
    )
    limit = (drawn + nearest.thickness_mm) / 2
    verdict = "fail" if thin else "caution"
    return (_sheet("plate", verdict, measured, limit, says=says, change=change, sources=(nearest.source,)),)


def _doubtful(measured: float, drawn: float, other: float, made: Made) -> bool:
    return abs(measured - (drawn + other) / 2) < made.size_error_mm - SAME_MM


def _cannot_tell(measured: float, drawn: float, nearest: Gauge, made: Made) -> Finding:
    other = shown(nearest.thickness_mm, made.layout)
    says = (
        f"The plate is {shown(measured, made.layout)} thick, {shown(drawn, made.layout)} as drawn; whether "
        f"it is the sheet sold as {other} cannot be told: it is {made.sized_to()}."
    )
    limit, change = (drawn + nearest.thickness_mm) / 2, "Measure the sheet with a micrometer."
    return _sheet(
        "plate",
        "unknown",
        measured,
        limit,
        says=says,
        change=change,
        sources=(nearest.source,),
        plus_minus=made.size_error_mm,
    )


def _as_drawn(measured: float, drawn: float, nearest: Gauge | None, made: Made) -> Finding:
    says = f"The plate is {shown(measured, made.layout)} thick, {shown(drawn, made.layout)} as drawn."
    limit = None if nearest is None else (drawn + nearest.thickness_mm) / 2
    source = "assumed" if nearest is None else nearest.source
    return _sheet("plate", "pass", measured, limit, says=says, change="", sources=(source,))


CHECKS = (
    Check(
        "MADE-4",
        "bolts fit their finished stacks",
        "Threads hidden in each stack and past its nut with bushing and plate as measured; a miss that the "
        "drawn tolerances explain is a caution.",
        bolts_fit,
        rules=_RULES,
    ),
)
THICKNESS = (
    Check(
        "MADE-8",
        "thickness of the finished plate",
        "Measured thickness: nearer to the gauge drawn than to the next one that the material is sold in.",
        thickness,
        rules=("caliper-size-error", "sheet-thickness-tolerance"),
        sources=("assumed",),
    ),
)
