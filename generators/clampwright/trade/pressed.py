"""What bushings, clamp bands and bolts bear when they are pressed together, and how they give."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.trade.tables import load, rule


@dataclass(frozen=True, slots=True)
class Pressed:
    """A material under a bolt's pull. `fcy_mpa` is its compressive yield strength; None where not known."""

    name: str
    fcy_mpa: float | None
    ftu_mpa: float
    elastic_mpa: float
    source: str


def pressed(name: str) -> Pressed | None:
    """The material of a bushing or of a clamp's band by its name; None where the table has it not.

    Examples
    --------
    >>> found = pressed("stainless steel")
    >>> found is not None and (found.name, round(found.fcy_mpa), round(found.elastic_mpa))
    ('304 stainless', 200, 196501)
    >>> pressed("aluminium") is None
    True
    """
    for row in load("seat_strengths").rows:
        if name in (row.text("name"), row.text("also")):
            return Pressed(
                row.text("name"),
                row.maybe("fcy"),
                row.number("ftu"),
                1000.0 * row.number("elastic"),
                row.source(),
            )
    return None


def expansion_per_k(family: str) -> float:
    """Thermal expansion of "aluminium", "stainless steel", "alloy steel" or "plastic", 1/K.

    Examples
    --------
    >>> round(expansion_per_k("aluminium") * 1e6, 1)
    23.4
    """
    return rule(f"expansion-{family.replace(' ', '-')}").value * 1e-6
