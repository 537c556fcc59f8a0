"""A file of some recipes that cannot be made: whose it is, and why; the other recipes are not lost by it."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from clampwright.solids.no_part import NoPart


class NoPartOf(Exception):  # noqa: N818
    """What would be made of these recipes cannot be."""

    def __init__(self, recipes: tuple[str, ...], why: str, own_fault: bool = False) -> None:
        super().__init__(f"{', '.join(recipes)}: {why}")
        self.recipes = recipes
        self.why = why
        self.own_fault = own_fault


@contextmanager
def making(*recipes: str) -> Iterator[None]:
    """Whose files are being made: a `NoPart` on the way becomes a `NoPartOf` these recipes.

    >>> with making("coil-plate"):
    ...     raise NoPart("the contour crosses itself")
    Traceback (most recent call last):
    ...
    clampwright.files.pack.no_part_of.NoPartOf: coil-plate: the contour crosses itself
    """
    try:
        yield
    except NoPart as refused:
        raise NoPartOf(recipes, str(refused), refused.own_fault) from refused
