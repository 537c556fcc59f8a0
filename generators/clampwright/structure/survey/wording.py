"""Measurements and their values as a person says them, in the survey's units."""

from __future__ import annotations

from collections import Counter

from clampwright.quantities import Vec3, length_mm, show_angle, show_length
from clampwright.structure.survey.model import (
    CENTRE,
    Along,
    Between,
    Distance,
    Measurement,
    Plumb,
    Slope,
    Survey,
)

SIDES = {axis: (f"+{axis} of", f"-{axis} of") for axis in "xyz"}
"""What lies on the positive and on the negative side along each axis of the frame, whichever way that axis
points: left and right would be mirror images as seen from the seat and from before the nose."""


def axis_words(survey: Survey, axis: str) -> str:
    """Which way an axis of the frame runs, by what the datum says of it."""
    datum = survey.datum
    if axis == datum.axis:
        return f"+{axis} runs from {datum.origin} toward {datum.through}"
    if datum.level and axis == "z":
        return "+z is up"
    if axis == datum.plane_axis:
        return f"+{axis} is the side of {datum.in_plane}"
    return f"+{axis} is square to the other two axes, right-handed: x thumb, y first finger, z middle finger"


def name_of(m: Measurement) -> str:
    """What was measured, in a few words.

    >>> name_of(Distance("A", "C", 500.0, 1.0)), name_of(Along("A", "B", "z", 30.0, 2.0))
    ('A-C', 'height B over A')
    """
    match m:
        case Distance():
            return f"{m.a}-{m.b}" + ("" if m.how == CENTRE else f" {m.how}")
        case Along():
            return f"height {m.b} over {m.a}" if m.axis == "z" else f"{m.b} along {m.axis} from {m.a}"
        case Plumb():
            return f"{m.b} plumb with {m.a}"
        case Slope():
            return f"slope of {m.tube}"
        case Between():
            return f"angle between {m.one} and {m.other}"


def names(survey: Survey) -> tuple[str, ...]:
    """Names of all measurements; what was measured more than once is told apart by line, or by count."""
    plain = [name_of(m) for m in survey.measurements]
    often, seen = Counter(plain), Counter[str]()
    found = []
    for name, m in zip(plain, survey.measurements, strict=True):
        seen[name] += 1
        if often[name] > 1:
            name = f"{name} (line {m.line})" if m.line else f"{name} ({seen[name]})"
        found.append(name)
    return tuple(found)


def is_angle(m: Measurement) -> bool:
    """Whether a measurement is an angle, and not a length."""
    return isinstance(m, Slope | Between)


def value_of(m: Measurement) -> float:
    """What was read: mm or rad; 0 for a plumb line."""
    match m:
        case Distance() | Along():
            return m.value_mm
        case Plumb():
            return 0.0
        case Slope() | Between():
            return m.value_rad


def error_of(m: Measurement) -> float:
    """± (95 %) of what was read, mm or rad."""
    return m.error_rad if isinstance(m, Slope | Between) else m.error_mm


def shown(value: float, m: Measurement, units: str) -> str:
    """A value of this measurement's kind for people.

    >>> shown(508.0, Distance("A", "C", 500.0, 1.0), "in"), shown(0.5, Slope("t", 0.4, 0.01), "mm")
    ('20.000 in', '28.6°')
    """
    return show_angle(value) if is_angle(m) else show_length(value, units)


def length(mm: float, units: str) -> str:
    """A length, without zeros that nobody measured.

    >>> length(12.7, "mm"), length(12.7, "in")
    ('12.7 mm', '0.50 in')
    """
    text = show_length(round(mm, 1) if units == "mm" else mm, units)
    number, _, unit = text.partition(" ")
    return f"{float(number):.{1 if units == 'mm' else 2}f} {unit}"


def told_apart(one_mm: float, other_mm: float, units: str) -> tuple[str, str]:
    """Two lengths with as many digits as it takes to see which is longer.

    >>> told_apart(2.3, 2.2, "mm"), told_apart(0.0107, 0.0101, "mm")
    (('2.30 mm', '2.20 mm'), ('0.0107 mm', '0.0101 mm'))
    """
    one, other = show_length(one_mm, units), show_length(other_mm, units)
    scale = length_mm(1.0, units)
    for digits in range(3, 8):
        if one != other or one_mm == other_mm:
            break
        one, other = (f"{mm / scale:.{digits + 1}f} {units}" for mm in (one_mm, other_mm))
    return one, other


def place(at: Vec3, units: str) -> str:
    """Coordinates for people: "(10.0, 20.0, -5.0) mm"."""
    parts = [length(value, units).split(" ")[0] for value in at]
    return f"({', '.join(parts)}) {units}"


def listed(words: list[str] | tuple[str, ...], join: str = "and") -> str:
    """ "A", "A and B", "A, B and C".

    >>> listed(["A", "B", "C"])
    'A, B and C'
    """
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {join} {words[-1]}"


def counted(count: int, word: str) -> str:
    """ "1 way", "3 ways"."""
    return f"{count} {word}" if count == 1 else f"{count} {word}s"
