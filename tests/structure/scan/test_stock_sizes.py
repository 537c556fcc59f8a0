"""Stock outside diameters, and which of them a found one agrees with."""

from __future__ import annotations

from fractions import Fraction

import pytest

from clampwright.structure.stock_sizes import stock_size, stock_sizes


def test_names_say_the_size() -> None:
    """The name read as a fraction of an inch, or as millimetres, is the size: a slipped digit shows."""
    for name, size in stock_sizes():
        number, unit = name.split(" ")
        value = float(sum(Fraction(part) for part in number.split("-")))
        assert size == pytest.approx(value * (25.4 if unit == "in" else 1.0), abs=1e-9)


def test_sizes_of_engine_mount_tube_are_there() -> None:
    """Common practice, no source: 3/8 to 1-1/4 in by eighths."""
    names = {name for name, _ in stock_sizes()}
    assert {"3/8 in", "1/2 in", "5/8 in", "3/4 in", "7/8 in", "1 in", "1-1/8 in", "1-1/4 in"} <= names


@pytest.mark.parametrize(
    ("od", "plus_minus", "name"),
    [
        (19.05, 0.0, "3/4 in"),
        (19.3, 0.3, "3/4 in"),
        (19.3, 0.2, None),
        (15.93, 0.08, None),
        (15.93, 0.06, "5/8 in"),
        (15.97, 0.08, "16 mm"),
        (200.0, 1.0, None),
    ],
)
def test_one_and_only_one_agrees(od: float, plus_minus: float, name: str | None) -> None:
    found = stock_size(od, plus_minus)
    assert (found[0] if found else None) == name


def test_every_size_agrees_with_itself_alone() -> None:
    for name, size in stock_sizes():
        assert stock_size(size, 0.01) == (name, size)
