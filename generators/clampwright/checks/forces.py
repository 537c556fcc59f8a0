"""Forces and pressures in sentences, in the scale that goes with the recipe's units."""

from __future__ import annotations

from clampwright.layout.joined import Joined
from clampwright.quantities.kinds import INCH, POUND

_POUND_FORCE = float(POUND) * 9.80665
"""Newtons in a pound-force (standard gravity)."""
_KSI = 1000.0 * _POUND_FORCE / float(INCH) ** 2
_MM2 = float(INCH) ** 2


def force(newtons: float, layout: Joined) -> str:
    """A force: "59 N" or "13 lbf"."""
    if layout.recipe.units == "in":
        return f"{newtons / _POUND_FORCE:.0f} lbf"
    return f"{newtons:.0f} N"


def pressure(mpa: float, layout: Joined) -> str:
    """A pressure or strength: "61 MPa" or "8.9 ksi"."""
    if layout.recipe.units == "in":
        return f"{mpa / _KSI:.1f} ksi"
    return f"{mpa:.0f} MPa"


def area(mm2: float, layout: Joined) -> str:
    """An area: "62 mm²" or "0.096 sq in"."""
    if layout.recipe.units == "in":
        return f"{mm2 / _MM2:.3f} sq in"
    return f"{mm2:.0f} mm²"
