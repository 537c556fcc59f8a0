"""Bolts and plate as made: whether the bolt still fits its stack, and whether the sheet is the one drawn."""

from __future__ import annotations

from functools import partial

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.bolt_advice import refit
from clampwright.checks.finding import Finding
from clampwright.checks.made_wording import Made
from clampwright.checks.wording import shown
from clampwright.layout.as_made import Refit
from clampwright.layout.placed import PlateLayout
from clampwright.trade.materials import Gauge, gauges
from clampwright.trade.tables import rule

_bolt = partial(Finding, "MADE-4", "bolts fit their finished stacks", unit="threads")
_sheet = partial(Finding, "MADE-8", "thickness of the finished plate", unit="mm")
_RULES = ("threads-showing-least", "threads-hidden-most")


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
    better = each.better.chosen if each.better is not None else None
    if each.better is not None and better is not None and better.fits:
        washers = f", {each.better.adjusted}" if each.better.adjusted else ""
        inside = f"{better.threads_in_stack:.1f} threads then stay in the stack"
        change = f"Take {better.length.part}{washers}: {inside}."
        return found(verdict="fail", says=f"{says}.", change=change)
    return found(verdict="fail", says=f"{says}.", change=refit(each.made, made.layout))


def thickness(made: Made) -> tuple[Finding, ...]:
    """MADE-8: the plate is nearer to the gauge that it is drawn in than to any other it is sold in."""
    layout, measured = made.layout, made.measured.thickness_mm
    if measured is None or not isinstance(layout, PlateLayout):
        return ()
    drawn = layout.thickness_mm
    sold = [gauge for gauge in gauges(layout.material.name) if abs(gauge.thickness_mm - drawn) > SAME_MM]
    nearest = min(sold, key=lambda gauge: abs(gauge.thickness_mm - measured), default=None)
    if nearest is None or abs(measured - drawn) < abs(measured - nearest.thickness_mm):
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


def _as_drawn(measured: float, drawn: float, nearest: Gauge | None, made: Made) -> Finding:
    says = f"The plate is {shown(measured, made.layout)} thick, {shown(drawn, made.layout)} as drawn."
    limit = None if nearest is None else (drawn + nearest.thickness_mm) / 2
    source = "assumed" if nearest is None else nearest.source
    return _sheet("plate", "pass", measured, limit, says=says, change="", sources=(source,))


CHECKS = (
    Check(
        "MADE-4",
        "bolts fit their finished stacks",
        "Threads hidden in each stack and past its nut with bushing and plate as measured.",
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
        sources=("assumed",),
    ),
)
