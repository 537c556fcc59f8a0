"""A component on bushings and a stand-off as JSON. Keys are described in `files/joined_keys.csv`.

World coordinates, and for a component its own frame. Lengths are millimetres, angles degrees, masses
kilograms.
"""

from __future__ import annotations

from clampwright.files.json_text import Json, degrees, direction, json_bytes, number, numbers
from clampwright.files.layout_json import from_mark, hardware_line, head_of, known, tube
from clampwright.files.stack_json import stack
from clampwright.files.written import Written
from clampwright.layout.bushing_parts import Bar, BushingPart, CutList, bushing_volume_mm3
from clampwright.layout.bushing_placed import Answer, BushingLayout
from clampwright.layout.clock import clock_of
from clampwright.layout.cut_long import as_marked, as_sawn, left_long
from clampwright.layout.joined import Joined, Joint, Loop
from clampwright.layout.shop.piece_limits import finished_limits
from clampwright.layout.stand_off_placed import BoltPlace, Bundle, StandOffLayout, Wrap
from clampwright.structure.surroundings import Panel


def bushing_json(layout: BushingLayout) -> Written:
    """The whole layout of a component on bushings."""
    return _written(layout, bushing_as_json(layout))


def stand_off_json(layout: StandOffLayout) -> Written:
    """The whole layout of a stand-off."""
    return _written(layout, stand_off_as_json(layout))


def _written(layout: Joined, data: Json) -> Written:
    return Written(
        f"{layout.recipe.name}-layout.json", json_bytes(data), "Every place and size of the layout"
    )


def bushing_as_json(layout: BushingLayout) -> Json:
    """The same before it becomes bytes."""
    return {
        **head_of(layout.recipe),
        "answer": _answer(layout.answer),
        "others": [_answer(other) for other in layout.others],
        "examined": layout.examined,
        "fitting": layout.fitting,
        "remedies": [
            {"what": r.what, "says": r.says, "plate_recipe": r.plate_recipe} for r in layout.remedies
        ],
        "centre_of_gravity_mm": numbers(layout.centre_of_gravity),
        "holes": [
            {
                "clamp": clamp.label,
                "at_mm": numbers(clamp.at),
                "bolt_at_mm": numbers(clamp.at_exact),
                "seat_z_mm": number(clamp.seat_z_mm),
                "gap_mm": number(clamp.gap_mm),
            }
            for clamp in layout.clamps
        ],
        **_common(layout, layout.cuts),
    }


def stand_off_as_json(layout: StandOffLayout) -> Json:
    """The same before it becomes bytes."""
    return {
        **head_of(layout.recipe),
        "line": {**tube(layout.line), "solved": layout.line_solved},
        "bundle": _bundle(layout.bundle),
        "wrap": _wrap(layout.wrap),
        "panel": _panel(layout.panel, layout.panel_hole_mm),
        "crossing_deg": degrees(layout.crossing_rad),
        "distance_mm": number(layout.distance_mm),
        "places": [_place(place) for place in layout.places],
        "place": layout.place.number,
        **_common(layout, layout.cuts),
    }


def _common(layout: Joined, as_made: CutList) -> Json:
    cuts = as_sawn(layout, as_made)
    return {
        "clamps": [_loop(loop, layout) for loop in layout.loops],
        "joints": [_joint(joint) for joint in layout.joints],
        "bushings": [_bushing(part, layout) for part in as_marked(layout)],
        "cuts": {
            "bars": [_bar(bar) for bar in cuts.bars],
            "needed": [{"stock": stock, "length_mm": number(length)} for stock, length in cuts.needed_mm],
        },
        "hardware": [hardware_line(line) for line in layout.hardware],
        "known_to": [known(each) for each in layout.known_to],
        "assumed": [{"what": what, "value": value} for what, value in layout.assumed],
    }


def _answer(answer: Answer) -> Json:
    frame = answer.frame
    return {
        "origin_mm": numbers(frame.origin),
        "x": direction(frame.u),
        "y": direction(frame.v),
        "z": direction(frame.n),
        "fits": answer.fits,
        "worst_misfit_mm": number(answer.worst_misfit_mm),
        "allowed_mm": number(answer.allowed_mm),
        "longest_mm": number(answer.longest_mm),
        "spread_mm": number(answer.spread_mm),
        "worst_tilt_deg": degrees(answer.worst_tilt_rad),
        "off_mm": number(answer.off_mm),
        "breaks": list(answer.breaks),
        "says": answer.says,
        "holes": [
            {
                "hole": hole.hole,
                "tube": hole.tube,
                "turn": hole.turn,
                "station_mm": number(hole.station_mm),
                "misfit_mm": numbers(hole.misfit_mm),
                "bushing_mm": number(hole.bushing_mm),
                "tilt_deg": degrees(hole.tilt_rad),
            }
            for hole in answer.holes
        ],
    }


def _bundle(bundle: Bundle | None) -> Json | None:
    if bundle is None:
        return None
    return {"od_mm": number(bundle.od_mm), "how": bundle.how, "wires": bundle.wires}


def _wrap(wrap: Wrap | None) -> Json | None:
    if wrap is None:
        return None
    return {"thickness_mm": number(wrap.thickness_mm), "turns": number(wrap.turns)}


def _panel(panel: Panel | None, hole_mm: float | None) -> Json | None:
    if panel is None:
        return None
    return {
        "name": panel.name,
        "point_mm": numbers(panel.point),
        "normal": direction(panel.normal),
        "thickness_mm": number(panel.thickness_mm),
        "hole_mm": number(hole_mm),
    }


def _place(place: BoltPlace) -> Json:
    return {
        "number": place.number,
        "bolt_mm": numbers(place.bolt),
        "axis": direction(place.axis),
        "turn_tube": place.turn_tube,
        "turn_line": place.turn_line,
        "spacer_mm": number(place.spacer_mm),
        "station_tube_mm": number(place.station_tube_mm),
        "station_line_mm": number(place.station_line_mm),
        "tilt_deg": degrees(place.tilt_rad),
        "fits": place.fits,
        "breaks": list(place.breaks),
        "says": place.says,
    }


def _loop(loop: Loop, layout: Joined) -> Json:
    clamp, round_tube = loop.clamp, clock_of(loop)
    return {
        "label": loop.label,
        "tube": loop.tube,
        "station_mm": number(loop.station_mm),
        "station_from_mark_mm": from_mark(loop, layout),
        "clock_deg": number(round_tube.deg),
        "clock_zero": direction(round_tube.zero),
        "side": loop.side,
        "part": clamp.part,
        "loop_mm": number(clamp.loop_mm),
        "reach_mm": number(clamp.reach_mm),
        "seat_mm": number(clamp.seat_mm),
        "feet_mm": number(clamp.feet_mm),
        "measured": sorted(loop.measured),
        "centre_mm": numbers(loop.centre),
        "axis": direction(loop.axis),
        "bolt_axis": direction(loop.bolt_axis),
        "turn": loop.turn,
        "tilt_deg": degrees(loop.tilt_rad),
    }


def _joint(joint: Joint) -> Json:
    return {
        "label": joint.label,
        "clamps": list(joint.clamps),
        "head_mm": numbers(joint.head),
        "axis": direction(joint.axis),
        "stack": stack(joint.stack),
    }


def _bushing(part: BushingPart, layout: Joined) -> Json:
    longer = left_long(part, layout.known_to, layout.recipe.units)
    finished = finished_limits(part, layout.recipe.shop)
    return {
        "mark": part.mark,
        "quantity": part.quantity,
        "length_mm": number(part.length_mm),
        "under_mm": number(finished.under_mm),
        "over_mm": number(finished.over_mm),
        "od_mm": number(part.od_mm),
        "id_mm": number(part.id_mm),
        "chamfer_mm": number(part.chamfer_mm),
        "material": part.material,
        "make": part.make,
        "stock": part.stock,
        "volume_mm3": number(bushing_volume_mm3(part.length_mm, part.od_mm, part.id_mm, part.chamfer_mm)),
        "fills": [
            {
                "where": fill.where,
                "gap_mm": number(fill.gap_mm),
                "washers": [name for name, _ in fill.washers],
                "left_mm": number(fill.left_mm),
                "cut_longer_mm": number(longer.longer_mm if fill.where in longer.long else 0.0),
            }
            for fill in part.fills
        ],
    }


def _bar(bar: Bar) -> Json:
    return {
        "stock": bar.stock,
        "length_mm": number(bar.length_mm),
        "kerf_mm": number(bar.kerf_mm),
        "left_mm": number(bar.left_mm),
        "cuts": [{"mark": cut.mark, "length_mm": number(cut.length_mm)} for cut in bar.cuts],
    }
