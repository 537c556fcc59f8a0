"""Holds finished parts against their recipe: what was measured, the best fit, and what follows from it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from clampwright.checks.all_checks import worst
from clampwright.checks.as_made import as_made
from clampwright.checks.finding import Finding
from clampwright.layout.as_made import BestFit
from clampwright.layout.as_made_drawn import drawn
from clampwright.layout.as_made_fit import best_fit
from clampwright.layout.kinds import Layout, lay_out
from clampwright.recipe.measured_form import measuring_form
from clampwright.recipe.measured_model import MeasuredPart
from clampwright.recipe.measured_part import read_measured, together
from clampwright.recipe.measured_typed import measured_typed
from clampwright.recipe.read import read


@dataclass(frozen=True, slots=True)
class Verified:
    """A recipe's layout, what was measured on the finished parts, and whether they fit."""

    layout: Layout
    measured: MeasuredPart
    fit: BestFit
    findings: tuple[Finding, ...]

    @property
    def verdict(self) -> str:
        """The worst verdict of all findings."""
        return worst(self.findings)


def verify_recipe(
    path: Path, measured: Path | None, holes: Sequence[str] = (), bushings: Sequence[str] = ()
) -> Verified:
    """Compare finished parts with the recipe they were made from.

    Parameters
    ----------
    path
        The recipe.
    measured
        A CSV as `form_of` gives it, filled in; or None.
    holes, bushings
        Measurements as typed, "A1=12.3,45.6" and "S1=12.7": they stand for those of the file.

    Raises
    ------
    RecipeFaults
        Everything wrong with the recipe, or with the measurements, at once.
    CannotLayOut
        The recipe allows no layout.
    """
    layout = lay_out(read(path))
    there = drawn(layout)
    read_in = () if measured is None else (read_measured(measured, there),)
    typed = (measured_typed(holes, bushings, there),) if holes or bushings else ()
    found = together(*read_in, *typed)
    return Verified(layout, found, best_fit(layout, found), as_made(layout, found))


def form_of(path: Path) -> bytes:
    """The form to fill in: a CSV with a row for each hole and each piece of bushing of a recipe.

    Raises
    ------
    RecipeFaults, CannotLayOut
        As `verify_recipe`.
    """
    return measuring_form(drawn(lay_out(read(path))))
