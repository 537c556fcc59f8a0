"""Cushioned loop clamps: geometry by family, materials, temperatures and fluids."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.quantities.kinds import INCH
from clampwright.trade.cushions import clamp_code_for, clamp_codes, code_row, cushion_objections, fluid_names
from clampwright.trade.tables import Row, load, rule

__all__ = [
    "LoopClamp",
    "clamp_code_for",
    "clamp_codes",
    "cushion_objections",
    "dash_for",
    "fluid_names",
    "loop_clamp",
]

_SIXTEENTH_MM = float(INCH / 16)


@dataclass(frozen=True, slots=True)
class LoopClamp:
    """A cushioned loop clamp closed on a tube.

    `reach_mm` tube axis to bolt axis; `seat_mm` tube axis to the outer face of the foot that meets the
    part, along the bolt; `feet_mm` both feet squeezed together. `measured` names those of the three that
    the recipe gave; the others are defaults nobody measured.
    """

    part: str
    dash: int
    loop_mm: float
    reach_mm: float
    seat_mm: float
    feet_mm: float
    band_width_mm: float
    band_mm: float
    outside_radius_mm: float
    foot_hole_mm: float
    foot_end_mm: float
    """Bolt axis to the free end of the feet."""
    band: str
    cushion: str
    max_temperature_c: float
    mass_kg: float
    measured: frozenset[str]
    source: str
    seat_source: str = ""
    feet_source: str = ""
    temperature_source: str = ""
    code: str = ""
    """Band and cushion, such as "CH"."""


def dash_for(od_mm: float) -> int:
    """Dash whose loop fits a bare tube: outside diameter in sixteenths of an inch, rounded up.

    A tube that is larger than a dash by no more than the loop's own tolerance still takes that dash.

    Raises
    ------
    LookupError
        For a tube smaller or larger than the family goes.

    Examples
    --------
    >>> dash_for(19.05), dash_for(19.3), dash_for(20.0)
    (12, 12, 13)
    """
    sixteenths = (od_mm - rule("clamp-loop-under-most").value) / _SIXTEENTH_MM
    dash = math.ceil(sixteenths - 1e-9)
    _family(dash)
    return dash


def loop_clamp(
    od_mm: float,
    code: str,
    *,
    dash: int | None = None,
    reach_mm: float | None = None,
    seat_mm: float | None = None,
    feet_mm: float | None = None,
) -> LoopClamp:
    """The clamp for a tube; measured values replace the family's defaults.

    With D the loop's diameter, dash/16 in: reach = D/2 + 0.405 in, seat = outside radius = D/2 + 0.130 in
    (0.142 from -09), feet = two bands + 1/16 in.

    Raises
    ------
    LookupError
        For an unknown code, or a dash outside the family.

    Examples
    --------
    >>> clamp = loop_clamp(19.05, "CH", seat_mm=12.5)
    >>> clamp.part, round(clamp.reach_mm / 25.4, 3), clamp.seat_mm, sorted(clamp.measured)
    ('MS21919WCH12', 0.78, 12.5, ['seat'])
    """
    size = dash_for(od_mm) if dash is None else dash
    family, materials = _family(size), code_row(code)
    loop = size * _SIXTEENTH_MM
    outside = loop / 2 + family.number("outside_over_half_loop")
    given = {"reach": reach_mm, "seat": seat_mm, "feet": feet_mm}
    measured = {name: value for name, value in given.items() if value is not None}
    used = _defaults(family, loop, outside) | measured
    return LoopClamp(
        part=f"MS21919W{code}{size:02d}",
        dash=size,
        loop_mm=loop,
        reach_mm=used["reach"],
        seat_mm=used["seat"],
        feet_mm=used["feet"],
        band_width_mm=family.number("band_width"),
        band_mm=family.number("band"),
        outside_radius_mm=outside,
        foot_hole_mm=family.number("foot_hole"),
        foot_end_mm=family.number("foot_end"),
        band=materials.text("band"),
        cushion=materials.text("cushion"),
        max_temperature_c=materials.number("max_temperature"),
        mass_kg=_mass_kg(family, materials, outside, used["reach"]),
        measured=frozenset(measured),
        source=family.source(),
        seat_source=family.source("seat"),
        feet_source=family.source("feet_spacer"),
        temperature_source=materials.source(),
        code=code,
    )


def _defaults(family: Row, loop_mm: float, outside_mm: float) -> dict[str, float]:
    """What the family takes for the three that can be measured, mm."""
    return {
        "reach": loop_mm / 2 + family.number("reach_over_half_loop"),
        "seat": outside_mm,
        "feet": 2 * family.number("band") + family.number("feet_spacer"),
    }


def _family(dash: int) -> Row:
    """The row of the family that a dash belongs to."""
    rows = load("clamp_family").rows
    for row in rows:
        if row.whole("first_dash") <= dash <= row.whole("last_dash"):
            return row
    first, last = rows[0].whole("first_dash"), rows[-1].whole("last_dash")
    raise LookupError(
        f"no loop clamp -{dash:02d}: dashes go from -{first:02d} to -{last:02d} (sixteenths of an inch)"
    )


def _mass_kg(family: Row, materials: Row, outside_mm: float, reach_mm: float) -> float:
    """Band round the loop and along two feet, and the cushion inside it: an estimate from volumes."""
    band, width, cushion = (family.number(stem) for stem in ("band", "band_width", "cushion"))
    feet = 2 * (reach_mm + family.number("foot_end"))
    band_length = math.pi * (2 * outside_mm - band) + feet - outside_mm
    cushion_length = math.pi * (2 * (outside_mm - band) - cushion)
    return (
        1e-9
        * width
        * (
            band * band_length * _density("clamp_bands", "band", materials.text("band"))
            + cushion * cushion_length * _density("cushions", "cushion", materials.text("cushion"))
        )
    )


def _density(table: str, column: str, name: str) -> float:
    return next(row.number("density") for row in load(table).rows if row.text(column) == name)
