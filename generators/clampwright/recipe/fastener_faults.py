"""Faults of bolts, nuts and the holes they go through, in any kind of recipe."""

from __future__ import annotations

import math
from collections.abc import Callable
from itertools import combinations

from clampwright.quantities import show_length
from clampwright.recipe.fields import Values
from clampwright.recipe.written import Entry
from clampwright.trade.hardware import nut, nut_for
from clampwright.trade.tables import rule


def nut_fits_bolt(entry: Entry, values: Values, zone: Values) -> None:
    """Note a nut that the bolt of [fastener] does not take."""
    if not {"bolt", "nut"} <= values.keys():
        return
    series, bolt = values["nut"], values["bolt"]
    fault = _not_in_trade(
        lambda: nut(series, bolt) if series else nut_for(bolt, zone.get("temperature") or 0.0)
    )
    if fault and series:
        entry.inside("nut").wrong(f"a series of lock nuts for {bolt}", fault)
    elif fault:
        entry.inside("bolt").wrong("a bolt that there is a lock nut for", fault)


def _not_in_trade(look_up: Callable[[], object]) -> str:
    """What a look-up in the trade's tables says against it, or ""."""
    try:
        look_up()
    except LookupError as none:
        return str(none.args[0])
    return ""


def holes_apart(entry: Entry, holes: tuple[tuple[float, float], ...]) -> None:
    """Note the first hole that lies on another."""
    least = rule("recipe-hole-apart-least").value
    for (i, one), (j, other) in combinations(enumerate(holes), 2):
        if math.dist(one, other) < least:
            expected = f"holes at least {show_length(least, entry.units)} apart"
            entry.inside(j).wrong(
                expected, "measure it again, or delete it", said=f"hole {j + 1} on hole {i + 1}"
            )
            return
