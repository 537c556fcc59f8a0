"""Two tubes in a plane as a recipe gives them: their spacing at two stations, or at one and their angle."""

from __future__ import annotations

import math
from collections.abc import Sequence

from clampwright.quantities import show_angle, show_length
from clampwright.recipe.blocks import Alone, alike
from clampwright.recipe.fields import NEEDED, Assumed, ByRule, Field, LeftOut, Table, Values
from clampwright.recipe.limits import limits
from clampwright.recipe.measures import Angle, Length
from clampwright.recipe.readers import Several, one_of
from clampwright.recipe.survey_names import TUBE
from clampwright.recipe.survey_rows import ANGLE_ERROR, LENGTH_ERROR, Pair
from clampwright.recipe.written import Entry
from clampwright.structure.survey.model import CENTRE, INSIDE, OUTSIDE
from clampwright.structure.tubes import Structure
from clampwright.structure.two_tubes import TwoTubes, splay, touching, tubes, uncertainty
from clampwright.trade.tables import rule

_SPACING = Pair((Length("station"), Length("survey-distance")), "a pair [station, spacing]", '[4, "6-3/4"]')

TWO_TUBES = Table(
    (
        Field(
            "names",
            Several(TUBE, 2, 2, "names", 'such as ["upper", "lower"]', no_repeats=True),
            "What to call them: stations are counted along the first.",
            NEEDED,
            '["upper", "lower"]',
        ),
        Field(
            "od",
            Several(
                Length("tube-od", "the outside diameter, not the wall or the radius"),
                2,
                2,
                "outside diameters",
                "one for each tube",
            ),
            "Their outside diameters, over paint or sleeve.",
            NEEDED,
            '["20 mm", "20 mm"] | ["3/4 in", "3/4 in"]',
        ),
        Field(
            "length",
            Length("station"),
            "How much of the first is of interest, from station 0: a mark on it, or its end.",
            NEEDED,
            '"500 mm" | "20 in"',
        ),
        Field(
            "spacings",
            Several(_SPACING, 1, 2, "pairs [station, spacing]", "[[station, spacing], [station, spacing]]"),
            "How far apart they are, square to the first, at two stations; or at one, with the angle.",
            NEEDED,
            "[[50, 180], [450, 150]] | [[2, 7], [18, 6]]",
        ),
        Field(
            "how",
            one_of(OUTSIDE, INSIDE, CENTRE),
            "Over the far walls of both, between their near walls, or from axis to axis.",
            Assumed(OUTSIDE, "calipers go over both", "assumed"),
            '"outside"',
        ),
        Field(
            "angle",
            Angle("splay", "positive where they move apart from station 0, negative where they close in"),
            "Angle between them, where the spacing is given once.",
            LeftOut(None, "by two spacings"),
            '"-4 deg"',
        ),
        Field(
            "error",
            LENGTH_ERROR,
            "Plus or minus of each spacing and each station (95 %).",
            ByRule("survey-tape-metric", "survey-tape-inch", "usual for a tape over tubes"),
            '"1 mm" | "1/32 in"',
        ),
        Field(
            "angle_error",
            ANGLE_ERROR,
            "Plus or minus of the angle (95 %).",
            LeftOut(None, "by rule where an angle is given"),
            '"0.5 deg"',
        ),
        Field(
            "out_of_plane",
            Length("out-of-plane"),
            "Plus or minus by which an end of the second lies off the plane of both (95 %).",
            ByRule(
                "survey-out-of-plane-metric", "survey-out-of-plane-inch", "usual where they look flat by eye"
            ),
            '"1 mm" | "1/32 in"',
        ),
    ),
    "Two tubes in a plane, by their spacing: the first along x, the second beside it on its +y side.",
)
TWO_TUBES_FIELD = Field(
    "two_tubes",
    Alone(TWO_TUBES),
    TWO_TUBES.about,
    LeftOut(None, "the tubes are given otherwise"),
)


def two_tubes_of(entry: Entry, values: Values) -> Structure | None:
    """The two tubes and how sure they are; None where they have faults, which are noted."""
    good = _names_apart(entry, values.get("names"))
    if len(values) < len(TWO_TUBES.fields):
        return None
    spacings, angle = values["spacings"], values["angle"]
    if not (_once_or_twice(entry, spacings, angle) and _on_the_tube(entry, values["length"], spacings)):
        return None
    two = TwoTubes(
        names=values["names"],
        od_mm=values["od"],
        length_mm=values["length"],
        how=values["how"],
        spacings=spacings,
        splay_rad=angle,
        error_mm=values["error"],
        splay_error_rad=_angle_error(entry, values),
        out_of_plane_mm=values["out_of_plane"],
    )
    if not (_splay_held(entry, two) and _clear(entry, two) and good):
        return None
    written = entry.value if isinstance(entry.value, dict) else {}
    given = {"error", "out_of_plane"} <= written.keys() and (angle is None or "angle_error" in written)
    return Structure(tubes(two), uncertainty=uncertainty(two, given))


def _angle_error(entry: Entry, values: Values) -> float:
    """The ± of the angle; where it is needed and not written, by rule, said as assumed."""
    if values["angle"] is None or values["angle_error"] is not None:
        return float(values["angle_error"] or 0.0)
    by_rule = ByRule("survey-angle", "survey-angle", "usual for a bevel set by eye")
    error = Field("angle_error", ANGLE_ERROR, "", by_rule).read_in(entry)
    assert isinstance(error, float)
    return error


def _names_apart(entry: Entry, names: Sequence[str] | None) -> bool:
    if names is None or alike(names[0]) != alike(names[1]):
        return True
    hint = "a slip would take one for the other"
    entry.inside("names").inside(1).wrong("names that no one can confuse for each tube", hint)
    return False


def _once_or_twice(entry: Entry, spacings: Sequence[object], angle: float | None) -> bool:
    if len(spacings) == 1 and angle is None:
        hint = "measure at a second station, or give their angle"
        entry.inside("spacings").wrong("two pairs [station, spacing], or one and angle", hint)
    elif len(spacings) == 2 and angle is not None:
        hint = "two spacings say the angle already: delete one or the other"
        entry.inside("angle").wrong("an angle only beside a single spacing", hint, said="both", at_key=True)
    else:
        return True
    return False


def _on_the_tube(entry: Entry, length: float, spacings: Sequence[tuple[float, float]]) -> bool:
    """Whether the length can hold a clamp, and the stations lie on it, apart; what is wrong is noted."""
    least = rule("tube-length-least").value
    good = True
    if length < least:
        entry.inside("length").wrong(
            f"a length of at least {show_length(least, entry.units)}", "is the unit right?"
        )
        return False
    for number, (station, _) in enumerate(spacings):
        if station > length:
            expected = f"a station on the tube, up to {show_length(length, entry.units)}"
            hint = "a station is counted from the start of the length, along the first tube"
            entry.inside("spacings").inside(number).inside(0).wrong(expected, hint)
            good = False
    if len(spacings) == 2 and abs(spacings[1][0] - spacings[0][0]) < least:
        expected = f"a second station at least {show_length(least, entry.units)} from the first"
        entry.inside("spacings").inside(1).inside(0).wrong(expected, "the farther apart, the surer the angle")
        good = False
    return good


def _splay_held(entry: Entry, two: TwoTubes) -> bool:
    angle, most = splay(two), math.radians(limits("splay").most)
    if abs(angle) <= most:
        return True
    hint = "measure both spacings again, square to the first tube"
    expected = f"two tubes within {show_angle(most)} of each other"
    entry.inside("spacings").wrong(expected, hint, said=show_angle(abs(angle)))
    return False


def _clear(entry: Entry, two: TwoTubes) -> bool:
    """Whether the tubes stay apart all along; where they would overlap is noted."""
    stretch = touching(two)
    if stretch is None:
        return True
    first, last = (show_length(station, entry.units) if station else "0" for station in stretch)
    if stretch == (0.0, two.length_mm):
        hint = f'are these spacings taken "{two.how}"?'
    elif stretch[0] == 0.0:
        hint = f"count stations from a mark beyond {last}, where they are apart; or is a spacing wrong?"
    else:
        hint = f"end the length before {first}, where they meet; or is a spacing wrong?"
    said = f"tubes that would overlap from {first} to {last}"
    entry.inside("spacings").wrong("tubes that lie apart over the whole length", hint, said=said)
    return False
