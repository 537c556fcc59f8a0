"""Faults of the clamps that are asked for: tubes that are not there, places and sizes that cannot be."""

from __future__ import annotations

from itertools import combinations

from clampwright.quantities import show_length
from clampwright.recipe.faults import did_you_mean, listed
from clampwright.recipe.fields import Values
from clampwright.recipe.written import Entry, quoted
from clampwright.structure.tubes import Structure, Tube
from clampwright.trade.clamps import dash_for
from clampwright.trade.tables import rule


def clamp_faults(entry: Entry, values: Values, structure: Structure | None) -> None:
    """Note what is wrong with [clamps] on these tubes."""
    if not {"on", "at", "each"} <= values.keys():
        return
    blocks = values["at"]
    if blocks and values["each"] is not None:
        hint = "the [[clamps.at]] blocks are all the clamps there are: delete each"
        entry.inside("each").wrong("no number of clamps beside [[clamps.at]] blocks", hint, at_key=True)
    if structure is None:
        return
    known = _names_known(entry, values, structure)
    if not known:
        return
    if blocks:
        _blocks(entry, values, structure)
    elif values["on"] is None:
        _tubes_can_be_meant(entry.inside("on"), structure)
    _measured(entry, values, structure)


def _names_known(entry: Entry, values: Values, structure: Structure) -> bool:
    on = entry.inside("on")
    named = [(on.inside(i), name) for i, name in enumerate(values["on"] or ())]
    at = entry.inside("at")
    named += [(at.inside(i).inside("tube"), v["tube"]) for i, v in enumerate(values["at"]) if "tube" in v]
    known = [tube_known(where, name, structure) for where, name in named]
    return all(known)


def tube_known(entry: Entry, name: str, structure: Structure, *, at_key: bool = False) -> bool:
    """Whether the structure has this tube; if not, that is noted."""
    if name in structure.names:
        return True
    expected = f"a tube of the structure: {listed(structure.names)}"
    said = quoted(name) if at_key else None
    entry.wrong(expected, did_you_mean(name, structure.names), said=said, at_key=at_key)
    return False


def _tubes_can_be_meant(entry: Entry, structure: Structure) -> None:
    """Without clamps.on every tube is meant: right for two or a few only."""
    count = len(structure.tubes)
    few = int(rule("tubes-alone-most").value)
    if count < rule("recipe-on-least").value:
        hint = "on one tube a plate is free to turn: add a second tube to the structure"
        tubes = Entry(entry.written, ("structure",), entry.value)
        tubes.wrong("two or more tubes to hold the plate", hint, said=f"one, {structure.names[0]}")
    elif count > few:
        hint = f'such as on = ["{structure.names[0]}", "{structure.names[1]}"] under [clamps]'
        entry.wrong(f"which tubes carry the plate, out of {listed(structure.names, 'and')}", hint)


def _blocks(entry: Entry, values: Values, structure: Structure) -> None:
    at, on = entry.inside("at"), values["on"]
    used = dict.fromkeys(v["tube"] for v in values["at"] if "tube" in v)
    if on is None and len(used) == 1:
        hint = "on one tube a plate is free to turn: put a clamp on a second one"
        at.wrong("clamps on two or more tubes", hint, said=f"all on {next(iter(used))}")
    for i, name in enumerate(on or ()):
        if name not in used:
            hint = f"add a [[clamps.at]] block for {name}, or delete it here"
            entry.inside("on").inside(i).wrong("tubes that a [[clamps.at]] block is on", hint)
    for i, block in enumerate(values["at"]):
        _block(at.inside(i), block, on, structure)
    _apart(at, values["at"])


def _block(entry: Entry, block: Values, on: tuple[str, ...] | None, structure: Structure) -> None:
    if "tube" not in block:
        return
    if on is not None and block["tube"] not in on:
        hint = f"add {quoted(block['tube'])} to clamps.on, or delete clamps.on"
        entry.inside("tube").wrong(f"one of the tubes of clamps.on: {listed(on)}", hint)
    tube = structure.tube(block["tube"])
    station = block.get("station")
    if station is not None and station > tube.length_mm:
        expected = f"a station on {tube.name}, which is {show_length(tube.length_mm, entry.units)} long"
        entry.inside("station").wrong(expected, "a station counts from the tube's start along its axis")
    clear_of_tube(entry, block, tube.od_mm)


def _apart(entry: Entry, blocks: tuple[Values, ...]) -> None:
    least = rule("recipe-hole-apart-least").value
    placed = [(i, b) for i, b in enumerate(blocks) if b.get("station") is not None and "tube" in b]
    for (i, one), (j, other) in combinations(placed, 2):
        if one["tube"] == other["tube"] and abs(one["station"] - other["station"]) < least:
            hint = "one place on a tube holds one clamp"
            said = f"clamp {j + 1} in the place of clamp {i + 1}"
            entry.inside(j).inside("station").wrong("a place of its own for each clamp", hint, said=said)
            return


def _measured(entry: Entry, values: Values, structure: Structure) -> None:
    """Sizes measured on one clamp, given for all: they hold only for tubes that take the same clamp."""
    meant = values["on"] or tuple(b["tube"] for b in values["at"] if "tube" in b) or structure.names
    tubes = [structure.tube(name) for name in dict.fromkeys(meant)]
    measured_faults(
        entry, values, tubes, "a [[clamps.at]] block for each clamp; station may be left out there"
    )


def measured_faults(entry: Entry, values: Values, tubes: list[Tube], apart: str) -> None:
    """Note sizes of a clamp that cannot be on these tubes; `apart` says where each clamp has its own."""
    for tube in tubes:
        clear_of_tube(entry, values, tube.od_mm)
    if len({dash_for(tube.od_mm) for tube in tubes}) == 1:
        return
    for key in ("reach", "seat"):
        if values.get(key) is not None:
            hint = f"give {key} in {apart}"
            said = f"one for tubes of {_diameters(tubes, entry.units)}"
            entry.inside(key).wrong(f"a {key} measured on each size of clamp", hint, said=said, at_key=True)


def _diameters(tubes: list[Tube], units: str) -> str:
    sizes = sorted({tube.od_mm for tube in tubes})
    return ", ".join(show_length(size, units) for size in sizes[:4])


def clear_of_tube(entry: Entry, values: Values, od_mm: float, what: str = "tube") -> None:
    """The bolt passes beside the tube, or the line, and not through it."""
    reach = values.get("reach")
    if reach is not None and reach <= od_mm / 2:
        half = show_length(od_mm / 2, entry.units)
        expected = f"a reach larger than half the {what}'s diameter, {half}"
        entry.inside("reach").wrong(
            expected, "measure from the middle of the loop to the middle of the bolt hole"
        )
