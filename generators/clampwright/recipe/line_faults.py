"""Faults of the line that a stand-off holds: how thick it is and where it runs, said twice or not at all."""

from __future__ import annotations

from clampwright.quantities import show_length
from clampwright.recipe.fields import Values
from clampwright.recipe.limits import limits
from clampwright.recipe.written import Entry
from clampwright.trade.bundles import bundle_circle, wire_od_mm
from clampwright.trade.hoses import hose

_THICKNESS = ("od", "hose", "wires")
_COURSE = ("point", "to", "direction", "beside", "toward")


def line_thickness(entry: Entry, line: Values) -> float | None:
    """Outside diameter of the line with its sleeve; None where it is not said once or too much: a fault."""
    if not line or not set(_THICKNESS) <= line.keys():
        return None
    given = [key for key in _THICKNESS if line[key] is not None]
    if len(given) != 1:
        hint = "delete all but one" if given else 'such as od = "0.77 in", hose = 8 or wires = [[7, 20]]'
        at, said = (entry.inside(given[1]), " and ".join(given)) if given else (entry, "none of them")
        at.wrong("one of od, hose and wires", hint, said=said, at_key=True)
        return None
    od, most = _od_mm(line), limits("line-od").most
    if od is None or od <= most:
        return od
    expected = f"a line at most {show_length(most, entry.units)} thick, sleeve and all"
    entry.inside(given[0]).wrong(expected, "no loop clamp is larger", said=show_length(od, entry.units))
    return None


def _od_mm(line: Values) -> float | None:
    if "sleeve" not in line:
        return None
    bare = None
    if line.get("od") is not None:
        bare = line["od"]
    elif line.get("hose") is not None:
        bare = hose(line["hose"]).od_mm
    elif line.get("wires"):
        sizes = [(w.count, wire_od_mm(w.gauge) if w.od_mm is None else w.od_mm) for w in line["wires"]]
        bare = bundle_circle(sizes).diameter_mm
    return None if bare is None else float(bare) + 2 * float(line["sleeve"])


def line_course(entry: Entry, line: Values, on_panel: bool, at_hand: bool) -> bool:
    """Whether it is said in one way where the line runs; if not, that is noted.

    `at_hand`: the length of the spacer is given, so that the line's distance follows from it.
    """
    if not line or not set(_COURSE) <= line.keys():
        return False
    given = {key for key in _COURSE if line[key] is not None}
    wrong = _two_ways(given, on_panel, at_hand) or _half_a_way(given, on_panel, at_hand)
    if wrong is None:
        return True
    key, expected, hint = wrong
    said = f"no {key}" if key not in given else " and ".join(k for k in _COURSE if k in given)
    entry.inside(key).wrong(expected, hint, said=said, at_key=True)
    return False


_Wrong = tuple[str, str, str]
"""Key, what was expected, hint."""


def _two_ways(given: set[str], on_panel: bool, at_hand: bool) -> _Wrong | None:
    """Keys that say the same thing twice."""
    if {"to", "direction"} <= given:
        return "direction", "point with to, or point with direction", "delete one of to and direction"
    if "beside" in given and at_hand:
        hint = "the spacer decides how far off it runs: delete beside, or spacer.length"
        return "beside", "no beside with a spacer of given length", hint
    points = given & ({"to"} if on_panel else {"point", "to", "direction"})
    if "beside" in given and points:
        hint = "beside is for a line parallel to the tube; on a panel it goes with direction"
        return "beside", "one way to say where the line runs", hint
    if "toward" in given and (on_panel or not ("beside" in given or at_hand)):
        hint = "toward goes with beside on a tube; else the line's place says on which side it is"
        return "toward", "no toward here", hint
    return None


def _half_a_way(given: set[str], on_panel: bool, at_hand: bool) -> _Wrong | None:
    """Keys that need another one beside them."""
    if "to" in given and "point" not in given:
        return "point", "point beside to", "the line runs from point to to"
    if "point" in given and not given & {"to", "direction"}:
        return "direction", "direction or to beside point", "one point does not say which way it runs"
    if on_panel:
        if not given & {"to", "direction"}:
            hint = "such as point = [1, 0, 6] and direction = [0, 1, 0]"
            return "point", "where the line runs along the panel", hint
        if "point" not in given and "beside" not in given and not at_hand:
            hint = "give point, or beside: the distance of its axis from the panel"
            return "point", "how far off the panel the line runs", hint
    elif not at_hand and "point" not in given and "beside" not in given:
        hint = 'such as point and direction, point and to, or beside = "2 in" for a line parallel to the tube'
        return "point", "where the line runs", hint
    return None
