"""Whether a page's dimensions say what they point to: from their points, their text and what is drawn."""

from __future__ import annotations

import math
import re

from shapely.geometry import LineString, Point

from clampwright.quantities import Vec2
from clampwright.sheets.drawing import ArcPath, Circle, Dimension, Page, Path

SAME = 1e-6
MM = {"mm": 1.0, "in": 25.4}
TEXT = re.compile(
    r"(?:(\d+)x )?([ØR]?)(\d+(?:\.\d+)?)(°(?: included)?|)"
    r"((?: ±[\d.]+)|(?: \+?[\d.]+ -?[\d.]+))?(?: max)?(?: \[(\d+(?:\.\d+)?)[^\]]*\])?"
)
SIGN = {"diameter": "Ø", "radius": "R"}


def untrue(page: Page, units: str) -> list[str]:
    """What is wrong with the dimensions of a page."""
    wrong = []
    for each in page.dimensions:
        if abs(measured(each) - each.value) > SAME:
            wrong.append(f"{each.text}: measures {measured(each)}, value {each.value}")
        wrong += [f"{each.text}: {fault}" for fault in misread(each, units)]
        wrong += [f"{each.text}: {p} is on nothing" for p in each.points if not _drawn_at(p, page, each)]
    return wrong


def measured(each: Dimension) -> float:
    """The true size between a dimension's points."""
    first, second, *third = each.points
    if each.kind == "angle":
        turns = [math.atan2(p[1] - first[1], p[0] - first[0]) for p in (second, third[0])]
        return (turns[1] - turns[0]) % (2 * math.pi)
    across, along = abs(second[0] - first[0]), abs(second[1] - first[1])
    long = {"horizontal": across, "vertical": along}.get(each.kind, math.hypot(across, along))
    return long * (2 if each.kind == "diameter" else 1) / each.scale


def misread(each: Dimension, units: str) -> list[str]:
    """Faults of a text, read back: sign, value within the decimals printed, millimetres behind inches."""
    found = TEXT.fullmatch(each.text)
    if found is None:
        return ["cannot be read"]
    _, sign, value, degrees, _, bracket = found.groups()
    if each.kind == "angle":
        return _off(math.degrees(each.value), value, 1.0) + ([] if degrees else ["no degree sign"])
    faults = [] if sign == SIGN.get(each.kind, "") else [f"sign {sign!r}"]
    faults += _off(each.value, value, MM[units])
    if units == "in":
        faults += _off(each.value, bracket, 1.0) if bracket else ["no millimetres"]
    return faults


def _off(true: float, printed: str, per: float) -> list[str]:
    decimals = len(printed.partition(".")[2])
    step = 0.5 * 10.0**-decimals if decimals else 0.5 * 10.0**-2
    fine = abs(float(printed) - true / per) <= step + 1e-9
    return [] if fine else [f"says {printed}, is {true / per}"]


def _drawn_at(point: Vec2, page: Page, each: Dimension) -> bool:
    """Whether an outline passes there, or it is the centre of a circle or arc; an angle's vertex need not."""
    if each.kind == "angle" and point == each.points[0]:
        return True
    at = Point(point)
    for item in page.items:
        if isinstance(item, Circle | ArcPath):
            away = math.dist(item.centre, point)
            if away < SAME or abs(away - item.radius) < SAME:
                return True
        elif isinstance(item, Path) and item.fill is None and len(item.points) > 1:
            ring = (*item.points, item.points[0]) if item.closed else item.points
            if LineString(ring).distance(at) < SAME:
                return True
    return False
