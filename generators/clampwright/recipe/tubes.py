"""The tubes: inline in a recipe, or in a file that many recipes share."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from itertools import combinations
from pathlib import Path

from clampwright.recipe.blocks import Named
from clampwright.recipe.faults import listed
from clampwright.recipe.fields import LEFT_OUT, Assumed, Field, LeftOut, Table, Values
from clampwright.recipe.load import NotRead, load
from clampwright.recipe.measures import Length, bare_numbers
from clampwright.recipe.readers import Text, one_of, point
from clampwright.recipe.surroundings import SURROUNDINGS, keep_outs_of, panels_of
from clampwright.recipe.tubes_known import MEASURED_FIELD, uncertainty_of
from clampwright.recipe.two_tubes import TWO_TUBES_FIELD, two_tubes_of
from clampwright.recipe.written import Entry, Written, printable, quoted
from clampwright.structure.doubtful import same_place
from clampwright.structure.surroundings import KeepOut, Panel
from clampwright.structure.tubes import Structure, Tube
from clampwright.trade.tables import rule

SURVEY_KIND = "tape survey"
"""What a file says that holds a survey, and no tubes yet."""

UNITS = Field(
    "units",
    one_of("mm", "in"),
    "Unit of bare numbers, and of what you are shown.",
    Assumed("mm", "bare numbers are millimetres"),
    '"mm" | "in"',
)
_TUBE = Table(
    (
        Field(
            "start",
            point("coordinate", 3, "xyz"),
            "One end of the tube's axis, in your own frame.",
            example="[0, 0, 0]",
        ),
        Field("end", point("coordinate", 3, "xyz"), "The other end.", example="[500, 0, 0] | [20, 0, 0]"),
        Field(
            "od",
            Length("tube-od", "the outside diameter, not the wall or the radius"),
            "Outside diameter, over paint or sleeve.",
            example='"19.05 mm" | "3/4 in"',
        ),
        Field(
            "mark",
            Length("coordinate"),
            "Station of a mark on it: sheets tell stations from there, recipes still count from its start.",
            LeftOut(None, "from its start"),
            '"120 mm" | "4-3/4 in"',
        ),
    )
)
_TUBES = Named(_TUBE, "tubes", "tube")
STRUCTURE = Table(
    (
        Field(
            "file",
            Text("the name of a structure file"),
            "A file of tubes shared by many recipes, found from the recipe's folder; or give tubes here.",
            LEFT_OUT,
            '"engine-mount.toml"',
        ),
        Field("tubes", _TUBES, "The tubes, each under its name, where there is no file.", LEFT_OUT),
        TWO_TUBES_FIELD,
        *SURROUNDINGS,
    ),
    "The tubes that things are held on: a shared file, the tubes themselves, or two by their spacing.",
)
STRUCTURE_FILE = Table(
    (
        Field(
            "about",
            Text("a remark", may_be_empty=True),
            "What these tubes are.",
            LeftOut(""),
            '"Engine mount"',
        ),
        UNITS,
        Field("tubes", _TUBES, "The tubes, each under its name.", LEFT_OUT),
        TWO_TUBES_FIELD,
        *SURROUNDINGS,
        MEASURED_FIELD,
    ),
    "A file of tubes shared by many recipes.",
)


def read_structure(entry: Entry, values: Values, folder: Path) -> tuple[Structure | None, Written | None]:
    """The tubes that a [structure] names, and the shared file that they stand in.

    None for the structure where there are faults, which stand in the file that they were found in.

    Raises
    ------
    RecipeFaults
        The shared file is not TOML.
    """
    if not _one_way(entry, values):
        return None, None
    if values["file"] is None:
        return _structure(entry, values), None
    own = _surroundings(entry, values)
    shared, written = _from_file(entry.inside("file"), values["file"], folder)
    if shared is None or own is None:
        return None, written
    return _added(entry, shared, own, values["file"]), written


def _one_way(entry: Entry, values: Values) -> bool:
    """Whether a [structure] gives its tubes in exactly one way; what is wrong is noted."""
    if not {"file", "tubes", "two_tubes"} <= values.keys():
        return False
    ways = [way for way in ("file", "tubes", "two_tubes") if values[way] is not None]
    if len(ways) == 1:
        return True
    hint = "delete one of the two" if ways else 'write file = "engine-mount.toml", or a table for each tube'
    expected = "either a structure file or tubes"
    if "two_tubes" in ways:
        expected, hint = "either a structure file, tubes or two_tubes", f"keep one of {listed(ways, 'and')}"
    entry.wrong(expected, hint, said="both" if len(ways) == 2 else "all three" if ways else "neither")
    return False


def _any_way(entry: Entry, values: Values) -> bool:
    """Whether a structure file has tubes, in one way; what is wrong is noted."""
    if not {"tubes", "two_tubes"} <= values.keys():
        return False
    if values["tubes"] is None and values["two_tubes"] is None:
        entry.inside("tubes").wrong(_TUBES.expected(entry.units))
        return False
    if values["tubes"] is not None and values["two_tubes"] is not None:
        hint = "delete one of the two"
        entry.inside("two_tubes").wrong("either tubes or two_tubes", hint, said="both", at_key=True)
        return False
    return True


def _from_file(entry: Entry, name: str, folder: Path) -> tuple[Structure | None, Written | None]:
    path = folder / name
    try:
        shared = load(path, printable(path))
    except NotRead as not_read:
        entry.wrong(
            f"{not_read.expected} of tubes", not_read.hint, said=f"{not_read.found} at {printable(path)}"
        )
        return None, None
    shared.units = units_of(shared.data)
    if "kind" in shared.data:
        entry.wrong("a file of tubes", _no_tubes(name, shared.data["kind"]))
        return None, shared
    values = STRUCTURE_FILE.read(shared.top())
    if not _any_way(shared.top(), values):
        return None, shared
    return _structure(shared.top(), values), shared


def _no_tubes(name: str, kind: object) -> str:
    """A hint for a file that says its kind, which no file of tubes does."""
    if kind == SURVEY_KIND:
        return "a tape survey: clampwright survey solve makes a file of tubes of it, with --to"
    return f"{name} is a recipe; name the file that holds its tubes"


def _added(entry: Entry, shared: Structure, own: Structure, file: str) -> Structure:
    """The tubes of the shared file, in its surroundings and the recipe's own."""
    _not_again(entry.inside("panels"), own.panels, shared.panels, "panel", file)
    _not_again(entry.inside("keep_outs"), own.keep_outs, shared.keep_outs, "keep-out", file)
    moves = shared.engine_moves_mm if own.engine_moves_mm is None else own.engine_moves_mm
    return replace(
        shared,
        panels=shared.panels + own.panels,
        keep_outs=shared.keep_outs + own.keep_outs,
        engine_moves_mm=moves,
    )


def _not_again(
    entry: Entry,
    own: Iterable[Panel | KeepOut],
    shared: Iterable[Panel | KeepOut],
    what: str,
    file: str,
) -> None:
    taken = {thing.name for thing in shared}
    for name in (thing.name for thing in own if thing.name in taken):
        hint = f"{file} has one of this name already: give this one another, or delete it"
        entry.inside(name).wrong(f"a name of its own for each {what}", hint, said=quoted(name), at_key=True)


def units_of(data: dict[str, object]) -> str:
    """Units of a file as far as they can be made out; a wrong word is a fault of its own."""
    units = data.get("units", "mm")
    if not isinstance(units, str):
        return "mm"
    return "in" if units.strip().casefold().startswith(("in", '"', "imperial")) else "mm"


def _structure(entry: Entry, values: Values) -> Structure | None:
    """Tubes and surroundings of a [structure] or a shared file; None where tubes or panels have faults."""
    around = _surroundings(entry, values)
    if values["two_tubes"] is not None:
        two = two_tubes_of(entry.inside("two_tubes"), values["two_tubes"])
        if values.get("measured") is not None:
            hint = "two tubes in a plane are known by their spacings: delete it"
            entry.inside("measured").wrong("no [measured]", hint, at_key=True)
        if around is None or two is None:
            return None
        return replace(around, tubes=two.tubes, uncertainty=two.uncertainty)
    tubes = _tubes(entry.inside("tubes"), values["tubes"])
    known = values.get("measured")
    sure = None if known is None else uncertainty_of(entry.inside("measured"), known, tuple(values["tubes"]))
    if around is None or tubes is None:
        return None
    return replace(around, tubes=tubes, uncertainty=sure)


def _surroundings(entry: Entry, values: Values) -> Structure | None:
    """What stands round tubes that are still to come; None where panels have faults."""
    keep_outs, panels = keep_outs_of(entry, values), panels_of(values)
    return None if panels is None else Structure((), panels, keep_outs, values.get("engine_moves"))


def _tubes(entry: Entry, named: dict[str, Values]) -> tuple[Tube, ...] | None:
    tubes = []
    for name, values in named.items():
        if len(values) == len(_TUBE.fields):
            tube = Tube(name, values["start"], values["end"], values["od"], values["mark"])
            if _has_length(entry.inside(name), tube) and _marked_on_it(entry.inside(name), tube):
                tubes.append(tube)
    for one, two in combinations(tubes, 2):
        if same_place(one, two):
            entry.inside(two.name).wrong(
                "tubes that lie apart",
                "each tube once; a sleeved tube is one tube with the outer diameter",
                said=f"{two.name} in the same place as {one.name}",
                at_key=True,
            )
    return tuple(tubes) if len(tubes) == len(named) else None


def _has_length(entry: Entry, tube: Tube) -> bool:
    least = max(rule("tube-length-least").value, tube.od_mm)
    if tube.length_mm >= least:
        return True
    show = Length("coordinate").show
    entry.inside("end").wrong(
        f"a tube at least {show(least, entry.units)} long",
        _why_short(entry, tube, least),
        said=f"start and end {show(tube.length_mm, entry.units)} apart",
    )
    return False


def _marked_on_it(entry: Entry, tube: Tube) -> bool:
    if tube.mark_mm is None or -tube.length_mm <= tube.mark_mm <= 2 * tube.length_mm:
        return True
    expected = (
        f"a station on the tube, which is {Length('coordinate').show(tube.length_mm, entry.units)} long"
    )
    entry.inside("mark").wrong(expected, "a station counts from the tube's start along its axis")
    return False


def _why_short(entry: Entry, tube: Tube, least: float) -> str:
    if "units" not in entry.written.data and tube.length_mm * 25.4 >= least:
        return bare_numbers(entry)
    return "measure both ends again; start and end are the two ends of its axis"
