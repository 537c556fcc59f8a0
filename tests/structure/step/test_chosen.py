"""Tubes that a person chose from those found: order, names, and how they err together."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from clampwright.structure.chosen import NotChosen, chosen
from clampwright.structure.found import Found, FoundTube
from clampwright.structure.tubes import Tube


def found(*spreads: tuple[tuple[float, ...], ...]) -> Found:
    blank = FoundTube(1, Tube("", (0, 0, 0), (0, 0, 1), 20.0), 20.0, 0.0, "", None, 6.28, 0, 0, 0, 1, ())
    tubes = tuple(
        replace(
            blank,
            number=k,
            tube=Tube(f"tube-{k}", (k, 0.0, 0.0), (k, 0.0, 500.0), 20.0),
            spread_mm=spread,
        )
        for k, spread in enumerate(spreads, 1)
    )
    return Found("bay.ply", "mm", "given", tubes, (), (1.0, 1.0, 1.0), 9)


def spread(causes: int, seed: int) -> tuple[tuple[float, ...], ...]:
    return tuple(map(tuple, np.random.default_rng(seed).normal(size=(6, causes)).tolist()))


def test_order_and_names_are_the_persons() -> None:
    structure = chosen(found((), (), ()), [3, 1], {1: "lower left"})
    assert structure.names == ("tube-3", "lower left")
    assert structure.tubes[1].start == (1, 0.0, 0.0)


def test_a_drawing_brings_no_errors_of_its_own() -> None:
    assert chosen(found((), ()), [1, 2], {}).uncertainty is None


def test_no_tube_counts_as_known_exactly_beside_others_of_a_scan() -> None:
    """One that brings no errors of its own leaves them all to the recipe's measuring error."""
    assert chosen(found(spread(4, 1), ()), [1, 2], {}).uncertainty is None
    assert chosen(found(spread(4, 1), ()), [1], {}).uncertainty is not None


def test_tubes_of_a_scan_err_apart_from_each_other() -> None:
    """Each tube's own covariance is F Fᵀ of its own rows; between two tubes it is nought."""
    one, two, three = spread(4, 1), spread(5, 2), spread(6, 3)
    sure = chosen(found(one, two, three), [3, 1], {3: "left"}).uncertainty
    assert sure is not None
    assert (sure.tubes, sure.causes, sure.given) == (("left", "tube-1"), 10, True)
    covariance = np.array(sure.factor_mm) @ np.array(sure.factor_mm).T
    assert covariance[:6, :6] == pytest.approx(np.array(three) @ np.array(three).T)
    assert covariance[6:, 6:] == pytest.approx(np.array(one) @ np.array(one).T)
    assert not covariance[:6, 6:].any()


@pytest.mark.parametrize(
    ("numbers", "names", "said"),
    [
        ([4], {}, "has no tube 4: they go from 1 to 3"),
        ([], {}, "choose at least one tube"),
        ([1, 2, 1], {}, "tube 1 is chosen twice"),
        ([1, 2], {1: "tube-2"}, 'two tubes would be called "tube-2"'),
        ([1], {2: "left"}, 'tube 2, to be called "left", is not among those chosen'),
        ([1, 2], {1: "Tube 2"}, '"Tube 2" and "tube-2" are too alike'),
        ([1], {1: "left/right"}, "'left/right' is no name for a tube: at most 40 letters"),
        ([1], {1: ""}, "'' is no name for a tube"),
        ([1], {1: "-left"}, "the first a letter or digit"),
        ([1], {1: "x" * 41}, "is no name for a tube"),
    ],
)
def test_choices_that_cannot_be(numbers: list[int], names: dict[int, str], said: str) -> None:
    with pytest.raises(NotChosen, match=said):
        chosen(found((), (), ()), numbers, names)
