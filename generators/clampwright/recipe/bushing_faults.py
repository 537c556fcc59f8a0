"""Faults of a "component bushings" recipe that no key has by itself."""

from __future__ import annotations

from clampwright.quantities import show_length
from clampwright.recipe.bushing_fields import bushing_faults
from clampwright.recipe.clamp_faults import clear_of_tube, measured_faults, tube_known
from clampwright.recipe.direction import off_line_deg
from clampwright.recipe.fastener_faults import holes_apart, nut_fits_bolt
from clampwright.recipe.faults import listed
from clampwright.recipe.fields import Values
from clampwright.recipe.limits import limits
from clampwright.recipe.written import Entry, quoted
from clampwright.structure.tubes import Structure
from clampwright.trade.bolts import bolt
from clampwright.trade.tables import rule


def cross_check(entry: Entry, values: Values, structure: Structure | None) -> None:
    """Note what does not fit together. Values that could not be read are not judged again."""
    zone, fastener = (values.get(key) or {} for key in ("zone", "fastener"))
    nut_fits_bolt(entry.inside("fastener"), fastener, zone)
    bushing_faults(entry.inside("bushings"), values.get("bushings") or {}, fastener)
    _component(entry.inside("component"), values.get("component") or {}, fastener)
    _pose(entry.inside("pose"), values.get("pose") or {})
    if structure is not None:
        _clamps(entry.inside("clamps"), values.get("clamps") or {}, structure)


def _component(entry: Entry, values: Values, fastener: Values) -> None:
    holes = values.get("holes") or ()
    holes_apart(entry.inside("holes"), holes)
    _one_for_each_hole(entry, values, len(holes))
    _bolt_goes_through(entry, values, fastener)
    _cg_within_body(entry, values)


def _one_for_each_hole(entry: Entry, values: Values, holes: int) -> None:
    if values.get("lug") is not None and values.get("lugs") is not None:
        hint = "lug is for all of them, lugs for each: delete one of the two"
        entry.inside("lugs").wrong("lug or lugs", hint, said="both", at_key=True)
    for key in ("lugs", "near_faces"):
        written = values.get(key)
        if written is not None and holes and len(written) != holes:
            entry.inside(key).wrong(f"one for each of the {holes} holes", "in the order of the holes")


def _bolt_goes_through(entry: Entry, values: Values, fastener: Values) -> None:
    hole = values.get("hole")
    if hole is None or "bolt" not in fastener:
        return
    size = bolt(fastener["bolt"])
    if hole < size.shank_max_mm:
        shank = show_length(size.shank_max_mm, entry.units)
        hint = "measure the hole again; it is its diameter, or choose a thinner bolt under [fastener]"
        entry.inside("hole").wrong(f"a hole that {size.name} goes through, at least {shank}", hint)


def _cg_within_body(entry: Entry, values: Values) -> None:
    cg, body, base = (values.get(key) for key in ("cg", "body", "body_base"))
    if cg is None or body is None or base is None:
        return
    length, width, height = body
    spans = ((-length / 2, length / 2), (-width / 2, width / 2), (base, base + height))
    for axis, place, (low, high) in zip(range(3), cg, spans, strict=True):
        if not low <= place <= high:
            span = f"{_shown(low, entry.units)} to {_shown(high, entry.units)}"
            expected = f"a centre of gravity within its body, {'xyz'[axis]} from {span}"
            entry.inside("cg").inside(axis).wrong(expected, "both count from the component's own origin")


def _shown(length: float, units: str) -> str:
    return show_length(length, units) if length else "0"


def _pose(entry: Entry, values: Values) -> None:
    _directions(entry, values)
    if values.get("fixed"):
        _fixed(entry, values)
        return
    for key, needs, why in (
        ("within", "at", "within counts from the place at"),
        ("turn_within", "along", "turn_within counts from the direction along"),
    ):
        if values.get(key) is not None and needs in values and values[needs] is None:
            entry.inside(key).wrong(f"{needs} beside {key}", why, said=f"no {needs}", at_key=True)


def _fixed(entry: Entry, values: Values) -> None:
    """What is fixed has all of its place given, and no room."""
    missing = [key for key in ("at", "up", "along") if key in values and values[key] is None]
    if missing:
        hint = "give them, or delete fixed and let the tool find the place"
        said = f"no {' and no '.join(missing)}"
        entry.inside("fixed").wrong("at, up and along of what is fixed", hint, said=said, at_key=True)
    for key in ("within", "turn_within"):
        if values.get(key) is not None:
            hint = f"what is fixed does not move: delete {key}, or fixed"
            entry.inside(key).wrong(f"no {key} beside fixed = true", hint, at_key=True)


def _directions(entry: Entry, values: Values) -> None:
    up, along = values.get("up"), values.get("along")
    if up is None or along is None:
        return
    if off_line_deg(up, along) < rule("recipe-directions-apart-least").value:
        hint = "up is where its z looks, along where its x points: square to each other"
        entry.inside("along").wrong("a direction across up", hint, said="one along up")


def _clamps(entry: Entry, values: Values, structure: Structure) -> None:
    if not {"on", "tubes"} <= values.keys():
        return
    on, own = values["on"], values["tubes"] or {}
    inside, apart = entry.inside("on"), entry.inside("tubes")
    known = [tube_known(inside.inside(i), name, structure) for i, name in enumerate(on or ())]
    known += [tube_known(apart.inside(name), name, structure, at_key=True) for name in own]
    if not all(known):
        return
    most = int(limits("mount-on").most)
    if on is None and len(structure.tubes) > most:
        hint = f'such as on = ["{structure.names[0]}", "{structure.names[1]}"] under [clamps]'
        expected = f"which tubes may hold it, at most {most} of {listed(structure.names, 'and')}"
        inside.wrong(expected, hint)
    for name in own:
        if on is not None and name not in on:
            hint = f"add {quoted(name)} to clamps.on, or delete this table"
            expected = f"one of the tubes of clamps.on: {listed(on)}"
            apart.inside(name).wrong(expected, hint, said=quoted(name), at_key=True)
    _measured(entry, values, own, structure)


def _measured(entry: Entry, values: Values, own: Values, structure: Structure) -> None:
    tubes = [structure.tube(name) for name in values["on"] or structure.names]
    for name, sizes in own.items():
        clear_of_tube(entry.inside("tubes").inside(name), sizes, structure.tube(name).od_mm)
    for key in ("reach", "seat"):
        shared = [tube for tube in tubes if own.get(tube.name, {}).get(key) is None]
        here = {key: values.get(key)}
        measured_faults(entry, here, shared, "[clamps.tubes.NAME] for each tube")
