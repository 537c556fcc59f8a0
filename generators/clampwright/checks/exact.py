"""Exact solids: what a build measures between them, held against the clearances and the simple bodies.

`check` looks at simple bodies and needs no CAD kernel; a build measures the solids as they are drawn. The
numbers come from there.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from clampwright.checks.asked import SAME_MM, CheckInfo, telling
from clampwright.checks.finding import Finding
from clampwright.checks.naming_bodies import capital
from clampwright.checks.room import one_doubt
from clampwright.checks.wording import at_least, shown
from clampwright.checks.worst_case import doubtful, in_doubt, short_at_worst, sure
from clampwright.layout.clearance_found import CLAMPS, KEEP_OUT, OWN_STACK, Clearance
from clampwright.layout.joined import Joined
from clampwright.trade.tables import rule

RULES = (
    "clamp-clearance",
    "component-clearance",
    "solids-near",
    "solids-touch",
    "solids-overlap",
    "solids-differ",
)

INFO = CheckInfo(
    "SOLID-1",
    "clearance of the solids",
    "In a build only: least distance between the exact solids of what is not bolted together, and whether "
    "the simple bodies of the other checks said the same; the least for a pass.",
    tuple(dict.fromkeys(rule(key).source for key in RULES)),
    RULES,
)
"""The check's line in the catalogue."""

_solids = partial(Finding, INFO.code, INFO.what)


def solids_clear(found: Sequence[Clearance], layout: Joined) -> tuple[Finding, ...]:
    """SOLID-1: the solids of what is not bolted together keep clear of each other.

    Parameters
    ----------
    found : Sequence[Clearance]
        What the solids measure.
    layout : Joined
        What they are made from.
    """
    if not found:
        return (_nothing_near(layout),)
    return telling(one_doubt([_one(each, layout) for each in found]))


def runs_into(each: Clearance) -> bool:
    """Whether two things touch or run into each other."""
    return each.kind == OWN_STACK or each.exact_mm <= rule("solids-touch").value


def _one(each: Clearance, layout: Joined) -> Finding:
    limit, source = _limit(each)
    found = partial(
        _solids,
        where=f"{each.one}/{each.other}",
        value=each.exact_mm,
        limit=limit,
        unit="mm",
        sources=(source,),
        plus_minus=None if each.known is None else each.known.plus_minus_mm,
    )
    pair, need = f"{capital(each.one)} and {each.other}", at_least(limit - each.exact_mm, layout)
    if runs_into(each):
        depth = f", {each.common_mm3:.0f} mm3 deep" if each.common_mm3 > 0 else ""
        says = f"{pair} run into each other as solids{depth}{_simply(each, layout)}."
        change = f"Move {each.one} or {each.other} until {need} are free between them."
        if each.kind == OWN_STACK:
            change = f"Put a longer spacer between {each.one} and {each.other}, or measure the seat again."
        return found(verdict="fail", says=says, change=change)
    apart = f"{sure(each.clear, layout)} apart as solids{_simply(each, layout)}"
    if each.exact_mm >= limit - SAME_MM:
        if in_doubt(each.clear, limit):
            way = f"move {each.one} {short_at_worst(each.clear, limit, layout)} away from {each.other}"
            return doubtful(found, f"{pair} are {apart}", each.clear, limit, way, layout)
        return found(verdict="pass", says=f"{pair} are {apart}.", change="")
    verdict = "fail" if each.kind == KEEP_OUT else "caution"
    asked = f"; {shown(limit, layout)} are asked"
    change = f"Move {each.one} {need} away from {each.other}."
    return found(verdict=verdict, says=f"{pair} are only {apart}{asked}.", change=change)


def _limit(each: Clearance) -> tuple[float, str]:
    """The distance that a pair must keep, and what that rests on."""
    if each.kind == OWN_STACK:
        return 0.0, rule("solids-overlap").source
    if each.asked_mm is not None:
        return each.asked_mm, "assumed"
    row = rule("clamp-clearance" if each.kind == CLAMPS else "component-clearance")
    return row.value, row.source


def _simply(each: Clearance, layout: Joined) -> str:
    """What the simple bodies said, where that differs enough to matter."""
    if each.simple_mm is None:
        return ", and no simple body was there to check"
    limit, simple = _limit(each)[0], shown(each.simple_mm, layout)
    if each.exact_mm < limit - SAME_MM <= each.simple_mm:
        return f", though the simple bodies leave {simple} and pass: go by the solids"
    if abs(each.exact_mm - each.simple_mm) <= rule("solids-differ").value:
        return ""
    more = "only " if each.simple_mm < each.exact_mm else ""
    return f" (the simple bodies leave {more}{simple})"


def _nothing_near(layout: Joined) -> Finding:
    near = rule("solids-near")
    return _solids(
        where="solids",
        verdict="pass",
        value=None,
        limit=near.value,
        unit="mm",
        says=f"Nothing that is not bolted together comes nearer than {shown(near.value, layout)}.",
        change="",
        sources=(near.source,),
    )
