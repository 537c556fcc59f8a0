"""A factor of a covariance as rows of whole numbers: short enough for a file that a person opens."""

from __future__ import annotations

import math

import numpy as np

from clampwright.structure.uncertainty import Array, Uncertainty

_DIGITS = 4


def factor_lines(uncertainty: Uncertainty, fewer: bool = False) -> tuple[float, tuple[str, ...], list[str]]:
    """Millimetres that 1 stands for, names of the causes, and a text for each row without zeros at its end.

    With `fewer` the factor is turned (F Q has the same covariance, Q orthogonal) so that it is triangular and
    has no more causes than it needs; what they are is lost.

    >>> rows = ((0.5, 0.0), *((0.0, 0.0),) * 4, (-0.25, 0.125))
    >>> factor_lines(Uncertainty(("t",), rows, "by hand"))
    (0.0001, (), ['5000', '', '', '', '', '-2500 1250'])
    """
    factor = np.array(uncertainty.factor_mm, dtype=float).reshape(6 * len(uncertainty.tubes), -1)
    causes = uncertainty.causes_are
    if fewer:
        factor, causes = turned(factor), ()
    most = float(np.max(np.abs(factor), initial=0.0))
    one_mm = 10.0 ** (min(math.ceil(math.log10(most)), 0) - _DIGITS) if most > 0 else 10.0**-_DIGITS
    one_mm = float(f"{one_mm:.0e}")
    return one_mm, causes, [_row(row) for row in np.rint(factor / one_mm).astype(int).tolist()]


def turned(factor: Array) -> Array:
    """A lower triangular factor of the same covariance, without columns that say nothing.

    The transpose of R of the QR decomposition of Fᵀ: F Fᵀ = Rᵀ R.

    >>> turned(np.array([[3.0, 4.0]])).tolist()
    [[-5.0]]
    """
    lower = np.asarray(np.linalg.qr(factor.T, mode="r")).T
    most = np.max(np.abs(lower), initial=0.0)
    says = np.max(np.abs(lower), axis=0, initial=0.0) > most * 10.0 ** -(_DIGITS + 1)
    return np.asarray(lower[:, says], dtype=float)


def _row(numbers: list[int]) -> str:
    """Numbers with a space between them, without the zeros at the end."""
    last = max((at for at, number in enumerate(numbers, 1) if number), default=0)
    return " ".join(str(number) for number in numbers[:last])
