"""Lengths as the sheets print them, in the recipe's unit."""

from __future__ import annotations

from clampwright.quantities import fixed, length_mm, show_length

_COORDINATE, _DISTANCE = {"mm": 2, "in": 4}, {"mm": 2, "in": 3}
"""Decimals."""


def figure(mm: float, units: str) -> str:
    """A length without its unit: for tables whose heading names it.

    Examples
    --------
    >>> figure(19.05, "mm"), figure(19.05, "in")
    ('19.05', '0.750')
    """
    return show_length(mm, units).removesuffix(units).strip()


def coordinate(mm: float, units: str) -> str:
    """A coordinate, with as many decimals as every other one: for columns of them.

    Examples
    --------
    >>> coordinate(141.2875, "in"), coordinate(11.5, "mm")
    ('5.5625', '11.50')
    """
    return fixed(mm / length_mm(1.0, units), _COORDINATE[units])


def distance(mm: float, units: str) -> str:
    """A distance as a person measures it with calipers or tape: 3 decimals of an inch, 2 of a millimetre.

    A half goes away from zero.

    Examples
    --------
    >>> distance(120.0, "in"), distance(120.0, "mm"), distance(11.1125, "in")
    ('4.724', '120.00', '0.438')
    """
    return fixed(mm / length_mm(1.0, units), _DISTANCE[units])
