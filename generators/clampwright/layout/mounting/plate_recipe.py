"""The recipe of an accessory plate that carries the component where it cannot be bolted to the clamps."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Sequence
from itertools import combinations

from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.mounting.ways import Way
from clampwright.quantities import Vec3, show_length
from clampwright.quantities.kinds import INCH, POUND
from clampwright.recipe.bushing_model import BushingJob, MountedComponent
from clampwright.recipe.faults import RecipeFaults
from clampwright.recipe.model import Measured, Recipe
from clampwright.trade.tables import rule

_EACH = 2


def plate_recipe(recipe: Recipe, way: Way) -> str:
    """A whole recipe that reads and lays out, on the tubes of the best answer or else on two of those named;
    "" where no plate lies on any of them."""
    used = tuple(holder.tube.name for holder in way.held)
    named = recipe.asked(BushingJob).clamps.on
    for tubes in (used, *combinations(named, 2)):
        if len(tubes) < rule("recipe-on-least").value:
            continue
        for toward in (way.frame.n, recipe.asked(BushingJob).pose.up, None):
            text = plate_text(recipe, tubes, toward)
            if _lays_out(text):
                return text
    return ""


def plate_text(recipe: Recipe, on: Sequence[str], toward: Vec3 | None) -> str:
    """The recipe as TOML, with the tubes written out in it; its far face looks along `toward`."""
    return "\n".join((*_head(recipe), *_clamps(recipe, on), *_plate(recipe, toward), *_carries(recipe), ""))


def _lays_out(text: str) -> bool:
    from clampwright.layout.lay_out import lay_out
    from clampwright.recipe.read import read_text

    try:
        lay_out(read_text(text))
    except (CannotLayOut, RecipeFaults):
        return False
    return True


def _head(recipe: Recipe) -> Iterator[str]:
    job = recipe.asked(BushingJob)
    most = 60 - len("-plate")
    yield f"# A plate for {_plain(job.component.name)}, whose holes do not come to the clamps by themselves."
    yield 'kind = "accessory plate"'
    yield f"name = {_text(recipe.name[:most] + '-plate')}"
    yield f"units = {_text(recipe.units)}"
    yield ""
    for tube in recipe.structure.tubes:
        yield f"[structure.tubes.{_key(tube.name)}]"
        yield f"start = {_lengths(tube.start, recipe.units)}"
        yield f"end = {_lengths(tube.end, recipe.units)}"
        yield f"od = {_length(tube.od_mm, recipe.units)}"
        yield ""
    yield from _keep_outs(recipe)
    yield from _zone(recipe)
    if recipe.measuring.given:
        yield from ("[measuring]", f"error = {_length(recipe.measuring.error_mm, recipe.units)}", "")
    fastener = job.fastener
    yield "[fastener]"
    yield f"bolt = {_text(fastener.bolt)}"
    if fastener.nut is not None:
        yield f"nut = {_text(fastener.nut)}"
    if fastener.nut_height_mm is not None:
        yield f"nut_height = {_length(fastener.nut_height_mm, recipe.units)}"
    yield ""


def _keep_outs(recipe: Recipe) -> Iterator[str]:
    """What the plate has to keep away from too."""
    structure, units = recipe.structure, recipe.units
    if structure.engine_moves_mm is not None:
        yield from ("[structure]", f"engine_moves = {_length(structure.engine_moves_mm, units)}", "")
    for kept in structure.keep_outs:
        yield f"[structure.keep_outs.{_key(kept.name)}]"
        yield f"from = {_lengths(kept.start, units)}"
        yield f"to = {_lengths(kept.end, units)}"
        if kept.od_mm is not None:
            yield f"od = {_length(kept.od_mm, units)}"
        yield f"distance = {_length(kept.distance_mm, units)}"
        yield f"rides_on = {_text(kept.rides_on)}"
        yield f"kind = {_text(kept.kind)}"
        yield ""


def _zone(recipe: Recipe) -> Iterator[str]:
    """What the recipe itself says of the zone: what it left out stays left out, and unknown."""
    zone, left_out = recipe.zone, {key for key, _ in recipe.assumed}
    said = {
        "zone.temperature": f"temperature = {_text(_temperature(zone.temperature_c, recipe.units))}",
        "zone.ahead_of_firewall": f"ahead_of_firewall = {'true' if zone.ahead_of_firewall else 'false'}",
        "zone.fluids": f"fluids = {json.dumps(list(zone.fluids))}",
    }
    yield from ("[zone]", *(line for key, line in said.items() if key not in left_out), "")


def _clamps(recipe: Recipe, on: Sequence[str]) -> Iterator[str]:
    clamps = recipe.asked(BushingJob).clamps
    yield "[clamps]"
    yield f"on = {json.dumps(list(on), ensure_ascii=False)}"
    if clamps.code is not None:
        yield f"code = {_text(clamps.code)}"
    yield from _sizes(clamps.measured, clamps.dash, recipe.units)
    yield ""
    own = {name: (measured, dash) for name, measured, dash in clamps.own if name in on}
    if own:
        for name in on:
            for _ in range(_EACH):
                yield from ("[[clamps.at]]", f"tube = {_text(name)}")
                yield from _sizes(*own.get(name, (Measured(), None)), recipe.units)
                yield ""


def _sizes(measured: Measured, dash: int | None, units: str) -> Iterator[str]:
    for key, size in (
        ("reach", measured.reach_mm),
        ("seat", measured.seat_mm),
        ("feet", measured.feet_mm),
    ):
        if size is not None:
            yield f"{key} = {_length(size, units)}"
    if dash is not None:
        yield f"dash = {dash}"


def _plate(recipe: Recipe, toward: Vec3 | None) -> Iterator[str]:
    yield "[plate]"
    if toward is not None:
        yield f"toward = [{', '.join(f'{c + 0.0:.6g}' for c in toward)}]"
    off = recipe.asked(BushingJob).pose.stand_off_mm
    if off:
        yield f"stand_off = {_length(off, recipe.units)}"
    yield ""


def _carries(recipe: Recipe) -> Iterator[str]:
    job, units = recipe.asked(BushingJob), recipe.units
    component = job.component
    yield "[[carries]]"
    yield f"name = {_text(component.name)}"
    yield f"mass = {_text(_mass(component.mass_kg, units))}"
    yield f"holes = [{', '.join(_lengths(lug.at, units) for lug in component.lugs)}]"
    yield f"bolt = {_text(job.fastener.bolt)}"
    known = [lug.thickness_mm for lug in component.lugs if lug.thickness_mm is not None]
    if len(known) == len(component.lugs):
        differ = max(known) - min(known) > rule("gap-nothing").value
        note = "  # the thickest; they differ" if differ else ""
        yield f"lug = {_length(max(known), units)}{note}"
    yield from _body(component, units)


def _body(component: MountedComponent, units: str) -> Iterator[str]:
    faces = [lug.near_face_mm for lug in component.lugs]
    if max(faces) - min(faces) > rule("gap-nothing").value:
        yield f"# its lugs do not lie in one plane: pack up to {show_length(max(faces) - min(faces), units)}"
    below = min(faces) - component.body_base_mm
    if component.body is not None:
        yield f"body = {_lengths(component.body, units)}"
        if below > rule("gap-nothing").value:
            yield f"# its body hangs {show_length(below, units)} below its lugs: the plate needs a cut-out"
    if component.cg is not None and component.cg[2] > min(faces):
        yield f"cg_height = {_length(component.cg[2] - min(faces), units)}"


def _temperature(c: float, units: str) -> str:
    return f"{c:.8g} degC" if units == "mm" else f"{c * 9 / 5 + 32:.8g} degF"


def _mass(kg: float, units: str) -> str:
    return f"{kg:.8g} kg" if units == "mm" else f"{kg / float(POUND):.8g} lb"


def _length(mm: float, units: str) -> str:
    value = mm if units == "mm" else mm / float(INCH)
    return f"{round(value, 6) + 0.0:.10g}"


def _lengths(place: Sequence[float], units: str) -> str:
    return f"[{', '.join(_length(c, units) for c in place)}]"


def _text(text: str) -> str:
    return json.dumps(text, ensure_ascii=False)


def _key(name: str) -> str:
    return name if re.fullmatch(r"[A-Za-z0-9_-]+", name) else _text(name)


def _plain(text: str) -> str:
    return "".join(c if c.isprintable() else " " for c in text)
