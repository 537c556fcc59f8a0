"""The frame of a survey, and what its builder sees on which side of what."""

from __future__ import annotations

from clampwright.recipe.fields import Values
from clampwright.recipe.positions import KeyPath
from clampwright.recipe.survey_points import Points, known
from clampwright.recipe.survey_rows import Row
from clampwright.recipe.survey_sides import FROM_THE_SEAT, LOOKING_AFT, SIDES, in_one_line, toward, y_points
from clampwright.recipe.written import Entry
from clampwright.structure.survey.model import Datum, Side


def datum_of(entry: Entry, values: Values) -> Datum | None:
    """The frame; None where it is not fixed, which is noted."""
    _level_or_plane(entry, values)
    origin, through, plane = values.get("origin"), values.get("along"), values.get("plane")
    named: list[tuple[KeyPath, str]] = [(("origin",), origin)] if origin is not None else []
    named += [((key, 1), pair[1]) for key, pair in (("along", through), ("plane", plane)) if pair]
    _three_points(entry, named)
    if origin is None or through is None or "level" not in values or "plane" not in values:
        return None
    axis, point = through
    _axes(entry, axis, values["level"], plane)
    turn, in_plane = plane or (None, None)
    return Datum(origin, axis, point, values["level"], turn, in_plane)


def sides_of(entry: Entry, values: Values, points: Points, datum: Datum | None) -> tuple[Side, ...]:
    """What lies on which side of what, as directions of the frame; notes what cannot be."""
    rows = [row for row in values.get("sides") or () if _two_points(row, points)]
    if not {"x", "z", "left_right"} <= values.keys():
        return ()
    x, z = values["x"] or "forward", values["z"] or "up"
    if in_one_line(x, z):
        hint = "they are square to each other"
        entry.inside("x" if values["x"] else "z").wrong("x and z in unlike directions", hint)
        return ()
    if z != "up" and values.get("level"):
        entry.inside("z").wrong('"up"', "with level = true z is plumb")
        return ()
    if values["left_right"] is None and _says_left(rows, x, z):
        hint = (
            f'"{FROM_THE_SEAT}", or "{LOOKING_AFT}" as one stands before the nose: the two are mirror images'
        )
        entry.inside("left_right").wrong("from where left and right are meant", hint)
        return ()
    left_right = values["left_right"] or FROM_THE_SEAT
    _assumed(entry, values, rows, x, z, left_right)
    sides = tuple(_side(row, x, z, left_right) for row in rows)
    _no_two_against(rows, sides, datum)
    return sides


def _level_or_plane(entry: Entry, values: Values) -> None:
    if not {"level", "plane"} <= values.keys():
        return
    level, plane = values["level"], values["plane"]
    if level and plane is not None:
        hint = "level fixes the turn about the first axis already: delete plane, or level"
        entry.inside("plane").wrong("level or plane", hint, said="both", at_key=True)
    if not level and plane is None:
        hint = 'write level = true where z is plumb, or such as plane = ["z", "F3"]'
        entry.wrong("level or plane, for the turn about the first axis", hint, said="neither", at_key=True)


def _three_points(entry: Entry, named: list[tuple[KeyPath, str]]) -> None:
    """Note points of the datum that coincide."""
    seen: dict[str, str] = {}
    for path, name in named:
        here = entry
        for part in path:
            here = here.inside(part)
        first = seen.setdefault(name, str(path[0]))
        if first != path[0]:
            here.wrong("another point for each of origin, along and plane", f"{name} is that of {first}")


def _axes(entry: Entry, axis: str, level: bool, plane: tuple[str, str] | None) -> None:
    if level and axis == "z":
        entry.inside("along").inside(0).wrong('"x" or "y"', "with level = true z is plumb already")
    elif plane is not None and plane[0] == axis:
        entry.inside("plane").inside(0).wrong(f"another axis than {axis}", "along has that one already")


def _two_points(row: Row, points: Points) -> bool:
    one, _, other = row.cells
    named = [(at, name) for at, name in ((0, one), (2, other)) if name is not None]
    both = [known(row.entry.inside(at), name, points) for at, name in named]
    if one == other is not None:
        row.entry.inside(2).wrong("another point", "nothing lies beside itself")
    return row.whole and all(both) and one != other


def _side(row: Row, x: str, z: str, left_right: str) -> Side:
    point, word, than = row.cells
    return Side(point, toward(word, x, z, left_right), than, row.line)


def _assumed(entry: Entry, values: Values, rows: list[Row], x: str, z: str, left_right: str) -> None:
    """Say what the words were taken to mean, where words are used."""
    if not any(row.cells[1] in SIDES for row in rows):
        return
    y = f"y {y_points(x, z, left_right)}, " if values["left_right"] else ""
    for key, value in (("x", x), ("z", z)):
        if values[key] is None:
            entry.inside(key).assume(f"{value} ({y}for what sides says; assumed)")


def _says_left(rows: list[Row], x: str, z: str) -> bool:
    """Whether anything rests on what left and right mean."""
    return bool({"left", "right"} & {x, z, *(SIDES.get(row.cells[1], "") for row in rows)})


def _no_two_against(rows: list[Row], sides: tuple[Side, ...], datum: Datum | None) -> None:
    """Note a side that another one, or the datum, says the opposite of."""
    seen: dict[tuple[str, str, tuple[float, ...]], str] = {}
    if datum is not None:
        axis = tuple(1.0 if each == datum.axis else 0.0 for each in "xyz")
        seen[datum.through, datum.origin, axis] = f'along = ["{datum.axis}", "{datum.through}"]'
    for row, side in zip(rows, sides, strict=True):
        ahead = tuple(side.toward)
        back = tuple(-part + 0.0 for part in ahead)
        against = seen.get((side.point, side.than, back)) or seen.get((side.than, side.point, ahead))
        if against:
            hint = "the frame is right-handed: with x forward and z up, y is left as one sits in the aircraft"
            row.entry.inside(1).wrong(f"the side that {against} says", hint)
        seen[side.point, side.than, ahead] = f"line {row.line}"
