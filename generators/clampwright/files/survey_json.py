"""A solved survey, and tubes found in a file, as JSON: lengths in mm, angles in degrees, ± at 95 %."""

from __future__ import annotations

import math

from clampwright.files.json_text import Json, degrees, direction, json_bytes, number, numbers
from clampwright.files.written import Written
from clampwright.structure.found import Found, FoundTube
from clampwright.structure.survey.model import Between, Measurement, Slope
from clampwright.structure.survey.solved import Blunder, Judged, Mirror, Next, Placed, SolvedSurvey
from clampwright.structure.tubes import Structure, Tube

FORMAT_VERSION = 1


def solved_json(solved: SolvedSurvey) -> Written:
    """What a survey comes to, as a file."""
    name = f"{solved.survey.name}-solved.json"
    return Written(name, json_bytes(solved_as_json(solved)), "Points, measurements and what is doubtful")


def solved_as_json(solved: SolvedSurvey) -> Json:
    """The same before it becomes bytes. `usable` is true where the tubes can be built on."""
    survey = solved.survey
    return {
        "format": "clampwright survey",
        "format_version": FORMAT_VERSION,
        "survey": {"name": survey.name, "digest": survey.digest},
        "usable": solved.structure is not None,
        "says": list(solved.says),
        "cautions": list(solved.cautions),
        "redundancy": solved.redundancy,
        "scale": number(solved.scale),
        "scale_most": number(solved.scale_most),
        "worst_plus_minus_mm": _known(solved.worst_mm),
        "freedoms": solved.freedoms,
        "loose": list(solved.loose),
        "points": [_point(point) for point in solved.points],
        "tubes": _tubes(solved.structure),
        "measurements": [_judged(each) for each in solved.judged],
        "blunders": [_blunder(each) for each in solved.blunders],
        "mirrors": [_mirror(each) for each in solved.mirrors],
        "take_next": [_next(each) for each in solved.take_next],
    }


def found_json(found: Found, name: str) -> Written:
    """Tubes found in a file, as a file."""
    return Written(f"{name}-found.json", json_bytes(found_as_json(found)), "Round tubes found in the file")


def found_as_json(found: Found) -> Json:
    """The same before it becomes bytes."""
    return {
        "format": "clampwright found tubes",
        "format_version": FORMAT_VERSION,
        "source": found.source,
        "unit": found.unit,
        "unit_how": found.unit_how,
        "size_mm": numbers(found.size_mm),
        "looked_at": found.looked_at,
        "doubts": list(found.doubts),
        "tubes": [_found_tube(each) for each in found.tubes],
        "not_taken": [{"what": each.what, "why": each.why} for each in found.not_taken],
    }


def _point(point: Placed) -> Json:
    return {
        "name": point.name,
        "at_mm": numbers(point.at),
        "plus_minus_mm": [_known(value) for value in point.plus_minus_mm],
    }


def _known(value: float | None) -> float | None:
    """A ±; None where the point is loose, so that nothing limits it."""
    return number(value) if value is not None and math.isfinite(value) else None


def _tubes(structure: Structure | None) -> list[Json]:
    return [] if structure is None else [_tube(tube) for tube in structure.tubes]


def _tube(tube: Tube) -> Json:
    return {
        "name": tube.name,
        "start_mm": numbers(tube.start),
        "end_mm": numbers(tube.end),
        "direction": direction(tube.direction),
        "length_mm": number(tube.length_mm),
        "od_mm": number(tube.od_mm),
        "mark_mm": number(tube.mark_mm),
    }


def _in_unit(measurement: Measurement, value: float | None) -> Json:
    """A value under the key of its unit: "mm", or "deg" for slopes and angles."""
    if isinstance(measurement, Slope | Between):
        return {"deg": None if value is None or not math.isfinite(value) else degrees(value)}
    return {"mm": _known(value)}


def _measured(measurement: Measurement) -> float:
    if isinstance(measurement, Slope | Between):
        return measurement.value_rad
    return getattr(measurement, "value_mm", 0.0)


def _judged(each: Judged) -> Json:
    measurement = each.measurement
    return {
        "name": each.name,
        "line": measurement.line,
        "measured": _in_unit(measurement, _measured(measurement)),
        "computed": _in_unit(measurement, each.computed),
        "residual": _in_unit(measurement, each.residual),
        "redundancy": number(each.redundancy),
        "score": number(each.score),
        "hides": _in_unit(measurement, each.hides),
    }


def _blunder(each: Blunder) -> Json:
    return {
        "name": each.name,
        "line": each.measurement.line,
        "measured": _in_unit(each.measurement, each.measured),
        "probably": _in_unit(each.measurement, each.probably),
        "plus_minus": _in_unit(each.measurement, each.plus_minus),
        "as_likely": list(each.as_likely),
        "says": each.says,
    }


def _mirror(each: Mirror) -> Json:
    return {
        "point": each.point,
        "moves": list(each.moves),
        "one_mm": numbers(each.one),
        "other_mm": numbers(each.other),
        "resolved": each.resolved,
        "ask": each.ask,
    }


def _next(each: Next) -> Json:
    worst = _known(each.worst_after_mm)
    return {"a": each.a, "b": each.b, "what": each.what, "does": each.does, "worst_after_mm": worst}


def _found_tube(each: FoundTube) -> Json:
    return {
        "number": each.number,
        **_tube(each.tube),
        "od_found_mm": number(each.od_found_mm),
        "od_plus_minus_mm": number(each.od_plus_minus_mm),
        "stock": each.stock,
        "bore_mm": number(each.bore_mm),
        "coverage_deg": degrees(each.coverage_rad),
        "ends_plus_minus_mm": number(each.ends_plus_minus_mm),
        "angle_plus_minus_deg": degrees(each.angle_plus_minus_rad),
        "residual_mm": number(each.residual_mm),
        "along_plus_minus_mm": numbers(each.along_plus_minus_mm),
        "gaps_mm": [numbers(gap) for gap in each.gaps_mm],
        "bow_mm": number(each.bow_mm),
        "points": each.points,
        "doubts": list(each.doubts),
    }
