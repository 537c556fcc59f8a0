"""Finished parts as measured: do they still fit? Checks that need measurements beside a layout."""

from __future__ import annotations

from functools import partial

from clampwright.checks import made_edges, made_holes, made_lengths, made_sizes, made_stacks
from clampwright.checks.asked import Check
from clampwright.checks.finding import Finding
from clampwright.checks.made_wording import Made
from clampwright.layout.as_made import BestFit, MeasuredPart
from clampwright.layout.as_made_fit import best_fit
from clampwright.layout.joined import Joined
from clampwright.trade.tables import rule

_all = partial(Finding, "MADE-6", "everything measured", unit="")


def as_made(layout: Joined, measured: MeasuredPart, fit: BestFit | None = None) -> tuple[Finding, ...]:
    """Every finding on finished parts, in the order of the checks.

    Parameters
    ----------
    layout
        Of any kind.
    measured
        Labels and marks have to be the layout's: the reader refuses others.
    fit
        `best_fit` of both, where the caller has it already.
    """
    made = Made(layout, measured, best_fit(layout, measured) if fit is None else fit)
    return tuple(finding for check in CHECKS for finding in check.run(made))


def everything_measured(made: Made) -> tuple[Finding, ...]:
    """MADE-6: what nobody measured is not known to fit."""
    found = partial(_all, where="measurements", limit=0.0, sources=(rule("caliper-error").source,))
    missing, unsized = made.fit.not_measured, made.fit.not_sized
    count = float(len(missing) + len(unsized))
    if not count:
        says = "Every hole and bushing was measured."
        return (found(verdict="pass", value=0.0, says=says, change=""),)
    told: list[str] = []
    if missing:
        told.append(f"Nobody measured {', '.join(missing)}: not known to fit.")
    if unsized:
        told.append(f"The diameter of {', '.join(unsized)} is not measured: taken as drawn.")
    change = f"Measure the other {len(missing) + len(unsized)}; --form writes the form for it."
    return (found(verdict="unknown", value=count, says=" ".join(told), change=change),)


CHECKS: tuple[Check, ...] = (
    *made_holes.CHECKS,
    *made_sizes.CHECKS,
    *made_lengths.CHECKS,
    *made_stacks.CHECKS,
    *made_edges.CHECKS,
    Check(
        "MADE-6",
        "everything measured",
        "Holes, diameters and bushings that nobody measured: unknown, not passed.",
        everything_measured,
        rules=("caliper-error",),
    ),
    *made_lengths.FEET,
    *made_stacks.THICKNESS,
)
"""The checks of finished parts, in order; each takes a `Made`."""
