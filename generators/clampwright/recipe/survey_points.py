"""The points and tubes of a survey: every end of a tube is a point, and [points] says more of some."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from clampwright.recipe.blocks import NAME, alike
from clampwright.recipe.faults import listed
from clampwright.recipe.fields import Values
from clampwright.recipe.written import Entry, quoted
from clampwright.structure.survey.model import SurveyPoint, SurveyTube


@dataclass(frozen=True, slots=True)
class Points:
    """The points of a survey. What rests on one that could not be made out is not judged again."""

    by_name: dict[str, SurveyPoint]
    complete: bool
    """Whether every end of a tube could be read."""
    doubtful: frozenset[str] = frozenset()
    """Points of which it is not known what they lie on."""
    ends: frozenset[str] = frozenset()
    """Points that a tube ends at."""
    datum: frozenset[str] = frozenset()
    """Points that the datum names."""
    more: frozenset[str] = frozenset()
    """Points that [points] says more of."""
    used: set[str] = field(default_factory=set)
    """Points that something is measured to, or said of, as far as the survey has been read."""
    strays: dict[str, list[Entry]] = field(default_factory=dict)
    """Names of no point, and where they are used, as far as the survey has been read."""
    stray_tubes: dict[str, list[Entry]] = field(default_factory=dict)
    """Names of no tube, and where they are used, as far as the survey has been read."""

    def sure(self, name: str) -> bool:
        """Whether it is known what a point lies on."""
        return self.complete and name not in self.doubtful

    def told_otherwise(self, name: str, place: str) -> bool:
        """Whether a point that stands in a `place`, "end" or "datum", is told of or used elsewhere too."""
        elsewhere = self.datum if place == "end" else self.ends
        return name in self.used or name in self.more or name in elsewhere


def points_of(top: Entry, tubes: dict[str, Values], more: dict[str, Values], datum: Values) -> Points:
    """Every point by its name: those of the tubes, of [points], of the datum; notes what is wrong."""
    ends, marks = _ends(top.inside("tubes"), tubes), datum_points(top.inside("datum"), datum)
    inside = top.inside("points")
    made = Points(
        {},
        all({"from", "to"} <= values.keys() for values in tubes.values()),
        ends=frozenset(ends),
        datum=frozenset(marks),
        more=frozenset(more),
    )
    points, doubtful = made.by_name, set()
    for name in dict.fromkeys((*ends, *more, *marks)):
        told = more.get(name)
        line = inside.inside(name).line if told is not None else {**marks, **ends}[name].line
        on = [tube for tube in tubes if name in (tubes[tube].get("from"), tubes[tube].get("to"))]
        if told is None:
            points[name] = SurveyPoint(name, tuple(on), line=line)
        else:
            points[name] = _told(inside.inside(name), name, told, on, tubes, made, line)
            if not {"on", "skin"} <= told.keys() or not set(told["on"]) <= tubes.keys():
                doubtful.add(name)
    _names_apart({**marks, **ends}, more)
    return replace(made, doubtful=frozenset(doubtful))


def datum_points(entry: Entry, datum: Values) -> dict[str, Entry]:
    """The points that a datum names, and where."""
    named = {datum["origin"]: entry.inside("origin")} if datum.get("origin") else {}
    for key in ("along", "plane"):
        pair = entry.inside(key)
        if isinstance(pair.value, list) and len(pair.value) == 2 and _is_name(pair.value[1]):
            named.setdefault(pair.value[1].strip(), pair.inside(1))
    return named


def _is_name(value: object) -> bool:
    return isinstance(value, str) and NAME.fullmatch(value.strip()) is not None


def tubes_of(top: Entry, tubes: dict[str, Values], points: Points) -> tuple[SurveyTube, ...]:
    """The tubes that could be read whole; notes what is wrong with the others."""
    inside = top.inside("tubes")
    made = []
    for name, values in tubes.items():
        here = inside.inside(name)
        if name in points.by_name:
            hint = "a point has it already; give the tube another"
            here.wrong("a name of its own for each tube", hint, said=quoted(name), at_key=True)
        if not {"from", "to", "od", "mark", "beyond"} <= values.keys():
            continue
        start, end, mark = values["from"], values["to"], values["mark"]
        if start == end:
            hint = "a tube runs from one point of its axis to another"
            here.inside("to").wrong("another point than it starts at", hint)
        _mark_on(here.inside("mark"), name, mark, points)
        made.append(SurveyTube(name, start, end, values["od"], mark, here.line, values["beyond"]))
    _ends_apart(inside, made)
    return tuple(made)


def known(entry: Entry, name: str, points: Points) -> bool:
    """Whether a point is known; where it is used is kept."""
    points.used.add(name)
    if name in points.by_name:
        return True
    points.strays.setdefault(name, []).append(entry)
    return False


def tube_known(entry: Entry, name: str, tubes: dict[str, Values], points: Points) -> bool:
    """Whether a tube is known; where it is not, its place is kept."""
    if name in tubes:
        return True
    points.stray_tubes.setdefault(name, []).append(entry)
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
    here: Entry,
    name: str,
    told: Values,
    ends: list[str],
    tubes: dict[str, Values],
    points: Points,
    line: int,
) -> SurveyPoint:
    """A point that [points] says more of."""
    on = told.get("on") or ()
    for at, tube in enumerate(on):
        place = here.inside("on")
        tube_known(place.inside(at) if isinstance(place.value, list) else place, tube, tubes, points)
    skin = told.get("skin")
    if skin is not None and tube_known(here.inside("skin"), skin, tubes, points) and (on or ends):
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
    if mark is None or not known(entry, mark, points):
        return
    point = points.by_name[mark]
    if points.sure(mark) and tube not in (*point.axis_of, point.skin_of):
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


def name_as_key(name: str) -> str:
    """A name as the key of a heading."""
    return name if name.replace("-", "").replace("_", "").isalnum() and name.isascii() else f'"{name}"'
