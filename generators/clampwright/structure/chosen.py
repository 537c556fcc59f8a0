"""Tubes that a person chose from those found in a file, to a structure."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import combinations

from clampwright.structure.found import Found, FoundTube
from clampwright.structure.tube_names import LONGEST, alike, is_name
from clampwright.structure.tubes import Structure
from clampwright.structure.uncertainty import Uncertainty


class NotChosen(LookupError):  # noqa: N818
    """A choice that no structure can be made of."""


def chosen(found: Found, numbers: Sequence[int], names: Mapping[int, str]) -> Structure:
    """The structure of the tubes chosen by number, in that order, under new names where `names` gives them.

    Tubes of a scan bring their own errors, each tube apart from the others: the factor of their covariance
    is block-diagonal. Tubes of a STEP file, or of a mesh too smooth for a scan, bring none, and `uncertainty`
    is None: a drawing is not the metal, so that the recipe's measuring error has to stand for the difference.
    So it is where any one of them brings none: no tube counts as known exactly.

    Examples
    --------
    >>> from clampwright.structure.tubes import Tube
    >>> one = Tube("ROD", (0.0, 0.0, 0.0), (0.0, 0.0, 500.0), 19.05)
    >>> from_step = FoundTube(1, one, 19.05, 0.0, "3/4 in", None, 6.28, 0.0, 0.0, 0.0, 1, ())
    >>> found = Found("bay.step", "mm", "written in the file", (from_step,), (), (19.05, 19.05, 500.0), 3)
    >>> structure = chosen(found, [1], {1: "upper-left"})
    >>> structure.names, structure.uncertainty
    (('upper-left',), None)

    Raises
    ------
    NotChosen
        No tube has that number, none or one twice is chosen, a name is none that a recipe takes, or two
        are too alike.
    """
    tubes = tuple(_one(found, number, names) for number in numbers)
    _check(found, numbers, names, tubes)
    uncertainty = None
    if all(tube.spread_mm for tube in tubes):
        rows = _block_diagonal([tube.spread_mm for tube in tubes])
        said = f"scan {found.source}, {_counted(len(tubes))}"
        uncertainty = Uncertainty(tuple(one.tube.name for one in tubes), rows, said)
    return Structure(tuple(one.tube for one in tubes), uncertainty=uncertainty)


def _one(found: Found, number: int, names: Mapping[int, str]) -> FoundTube:
    for one in found.tubes:
        if one.number == number:
            return replace(one, tube=replace(one.tube, name=names.get(number, one.tube.name)))
    there = f"they go from 1 to {len(found.tubes)}" if found.tubes else "there is none"
    raise NotChosen(f"{found.source} has no tube {number}: {there}")


def _check(
    found: Found, numbers: Sequence[int], names: Mapping[int, str], tubes: Sequence[FoundTube]
) -> None:
    if not tubes:
        raise NotChosen(f"choose at least one tube of {found.source}")
    for number in names:
        if number not in numbers:
            raise NotChosen(f'tube {number}, to be called "{names[number]}", is not among those chosen')
    if twice := [number for number, times in Counter(numbers).items() if times > 1]:
        raise NotChosen(f"tube {twice[0]} is chosen twice")
    _check_names([one.tube.name for one in tubes])


def _check_names(names: Sequence[str]) -> None:
    for name in names:
        if not is_name(name):
            least = f"at most {LONGEST} letters, digits, spaces, . - and _, the first a letter or digit"
            raise NotChosen(f"{name!r} is no name for a tube: {least}")
    for one, other in combinations(names, 2):
        if one == other:
            raise NotChosen(f'two tubes would be called "{one}": give one of them another name')
        if alike(one) == alike(other):
            raise NotChosen(f'"{one}" and "{other}" are too alike: give one of them another name')


def _block_diagonal(blocks: Sequence[tuple[tuple[float, ...], ...]]) -> tuple[tuple[float, ...], ...]:
    """Rows of all blocks, each block's columns apart."""
    widths = [len(block[0]) for block in blocks]
    rows: list[tuple[float, ...]] = []
    for k, block in enumerate(blocks):
        before, after = sum(widths[:k]), sum(widths[k + 1 :])
        rows += [(0.0,) * before + tuple(row) + (0.0,) * after for row in block]
    return tuple(rows)


def _counted(tubes: int) -> str:
    return "1 tube" if tubes == 1 else f"{tubes} tubes"
