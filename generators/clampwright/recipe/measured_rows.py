"""What one row of a file of measurements says: of a hole, a bushing, the thickness or the ±."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from clampwright.recipe.faults import did_you_mean, listed
from clampwright.recipe.measured_cells import Cell
from clampwright.recipe.measured_figures import Reading
from clampwright.recipe.measured_model import (
    Drawn,
    DrawnHole,
    DrawnLength,
    MeasuredHole,
    MeasuredLength,
    MeasuredPart,
)

THICKNESS = "thickness"
PLUS_MINUS = "plus or minus"
_OTHER_WORDS = {"±": PLUS_MINUS, "+/-": PLUS_MINUS, "error": PLUS_MINUS, "plate": THICKNESS}
_BESIDE_THE_EDGE = -1000.0
"""mm: a hole is sought nowhere left of or below that; the checks tell one that is off the plate."""


@dataclass(slots=True)
class Found:
    """What was read so far."""

    holes: dict[str, MeasuredHole] = field(default_factory=dict)
    lengths: list[MeasuredLength] = field(default_factory=list)
    single: dict[str, float] = field(default_factory=dict)
    """Thickness and ±."""

    def part(self) -> MeasuredPart:
        """All of it."""
        thickness, error = self.single.get(THICKNESS), self.single.get(PLUS_MINUS)
        return MeasuredPart(tuple(self.holes.values()), tuple(self.lengths), thickness, error)


def take(
    what: Cell, filled: dict[str, Cell], units: dict[str, str], drawn: Drawn, found: Found, reading: Reading
) -> None:
    """One measurement: of a hole, a bushing, the thickness, or how well all was measured."""
    name = _plain(what.text)
    hole = next((each for each in drawn.holes if _plain(each.label) == name), None)
    piece = next((each for each in drawn.lengths if _plain(each.mark) == name), None)
    single = _OTHER_WORDS.get(name, name)
    if hole is not None and (piece is None or "x" in filled):
        _hole(what, hole, filled, units, found, reading)
    elif piece is not None:
        _length(what, piece, filled, units, found, reading)
    elif single == PLUS_MINUS or (single == THICKNESS and drawn.thickness_mm is not None):
        _single(what, single, filled, units, drawn, found, reading)
    else:
        _unknown(what, drawn, reading)


def _hole(
    what: Cell,
    hole: DrawnHole,
    filled: dict[str, Cell],
    units: dict[str, str],
    found: Found,
    reading: Reading,
) -> None:
    if hole.label in found.holes:
        before = found.holes[hole.label].line
        reading.wrong(what, hole.label, "each hole once", f"it stands in line {before} already")
        return
    if not _only(filled, ("x", "y", "diameter"), hole.label, _no_length(reading), reading):
        return
    if not ("x" in filled and "y" in filled):
        lacks = listed([axis for axis in ("x", "y") if axis not in filled], "and")
        reading.wrong(what, hole.label, f"{lacks} of its centre, too", "from the left and the bottom edge")
        return
    drawn = {"x": hole.at[0], "y": hole.at[1], "diameter": hole.diameter_mm}
    values = {
        key: reading.length(
            filled[key],
            f"{hole.label}.{key}",
            units[key],
            drawn[key],
            0.0 if key == "diameter" else _BESIDE_THE_EDGE,
        )
        for key in ("x", "y", "diameter")
        if key in filled
    }
    x, y = values["x"], values["y"]
    if x is not None and y is not None:
        found.holes[hole.label] = MeasuredHole(hole.label, (x, y), values.get("diameter"), what.line)


def _length(
    what: Cell,
    piece: DrawnLength,
    filled: dict[str, Cell],
    units: dict[str, str],
    found: Found,
    reading: Reading,
) -> None:
    have = sum(one.mark == piece.mark for one in found.lengths)
    if have >= piece.quantity:
        most = "one piece" if piece.quantity == 1 else f"{piece.quantity} pieces"
        reading.wrong(what, piece.mark, f"at most {most} of this mark", "leave one out, or correct the mark")
        return
    if not _only(filled, ("length",), piece.mark, "a bushing has a length alone", reading):
        return
    value = reading.length(filled["length"], piece.mark, units["length"], piece.length_mm, 0.0)
    if value is not None:
        found.lengths.append(MeasuredLength(piece.mark, value, what.line))


def _single(
    what: Cell,
    name: str,
    filled: dict[str, Cell],
    units: dict[str, str],
    drawn: Drawn,
    found: Found,
    reading: Reading,
) -> None:
    if name in found.single:
        reading.wrong(what, name, f"the {name} once", "leave one of them out")
        return
    if not _only(filled, ("length",), name, "it stands in the column length", reading):
        return
    text = filled["length"]
    if name == PLUS_MINUS:
        text = replace(text, text=text.text.removeprefix("±").removeprefix("+/-").strip())
    about = drawn.thickness_mm if name == THICKNESS else None
    value = reading.length(text, name, units["length"], about, 0.0)
    if value is not None:
        found.single[name] = value


def _only(filled: dict[str, Cell], allowed: Sequence[str], key: str, why: str, reading: Reading) -> bool:
    """Whether nothing stands in other columns; a figure in a wrong one is noted."""
    strays = [(name, cell) for name, cell in filled.items() if name not in allowed]
    for name, cell in strays:
        reading.wrong(cell, f"{key}.{name}", f"nothing in the column {name}", why)
    missing = len(allowed) == 1 and allowed[0] not in filled
    if missing and not strays:
        cell = next(iter(filled.values()))
        reading.wrong(cell, key, f"a figure in the column {allowed[0]}", why)
    return not strays and not missing


def _no_length(reading: Reading) -> str:
    return "a hole has no length" + ("" if reading.comma else "; decimals are written with a point")


def _unknown(what: Cell, drawn: Drawn, reading: Reading) -> None:
    names = [*(hole.label for hole in drawn.holes), *(piece.mark for piece in drawn.lengths)]
    hint = did_you_mean(what.text, (*names, PLUS_MINUS, *((THICKNESS,) if drawn.holes else ())))
    if not drawn.holes:
        hint = hint or f"{drawn.name} makes no plate: it has bushings to measure, and no holes"
    reading.wrong(what, "what", choice(drawn), hint)


def choice(drawn: Drawn) -> str:
    """What a row may be of, in words."""
    names = [*(hole.label for hole in drawn.holes), *(piece.mark for piece in drawn.lengths)]
    more = [THICKNESS] if drawn.thickness_mm is not None else []
    return f"what {drawn.name} has: {listed([*names, *more], most=24)}"


def _plain(text: str) -> str:
    return "".join(text.split()).casefold() if len(text) < 6 else " ".join(text.split()).casefold()
