"""What is particular to the report of an accessory plate."""

from __future__ import annotations

import math

from clampwright.layout.from_mark import station_said
from clampwright.layout.placed import ClampPlace, PlateLayout, StackItem
from clampwright.quantities import show_length, show_mass
from clampwright.sheets.figures import coordinate
from clampwright_cli.how_sure import how_sure
from clampwright_cli.table import table


def head(layout: PlateLayout) -> list[str]:
    """Size, mass and centre of gravity."""
    recipe = layout.recipe
    low_u, low_v, high_u, high_v = layout.outline.box()
    size = " x ".join(show_length(value, recipe.units) for value in (high_u - low_u, high_v - low_v))
    mass_unit = "lb" if recipe.units == "in" else "kg"
    u, v, z = (show_length(value, recipe.units) for value in layout.centre_of_gravity)
    return [
        f"plate {size}, {layout.material.name} {show_length(layout.thickness_mm, recipe.units)}, "
        f"{show_mass(layout.plate_mass_kg, mass_unit)}; "
        f"with what it carries {show_mass(layout.total_mass_kg, mass_unit)}",
        f"centre of gravity {u} and {v} from the datum edges, {z} above the face on the clamps",
    ]


def body(layout: PlateLayout) -> list[str]:
    """The clamps and the holes."""
    return [_clamps(layout), how_sure(layout), _holes(layout)]


def _clamps(layout: PlateLayout) -> str:
    heads = ["clamp", "tube", "station", "side", "part", "between foot and plate", "tilt", "bolt"]
    return "Clamps\n" + table(heads, [_clamp_row(clamp, layout) for clamp in layout.clamps])


def _clamp_row(clamp: ClampPlace, layout: PlateLayout) -> list[str]:
    units = layout.recipe.units
    packing = ", ".join(_packed(item, units) for item in clamp.packing)
    chosen = clamp.stack.chosen
    return [
        clamp.label,
        clamp.tube,
        station_said(layout.recipe.structure.tube(clamp.tube), clamp.station_mm, units),
        clamp.side,
        clamp.clamp.part,
        packing or "nothing",
        f"{math.degrees(clamp.tilt_rad):.1f} deg",
        chosen.length.part if chosen else "not known",
    ]


def _packed(item: StackItem, units: str) -> str:
    count = f"{item.count} x " if item.count > 1 else ""
    made = item.name in ("bushing", "shim")
    return count + (f"{item.name} {show_length(item.thickness_mm, units)}" if made else item.part)


def _holes(layout: PlateLayout) -> str:
    units = layout.recipe.units
    rows = [
        [
            hole.label,
            coordinate(hole.at[0], units),
            coordinate(hole.at[1], units),
            show_length(hole.diameter_mm, units),
            hole.pilot,
            hole.drill,
            " ".join(word for word in (hole.purpose, hole.owner if hole.owner != hole.label else "") if word),
        ]
        for hole in layout.holes
    ]
    return "Holes, from the left and bottom datum edges, component side up\n" + table(
        ["hole", f"across {units}", f"up {units}", "diameter", "pilot", "final", "for"], rows
    )
