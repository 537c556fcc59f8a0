"""What a column of a trade table holds, read from its name, and the unit it is turned into."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from clampwright.quantities.kinds import INCH, POUND

_POUND_FORCE = POUND * Fraction("9.80665")
"""Newtons in a pound-force: standard gravity is 9.80665 m/s², exact."""

_KSI = 1000 * _POUND_FORCE / INCH**2

# fmt: off
TEXT_COLUMNS = frozenset(
    {
        "name", "part", "bolt", "thread", "kind", "series", "locking", "use", "code", "band", "cushion",
        "fluid", "says", "size", "fastener", "drill", "pilot", "form", "condition", "also", "family",
        "gauge_list", "bit", "feed", "coolant", "key", "unit", "about", "letter",
        "verdict", "specification",
    }
)
# fmt: on
"""Columns that hold words; every other column needs a unit at the end of its name."""


@dataclass(frozen=True, slots=True)
class Column:
    """A column: `kind` is "text", "source" or "number"; `unit` is the unit the file is in."""

    name: str
    stem: str
    kind: str
    unit: str
    convert: Callable[[Fraction], Fraction]
    """From the file's unit to the project's."""


def _times(factor: Fraction | int) -> Callable[[Fraction], Fraction]:
    return lambda value: value * factor


_UNITS: dict[str, tuple[str, Callable[[Fraction], Fraction]]] = {
    "mm": ("mm", _times(1)),
    "in": ("in", _times(INCH)),
    "tpi": ("threads per inch", lambda value: INCH / value),
    "deg": ("deg", _times(1)),
    "arcmin": ("arcmin", _times(Fraction(1, 60))),
    "degc": ("degC", _times(1)),
    "degf": ("degF", lambda value: (value - 32) * Fraction(5, 9)),
    "kg": ("kg", _times(1)),
    "lb": ("lb", _times(POUND)),
    "kg_m3": ("kg/m³", _times(1)),
    "lb_in3": ("lb/in³", _times(POUND / (INCH / 1000) ** 3)),
    "mpa": ("MPa", _times(1)),
    "ksi": ("ksi", _times(_KSI)),
    "gpa": ("GPa", _times(1)),
    "msi": ("Msi", _times(_KSI)),
    "nm": ("N·m", _times(1)),
    "lbf_in": ("lbf·in", _times(_POUND_FORCE * INCH / 1000)),
    "m_min": ("m/min", _times(1)),
    "ratio": ("", _times(1)),
    "no": ("", _times(1)),
}
"""Ending of a column's name to the unit as people read it, and the way into the project's unit.

Lengths become mm, minutes of arc degrees, temperatures degC, masses kg, stresses MPa, moduli GPa, densities
kg/m³, torques N·m, threads per inch a pitch in mm; "ratio" and "no" (a number that counts or names) have
no unit."""


def read_column(name: str, has_unit_column: bool = False) -> Column | None:
    """The column that a header cell stands for; None where it says neither unit nor a known text.

    Parameters
    ----------
    name : str
        The header cell.
    has_unit_column : bool
        Whether the table gives the unit row by row: then a column `value` is allowed.

    Examples
    --------
    >>> read_column("shank_min_in").stem, read_column("torque_lbf_in").unit
    ('shank_min', 'lbf·in')
    >>> read_column("shank_min") is None
    True
    """
    if name == "source" or name.endswith("_source"):
        return Column(name, name, "source", "", _times(1))
    if name in TEXT_COLUMNS:
        return Column(name, name, "text", "", _times(1))
    if name == "value" and has_unit_column:
        return Column(name, name, "number", "", _times(1))
    for ending in sorted(_UNITS, key=len, reverse=True):
        if name.endswith(f"_{ending}") and name != f"_{ending}":
            return Column(name, name.removesuffix(f"_{ending}"), "number", *_UNITS[ending])
    return None
