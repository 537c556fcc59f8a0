"""The points and tubes of a survey: every end of a tube is a point, and [points] says more of some."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.recipe.blocks import alike
from clampwright.recipe.faults import did_you_mean, listed
from clampwright.recipe.fields import Values
from clampwright.recipe.written import Entry, quoted
from clampwright.structure.survey.model import SurveyPoint, SurveyTube


@dataclass(frozen=True, slots=True)
class Points:
    """The points of a survey. What rests on one that could not be made out is not judged again."""

    by_name: dict[str, SurveyPoint]
    complete: bool
    """Whether every place that names a point of the figure could be read."""
    doubtful: frozenset[str] = frozenset()
    """Points of which it is not known what they lie on."""

    def sure(self, name: str) -> bool:
        """Whether it is known what a point lies on."""
        return self.complete and name not in self.doubtful


def points_of(top: Entry, tubes: dict[str, Values], more: dict[str, Values], datum: Values) -> Points:
    """Every point by its name: those of the tubes, of [points], of the datum; notes what is wrong."""
    ends, marks = _ends(top.inside("tubes"), tubes), datum_points(top.inside("datum"), datum)
    inside = top.inside("points")
    points, doubtful = {}, set()
    for name in dict.fromkeys((*ends, *more, *marks)):
        told = more.get(name)
        line = inside.inside(name).line if told is not None else {**marks, **ends}[name].line
        on = [tube for tube in tubes if name in (tubes[tube].get("from"), tubes[tube].get("to"))]
        if told is None:
            points[name] = SurveyPoint(name, tuple(on), line=line)
        else:
            points[name] = _told(inside.inside(name), name, told, on, tubes, line)
            if not {"on", "skin"} <= told.keys() or not set(told["on"]) <= tubes.keys():
                doubtful.add(name)
    _names_apart({**marks, **ends}, more)
    whole = all({"from", "to"} <= values.keys() for values in tubes.values())
    return Points(points, whole and _fixed(datum, len(marks)), frozenset(doubtful))


def _fixed(datum: Values, marks: int) -> bool:
    """Whether a datum names all of its points."""
    if not {"origin", "along", "level", "plane"} <= datum.keys():
        return False
    return marks == (2 if datum["level"] else 3 if datum["plane"] else 0)


def datum_points(entry: Entry, datum: Values) -> dict[str, Entry]:
    """The points that a datum names, and where."""
    named = {datum["origin"]: entry.inside("origin")} if datum.get("origin") else {}
    for key in ("along", "plane"):
        if datum.get(key):
            named.setdefault(datum[key][1], entry.inside(key).inside(1))
    return named


def tubes_of(top: Entry, tubes: dict[str, Values], points: Points) -> tuple[SurveyTube, ...]:
    """The tubes that could be read whole; notes what is wrong with the others."""
    inside = top.inside("tubes")
    made = []
    for name, values in tubes.items():
        here = inside.inside(name)
        if name in points.by_name:
            hint = "a point has it already; give the tube another"
            here.wrong("a name of its own for each tube", hint, said=quoted(name), at_key=True)
        if not {"from", "to", "od", "mark"} <= values.keys():
            continue
        start, end, mark = values["from"], values["to"], values["mark"]
        if start == end:
            hint = "a tube runs from one point of its axis to another"
            here.inside("to").wrong("another point than it starts at", hint)
        _mark_on(here.inside("mark"), name, mark, points)
        made.append(SurveyTube(name, start, end, values["od"], mark, here.line))
    _ends_apart(inside, made)
    return tuple(made)


def known(entry: Entry, name: str, points: Points) -> bool:
    """Whether a point is known; where it is not, that is noted."""
    if name in points.by_name:
        return True
    if points.complete:
        hint = did_you_mean(name, points.by_name) or f"a tube's end, or a point under [points.{_key(name)}]"
        entry.wrong(f"a point of the survey: {listed(points.by_name)}", hint)
    return False


def tube_known(entry: Entry, name: str, tubes: dict[str, Values]) -> bool:
    """Whether a tube is known; where it is not, that is noted."""
    if name in tubes:
        return True
    entry.wrong(f"a tube of the survey: {listed(tubes)}", did_you_mean(name, tubes))
    return False


def _ends(inside: Entry, tubes: dict[str, Values]) -> dict[str, Entry]:
    """The ends of the tubes, and where each is named first."""
    ends: dict[str, Entry] = {}
    for tube, values in tubes.items():
        for key in ("from", "to"):
            if key in values:
                ends.setdefault(values[key], inside.inside(tube).inside(key))
    return ends


def _told(
    here: Entry, name: str, told: Values, ends: list[str], tubes: dict[str, Values], line: int
) -> SurveyPoint:
    """A point that [points] says more of."""
    on = told.get("on") or ()
    for at, tube in enumerate(on):
        place = here.inside("on")
        tube_known(place.inside(at) if isinstance(place.value, list) else place, tube, tubes)
    skin = told.get("skin")
    if skin is not None and tube_known(here.inside("skin"), skin, tubes) and (on or ends):
        where = f"{name} is an end of {ends[0]}" if ends else "on says that it lies on an axis"
        hint = f"{where}; a mark on the skin is another point, half the outside diameter away"
        here.inside("skin").wrong("a point on an axis or on a skin", hint)
    axis_of = tuple(dict.fromkeys((*ends, *(tube for tube in on if tube in tubes))))
    return SurveyPoint(name, axis_of, skin, told.get("rough"), line)


def _names_apart(named: dict[str, Entry], more: dict[str, Values]) -> None:
    """Note names that a slip would take for one another; those within [points] are noted already."""
    seen = {alike(name): name for name in more}
    for name, entry in named.items():
        alias = seen.setdefault(alike(name), name)
        if alias != name:
            hint = f"it is too like {quoted(alias)}: a slip would take one for the other"
            entry.wrong("names that no one can confuse for each point", hint)


def _mark_on(entry: Entry, tube: str, mark: str | None, points: Points) -> None:
    """Note a mark that is not a point of its tube."""
    if mark is None:
        return
    point = points.by_name.get(mark)
    if point is None and not points.complete:
        return
    if point is None:
        key = _key(mark)
        told = f'[points.{key}] with on = "{tube}" for a ring round it, or skin = "{tube}" for a pen mark'
        entry.wrong("a point of the survey", did_you_mean(mark, points.by_name) or f"write {told}")
    elif points.sure(mark) and tube not in (*point.axis_of, point.skin_of):
        where = listed((*point.axis_of, *(s for s in (point.skin_of,) if s)), "and") or "no tube"
        entry.wrong(f"a point on {tube}", f"{mark} is on {where}")


def _ends_apart(inside: Entry, tubes: list[SurveyTube]) -> None:
    """Note a tube between the same two points as another."""
    seen: dict[frozenset[str], str] = {}
    for tube in tubes:
        first = seen.setdefault(frozenset((tube.start, tube.end)), tube.name)
        if first != tube.name:
            said = f"{tube.start} and {tube.end}, the ends of {first}"
            hint = "each tube once; two tubes side by side have four ends"
            inside.inside(tube.name).wrong("tubes that lie apart", hint, said=said, at_key=True)


def _key(name: str) -> str:
    """A name as the key of a heading."""
    return name if name.replace("-", "").replace("_", "").isalnum() and name.isascii() else f'"{name}"'
