"""Fit-up: rounding and measuring error of each hole's place against what its clearance forgives."""

from __future__ import annotations

from functools import partial
from math import dist

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.finding import Finding
from clampwright.checks.wording import at_most, shown
from clampwright.layout.placed import FitUp, PlateLayout
from clampwright.trade.tables import Rule, rule

_fit = partial(Finding, "FIT-1", "error against hole clearance")
_rounding = partial(Finding, "FIT-2", "rounding of clamp holes")

DRILL_NOW = "drill now"


def fits_up(layout: PlateLayout) -> tuple[Finding, ...]:
    """FIT-1: each hole forgives the error of its place, or the fit-up plan does not drill it to size yet."""
    return tuple(_forgiven(f, layout) for f in layout.fit_up.holes)


def _forgiven(fit: FitUp, layout: PlateLayout) -> Finding:
    origin = rule("measuring-error").source
    found = partial(
        _fit, where=fit.hole, value=fit.uncertainty_mm, limit=fit.clearance_mm, unit="mm", sources=(origin,)
    )
    sure = f"Place known to ± {shown(fit.uncertainty_mm, layout)}; the hole forgives ± {shown(fit.clearance_mm, layout)}"
    if fit.uncertainty_mm <= fit.clearance_mm + SAME_MM:
        return found(verdict="pass", says=f"{sure}: drill to size.", change="")
    if fit.way == DRILL_NOW:
        change = (
            f"Drill a pilot and transfer it in place, or measure to ± {at_most(fit.clearance_mm, layout)}."
        )
        return found(verdict="fail", says=f"{sure}, yet the plan drills it to size now.", change=change)
    change = f"Do not drill to size on the bench: {fit.way} (fit-up plan)"
    if fit.otherwise:
        change += f"; or {fit.otherwise}"
    change += f". Measured to ± {at_most(fit.clearance_mm, layout)} it could be drilled now."
    return found(verdict="caution", says=f"{sure}.", change=change)


def rounding(layout: PlateLayout) -> tuple[Finding, ...]:
    """FIT-2: rounding a clamp's hole to a mark that can be laid off moves it less than its clearance."""
    clearance = {f.hole: f.clearance_mm for f in layout.fit_up.holes}
    return tuple(
        _rounded(c.label, dist(c.at, c.at_exact), clearance[c.label], layout)
        for c in layout.clamps
        if c.label in clearance
    )


def _rounded(label: str, moved: float, clearance: float, layout: PlateLayout) -> Finding:
    found = partial(
        _rounding, where=label, value=moved, limit=clearance, unit="mm", sources=(_increment(layout).source,)
    )
    says = f"Laid off on the nearest mark, the hole moves {shown(moved, layout)}; it forgives ± {shown(clearance, layout)}"
    if moved <= clearance + SAME_MM:
        return found(verdict="pass", says=f"{says}.", change="")
    change = (
        f"Set round_to to {at_most(clearance, layout)} or less (0 for exact places), "
        f"or slide the clamp: along the tube it gives."
    )
    return found(verdict="caution", says=f"{says}: the clamp has to slide or turn to follow.", change=change)


def _increment(layout: PlateLayout) -> Rule:
    return rule("round-to-inch" if layout.recipe.units == "in" else "round-to-metric")


CHECKS = (
    Check(
        "FIT-1",
        "error against hole clearance",
        "± of each hole's place from the stated measuring error against the ± that its clearance forgives.",
        fits_up,
        rules=("measuring-error",),
    ),
    Check(
        "FIT-2",
        "rounding of clamp holes",
        "How far rounding to the increment moves each clamp hole, against its clearance.",
        rounding,
        rules=("round-to-metric", "round-to-inch"),
    ),
)
