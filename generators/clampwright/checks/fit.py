"""Fit-up: rounding and measuring error of each hole's place against what its clearance forgives."""

from __future__ import annotations

from functools import partial
from math import hypot

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.finding import Finding
from clampwright.checks.holes import bolt_holes
from clampwright.checks.wording import at_most, shown
from clampwright.layout.fit_up import PILOT
from clampwright.layout.how_sure import known_to
from clampwright.layout.known_to import known
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
    found = partial(
        _fit,
        where=fit.hole,
        value=fit.uncertainty_mm,
        limit=fit.clearance_mm,
        unit="mm",
        sources=(_origin(purpose, layout),),
    )
    play = shown(fit.clearance_mm, layout)
    forgiven = fit.uncertainty_mm <= fit.clearance_mm + SAME_MM
    if forgiven and fit.way == PILOT:
        says = f"Bolt and hole forgive ± {play}, which leaves too little of it to the shop's own error."
        return found(verdict="caution", says=says, change=_plan(fit, layout))
    if fit.uncertainty_mm <= SAME_MM:
        says = f"Nothing else fixes the place of this hole: drill to size ({play} of play)."
        return found(verdict="pass", says=says, change="")
    sure = f"Place known to ± {shown(fit.uncertainty_mm, layout)}; bolt and hole forgive ± {play}"
    if forgiven:
        return _sure_enough(found, fit, f"{sure}: drill to size.", layout)
    if fit.way == DRILL_NOW:
        change = f"Drill {_pilot(fit, layout)} and transfer it in place. {_to_drill_now(fit, layout)}"
        return found(verdict="fail", says=f"{sure}, yet the plan drills it to size now.", change=change)
    most = known(fit.hole, known_to(layout)) if purpose == "clamp" else None
    says = f"{sure}. Most of it comes from {most.most_from}." if most and most.most_from else f"{sure}."
    return found(verdict="caution", says=says, change=_plan(fit, layout))


def _origin(purpose: str, layout: PlateLayout) -> str:
    """Where the ± of a hole's place comes from: calipers, a survey, or tubes measured by hand."""
    if purpose != "clamp":
        return rule("caliper-error").source
    surveyed = layout.recipe.structure.uncertainty is not None
    return rule("coverage-95" if surveyed else "measuring-error").source


def _sure_enough(found: partial[Finding], fit: FitUp, says: str, layout: PlateLayout) -> Finding:
    """A hole that forgives its error: unknown where that error is one that nobody stated."""
    if fit.given:
        return found(verdict="pass", says=says, change="")
    if layout.fit_up.error_given:
        change = "Measure the clamps' reach with calipers and write it: a default was taken."
        return found(verdict="unknown", says=says, change=change)
    error = shown(layout.fit_up.error_mm, layout)
    change = f"Say how well the tubes were measured: [measuring] error, ± {error} was taken."
    return found(verdict="unknown", says=says, change=change)


def _plan(fit: FitUp, layout: PlateLayout) -> str:
    change = f"Not to size on the bench: {fit.way}, as the fit-up plan says"
    if fit.way == PILOT:
        change += f" ({_pilot(fit, layout)})"
    if fit.otherwise:
        change += f"; or {fit.otherwise}"
    return f"{change}. {_to_drill_now(fit, layout)}"


def _pilot(fit: FitUp, layout: PlateLayout) -> str:
    """The pilot hole with its drill."""
    size = next((hole.pilot for hole in layout.holes if hole.label == fit.hole), "")
    return f"a pilot of {size}" if size else "a pilot"


def _to_drill_now(fit: FitUp, layout: PlateLayout) -> str:
    """What to measure again; without it, how well the place must be known, where calipers can do that."""
    if fit.cure:
        return fit.cure
    if fit.clearance_mm < rule("caliper-error").value:
        return "To drill it now, neither tape nor calipers will do."
    return f"To drill it now, its place must be known to ± {at_most(fit.clearance_mm, layout)}."


def rounding(layout: PlateLayout) -> tuple[Finding, ...]:
    """FIT-2: rounding does not set the holes over one tube further out of line than their play.

    Along its tube a clamp slides to its hole, and a shift that all holes over a tube share changes only
    the distance to the other tubes, which FIT-1 counts. What is left is how far each hole lies from the
    others' mean, square to the tube. A hole that is transferred in place follows its clamp anyway.
    """
    plan = {f.hole: f for f in layout.fit_up.holes}
    return tuple(_rounded(c, plan[c.label], layout) for c in layout.clamps if c.label in plan)


def out_of_line(place: ClampPlace, layout: PlateLayout) -> float:
    """How far rounding sets a clamp's hole off the mean of those over its tube, square to it, mm."""
    row = [moved_across(c, layout.frame) for c in layout.clamps if c.tube == place.tube]
    return abs(moved_across(place, layout.frame) - sum(row) / len(row))


def moved_across(place: ClampPlace, frame: Frame) -> float:
    """How far rounding moves a clamp's hole square to its tube in the plate's plane, mm."""
    along = [sum(a * d for a, d in zip(place.axis, way, strict=True)) for way in (frame.u, frame.v)]
    du, dv = place.at[0] - place.at_exact[0], place.at[1] - place.at_exact[1]
    return (dv * along[0] - du * along[1]) / hypot(*along)


def _rounded(place: ClampPlace, fit: FitUp, layout: PlateLayout) -> Finding:
    moved, clearance = out_of_line(place, layout), fit.clearance_mm
    found = partial(
        _rounding,
        where=place.label,
        value=moved,
        limit=clearance,
        unit="mm",
        sources=(_increment(layout).source,),
    )
    play = shown(clearance, layout)
    says = f"On the nearest mark the hole lies {shown(moved, layout)} out of line with its tube's others"
    if fit.way != DRILL_NOW:
        return found(verdict="pass", says=f"{says}; it is not drilled to that mark ({fit.way}).", change="")
    if moved <= clearance + SAME_MM:
        return found(verdict="pass", says=f"{says}; bolt and hole forgive ± {play}.", change="")
    change = f"Set round_to = 0: exact places, {shown(moved, layout)} better here."
    return found(verdict="caution", says=f"{says}, where bolt and hole forgive ± {play}.", change=change)


def _increment(layout: PlateLayout) -> Rule:
    return rule("round-to-inch" if layout.recipe.units == "in" else "round-to-metric")


CHECKS = (
    Check(
        "FIT-1",
        "error against hole clearance",
        "± of each hole's place, by how the tubes were measured, against what its clearance forgives.",
        fits_up,
        rules=(
            "measuring-error",
            "caliper-error",
            "caliper-reach",
            "tape-least",
            "reach-error-default",
            "coverage-95",
            "hole-place-least",
        ),
    ),
    Check(
        "FIT-2",
        "rounding of clamp holes",
        "How far rounding sets the holes over a tube out of line with each other, against their clearance.",
        rounding,
        rules=("round-to-metric", "round-to-inch"),
    ),
)
