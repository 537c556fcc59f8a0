"""The layout as JSON: every place and size in plain numbers. Keys are described in `files/keys.csv`.

The part's frame: origin in the datum corner of the near face, which lies on the clamps; u and v along the
datum edges, n towards the components. Lengths are millimetres, angles degrees, masses kilograms.
"""

from __future__ import annotations

import math

from clampwright.files.json_text import Json, degrees, direction, json_bytes, number, numbers
from clampwright.files.stack_json import layer, stack
from clampwright.files.written import Written
from clampwright.layout.from_mark import from_mark_mm
from clampwright.layout.joined import Joined, Loop, line_named
from clampwright.layout.known_to import KnownTo
from clampwright.layout.outline import Arc, Line
from clampwright.layout.placed import ClampPlace, FitUpPlan, HardwareLine, Hole, PlacedComponent, PlateLayout
from clampwright.recipe.model import Recipe
from clampwright.structure.tubes import Tube

FORMAT_VERSION = 1


def layout_json(layout: PlateLayout) -> Written:
    """The whole layout."""
    name = f"{layout.recipe.name}-layout.json"
    return Written(name, json_bytes(layout_as_json(layout)), "Every place and size of the layout")


def layout_as_json(layout: PlateLayout) -> Json:
    """The same before it becomes bytes."""
    frame = layout.frame
    return {
        **head_of(layout.recipe),
        "frame": {
            "origin_mm": numbers(frame.origin),
            "u": direction(frame.u),
            "v": direction(frame.v),
            "n": direction(frame.n),
        },
        "plate": _plate(layout),
        "holes": [_hole(hole) for hole in layout.holes],
        "clamps": [_clamp(clamp, layout) for clamp in layout.clamps],
        "components": [_component(component) for component in layout.components],
        "mass": {
            "plate_kg": number(layout.plate_mass_kg),
            "plate_and_components_kg": number(layout.total_mass_kg),
            "centre_of_gravity_mm": numbers(layout.centre_of_gravity),
        },
        "hardware": [hardware_line(line) for line in layout.hardware],
        "fit_up": _fit_up(layout.fit_up),
        "known_to": [known(each) for each in layout.known_to],
        "assumed": [{"what": what, "value": value} for what, value in layout.assumed],
    }


def head_of(recipe: Recipe) -> Json:
    """What every layout begins with: format, recipe, zone and tubes."""
    return {
        "format": "clampwright layout",
        "format_version": FORMAT_VERSION,
        "recipe": {
            "name": recipe.name,
            "kind": recipe.kind,
            "about": recipe.about,
            "units": recipe.units,
            "digest": recipe.digest,
        },
        "zone": {
            "temperature_degc": number(recipe.zone.temperature_c),
            "ahead_of_firewall": recipe.zone.ahead_of_firewall,
            "fluids": list(recipe.zone.fluids),
        },
        "tubes": [tube(one) for one in recipe.structure.tubes],
        "known_from": _known_from(recipe),
    }


def tube(one: Tube) -> Json:
    """A tube, or a carried line."""
    return {
        "name": one.name,
        "start_mm": numbers(one.start),
        "end_mm": numbers(one.end),
        "od_mm": number(one.od_mm),
        "mark_mm": number(one.mark_mm),
    }


def _known_from(recipe: Recipe) -> Json:
    """What every ± of a layout rests on: a survey of the tubes, or the recipe's measuring error."""
    surveyed, measuring = recipe.structure.uncertainty, recipe.measuring
    if surveyed is not None:
        return {"survey": surveyed.said, "error_mm": None, "given": surveyed.given}
    return {"survey": None, "error_mm": number(measuring.error_mm), "given": measuring.given}


def known(each: KnownTo) -> Json:
    """How sure a clamp's figures are."""
    return {
        "clamp": each.clamp,
        "station_plus_minus_mm": number(each.station_mm),
        "across_plus_minus_mm": number(each.across_mm),
        "gap_plus_minus_mm": number(each.gap_mm),
        "given": each.given,
        "most_from": each.most_from,
        "across_given": each.across_given,
        "across_from_reach_mm": number(each.reach_mm),
        "gap_given": each.gap_given,
        "gap_most_from": each.gap_most_from,
        "gap_from_seat_mm": number(each.seat_mm),
        "carries": each.carries,
    }


def from_mark(loop: Loop, layout: Joined) -> float | None:
    """How far a clamp lies from the mark of its tube, towards its end, in mm; None without a mark."""
    return number(from_mark_mm(line_named(loop.tube, layout), loop.station_mm))


def _plate(layout: PlateLayout) -> Json:
    u0, v0, u1, v1 = layout.outline.box()
    cut = math.fsum(math.pi * hole.diameter_mm**2 / 4 for hole in layout.holes)
    area = layout.outline.area_mm2()
    return {
        "material": layout.material.name,
        "thickness_mm": number(layout.thickness_mm),
        "width_mm": number(u1 - u0),
        "height_mm": number(v1 - v0),
        "outline_area_mm2": number(area),
        "volume_mm3": number((area - cut) * layout.thickness_mm),
        "outline": [_piece(piece) for piece in layout.outline.pieces],
    }


def _piece(piece: Line | Arc) -> Json:
    ends: Json = {"start_mm": numbers(piece.start), "end_mm": numbers(piece.end)}
    if isinstance(piece, Line):
        return {"piece": "line", **ends}
    return {
        "piece": "arc",
        **ends,
        "centre_mm": numbers(piece.centre),
        "radius_mm": number(piece.radius_mm),
        "counter_clockwise": piece.ccw,
    }


def _hole(hole: Hole) -> Json:
    return {
        "label": hole.label,
        "purpose": hole.purpose,
        "owner": hole.owner,
        "at_mm": numbers(hole.at),
        "diameter_mm": number(hole.diameter_mm),
        "fastener": hole.fastener,
        "drill": hole.drill,
        "pilot": hole.pilot,
    }


def _clamp(place: ClampPlace, layout: PlateLayout) -> Json:
    clamp = place.clamp
    return {
        "label": place.label,
        "tube": place.tube,
        "station_mm": number(place.station_mm),
        "station_from_mark_mm": from_mark(place, layout),
        "station_given": place.station_given,
        "side": place.side,
        "part": clamp.part,
        "dash": clamp.dash,
        "loop_mm": number(clamp.loop_mm),
        "reach_mm": number(clamp.reach_mm),
        "seat_mm": number(clamp.seat_mm),
        "feet_mm": number(clamp.feet_mm),
        "measured": sorted(place.measured),
        "centre_mm": numbers(place.centre),
        "axis": direction(place.axis),
        "bolt_axis": direction(place.bolt_axis),
        "turn": place.turn,
        "tilt_deg": degrees(place.tilt_rad),
        "at_mm": numbers(place.at),
        "at_exact_mm": numbers(place.at_exact),
        "seat_z_mm": number(place.seat_z_mm),
        "gap_mm": number(place.gap_mm),
        "packing": [layer(item) for item in place.packing],
        "stack": stack(place.stack),
    }


def _component(component: PlacedComponent) -> Json:
    return {
        "name": component.name,
        "at_mm": numbers(component.at),
        "turn_deg": degrees(component.turn_rad),
        "mass_kg": number(component.mass_kg),
        "cg_height_mm": number(component.cg_height_mm),
        "holes": list(component.holes),
        "body_mm": None if component.body is None else numbers(component.body),
        "corners_mm": [numbers(corner) for corner in component.corners],
        "stacks": [stack(one) for one in component.stacks],
    }


def hardware_line(line: HardwareLine) -> Json:
    """One line of the order list."""
    return {
        "part": line.part,
        "what": line.what,
        "quantity": line.quantity,
        "torque_n_m": None if line.torque_nm is None else numbers(line.torque_nm),
        "mass_each_kg": number(line.mass_each_kg),
        "where": line.where,
        "source": line.source,
    }


def _fit_up(plan: FitUpPlan) -> Json:
    return {
        "error_mm": number(plan.error_mm),
        "error_given": plan.error_given,
        "holes": [
            {
                "hole": hole.hole,
                "way": hole.way,
                "uncertainty_mm": number(hole.uncertainty_mm),
                "clearance_mm": number(hole.clearance_mm),
                "why": hole.why,
                "otherwise": hole.otherwise,
            }
            for hole in plan.holes
        ],
        "shims": [
            {
                "clamp": shim.clamp,
                "nominal_mm": number(shim.nominal_mm),
                "low_mm": number(shim.low_mm),
                "high_mm": number(shim.high_mm),
                "advice": shim.advice,
            }
            for shim in plan.shims
        ],
    }
