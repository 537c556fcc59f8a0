"""Fit-up: rounding and measuring error of each hole's place against what its clearance forgives."""

from __future__ import annotations

from functools import partial
from math import hypot

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.finding import Finding
from clampwright.checks.holes import bolt_holes
from clampwright.checks.wording import at_most, shown
from clampwright.layout.placed import ClampPlace, FitUp, Frame, PlateLayout
from clampwright.trade.tables import Rule, rule

_fit = partial(Finding, "FIT-1", "error against hole clearance")
_rounding = partial(Finding, "FIT-2", "rounding of clamp holes")

DRILL_NOW = "drill now"


def fits_up(layout: PlateLayout) -> tuple[Finding, ...]:
    """FIT-1: each bolt hole forgives the error of its place, or the plan does not drill it to size yet."""
    bolt = {h.label: h.purpose for h in bolt_holes(layout)}
    return tuple(_forgiven(f, bolt[f.hole], layout) for f in layout.fit_up.holes if f.hole in bolt)


def _forgiven(fit: FitUp, purpose: str, layout: PlateLayout) -> Finding:
    origin = rule("measuring-error" if purpose == "clamp" else "caliper-error").source
    found = partial(
        _fit, where=fit.hole, value=fit.uncertainty_mm, limit=fit.clearance_mm, unit="mm", sources=(origin,)
    )
    play = shown(fit.clearance_mm, layout)
    if fit.uncertainty_mm <= SAME_MM:
        says = f"Nothing else fixes the place of this hole: drill to size ({play} of play)."
        return found(verdict="pass", says=says, change="")
    sure = f"Place known to ± {shown(fit.uncertainty_mm, layout)}; bolt and hole forgive ± {play}"
    if fit.uncertainty_mm <= fit.clearance_mm + SAME_MM:
        return _sure_enough(found, purpose, f"{sure}: drill to size.", layout)
    if fit.way == DRILL_NOW:
        change = (
            f"Drill a pilot and transfer it in place: to drill it now, its place must be known to ± {play}."
        )
        return found(verdict="fail", says=f"{sure}, yet the plan drills it to size now.", change=change)
    return found(verdict="caution", says=f"{sure}.", change=_plan(fit, play))


def _sure_enough(found: partial[Finding], purpose: str, says: str, layout: PlateLayout) -> Finding:
    """A hole that forgives its error: unknown where that error is one that nobody stated."""
    if purpose != "clamp" or layout.fit_up.error_given:
        return found(verdict="pass", says=says, change="")
    error = shown(layout.fit_up.error_mm, layout)
    change = f"Say how well the tubes were measured: [measuring] error, ± {error} was taken."
    return found(verdict="unknown", says=says, change=change)


def _plan(fit: FitUp, play: str) -> str:
    change = f"Not to size on the bench: {fit.way}, as the fit-up plan says"
    if fit.otherwise:
        change += f"; or {fit.otherwise}"
    return f"{change}. To drill it now, its place must be known to ± {play}."


def rounding(layout: PlateLayout) -> tuple[Finding, ...]:
    """FIT-2: rounding a clamp's hole moves it across its tube by less than its clearance.

    Along its tube the clamp slides to the hole, so that only the part square to the tube counts.
    """
    clearance = {f.hole: f.clearance_mm for f in layout.fit_up.holes}
    return tuple(
        _rounded(c.label, moved_across(c, layout.frame), clearance[c.label], layout)
        for c in layout.clamps
        if c.label in clearance
    )


def moved_across(place: ClampPlace, frame: Frame) -> float:
    """How far rounding moves a clamp's hole square to its tube in the plate's plane, mm."""
    along = [sum(a * d for a, d in zip(place.axis, way, strict=True)) for way in (frame.u, frame.v)]
    du, dv = place.at[0] - place.at_exact[0], place.at[1] - place.at_exact[1]
    return abs(du * along[1] - dv * along[0]) / hypot(*along)


def _rounded(label: str, moved: float, clearance: float, layout: PlateLayout) -> Finding:
    found = partial(
        _rounding, where=label, value=moved, limit=clearance, unit="mm", sources=(_increment(layout).source,)
    )
    play = shown(clearance, layout)
    says = f"On the nearest mark the hole lies {shown(moved, layout)} nearer to or further from its tube"
    if moved <= clearance + SAME_MM:
        return found(verdict="pass", says=f"{says}; bolt and hole forgive ± {play}.", change="")
    change = f"Set round_to to {at_most(clearance, layout)} or less, or to 0 for exact places."
    return found(verdict="caution", says=f"{says}, where bolt and hole forgive ± {play}.", change=change)


def _increment(layout: PlateLayout) -> Rule:
    return rule("round-to-inch" if layout.recipe.units == "in" else "round-to-metric")


CHECKS = (
    Check(
        "FIT-1",
        "error against hole clearance",
        "± of each hole's place from the stated measuring error against the ± that its clearance forgives.",
        fits_up,
        rules=("measuring-error", "caliper-error"),
    ),
    Check(
        "FIT-2",
        "rounding of clamp holes",
        "How far rounding moves each clamp hole square to its tube, against its clearance.",
        rounding,
        rules=("round-to-metric", "round-to-inch"),
    ),
)
