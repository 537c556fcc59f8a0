"""How sure the tubes of a recipe are: by their survey, or by the measuring error that the recipe states."""

from __future__ import annotations

from collections.abc import Iterable

from clampwright.quantities import show_length
from clampwright.recipe.model import Recipe
from clampwright.structure.uncertainty import Uncertainty, independent, plus_minus


def tubes_known(recipe: Recipe) -> Uncertainty:
    """Uncertainty of every tube of the structure.

    Tubes that a survey says nothing of, and all where there was none, have ends known to the recipe's
    measuring error, each end apart from the others.

    >>> from clampwright.recipe.read import read_text
    >>> lines = [
    ...     'kind = "accessory plate"',
    ...     'name = "relay-plate"',
    ...     "measuring.error = 1",
    ...     "structure.tubes.low = { start = [0, 0, 0], end = [500, 0, 0], od = 19.05 }",
    ...     "structure.tubes.high = { start = [0, 150, 0], end = [500, 150, 0], od = 19.05 }",
    ...     'carries = [{ name = "relay", mass = "0.1 kg", holes = [[-15, 0], [15, 0]] }]',
    ... ]
    >>> sure = tubes_known(read_text("\\n".join(lines)))
    >>> sure.tubes, sure.causes, sure.said
    (('low', 'high'), 12, 'measuring error of ± 1.00 mm')
    """
    structure, measuring = recipe.structure, recipe.measuring
    surveyed = structure.uncertainty
    rest = [tube for tube in structure.tubes if surveyed is None or tube.name not in surveyed.tubes]
    error = f"measuring error of ± {show_length(measuring.error_mm, recipe.units)}"
    said = error if measuring.given else f"{error} that nobody stated"
    if surveyed is None:
        return independent(rest, measuring.error_mm, said, given=measuring.given)
    return (
        _both(surveyed, independent(rest, measuring.error_mm, said, given=measuring.given))
        if rest
        else surveyed
    )


def worst_end_mm(sure: Uncertainty, tubes: Iterable[str]) -> float:
    """± (95 %) of the worst coordinate of the ends of some tubes, the frame itself taken as exact.

    >>> worst_end_mm(Uncertainty(("t",), ((0.5,),) * 5 + ((1.0,),), "by hand"), ("t",))
    1.96
    """
    return max((plus_minus(row) for tube in tubes for row in sure.ends(tube)), default=0.0)


def _both(one: Uncertainty, other: Uncertainty) -> Uncertainty:
    """Tubes of two, whose causes have nothing to do with each other."""
    before, after = (0.0,) * one.causes, (0.0,) * other.causes
    rows = (*((*row, *after) for row in one.factor_mm), *((*before, *row) for row in other.factor_mm))
    marks = (
        *((name, (*row, *after)) for name, row in one.marks_mm),
        *((name, (*before, *row)) for name, row in other.marks_mm),
    )
    said = f"{one.said}; other tubes: {other.said}"
    return Uncertainty((*one.tubes, *other.tubes), rows, said, one.given and other.given, marks_mm=marks)
