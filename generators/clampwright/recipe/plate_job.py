"""What was read from an accessory plate's recipe, as the typed job."""

from __future__ import annotations

from clampwright.quantities import Vec2
from clampwright.recipe.fields import Values
from clampwright.recipe.model import (
    ClampAt,
    Clamps,
    Component,
    Fastener,
    Lightening,
    Measured,
    Plate,
    PlateJob,
)
from clampwright.recipe.polygon import signed_area_mm2
from clampwright.recipe.written import Entry
from clampwright.structure.tubes import Structure
from clampwright.trade.sources import source
from clampwright.trade.tables import rule


def job(entry: Entry, values: Values, structure: Structure) -> PlateJob:
    """The typed job of a recipe without faults."""
    fastener = values["fastener"]
    return PlateJob(
        Fastener(fastener["bolt"], fastener["nut"], fastener["nut_height"], fastener["hole"]),
        _clamps(entry.inside("clamps"), values["clamps"], structure),
        _plate(values["plate"]),
        tuple(_component(entry.inside("carries").inside(i), v) for i, v in enumerate(values["carries"])),
    )


def _clamps(entry: Entry, values: Values, structure: Structure) -> Clamps:
    blocks = tuple(_clamp_at(entry.inside("at").inside(i), v, values) for i, v in enumerate(values["at"]))
    measured = Measured(values["reach"], values["seat"], values["feet"])
    on = values["on"] or _tubes_in_use(entry.inside("on"), blocks, structure)
    each = values["each"] or _usual_each(entry.inside("each"), blocks)
    return Clamps(values["code"], on, each, values["side"], measured, values["dash"], blocks)


def _tubes_in_use(entry: Entry, blocks: tuple[ClampAt, ...], structure: Structure) -> tuple[str, ...]:
    if blocks:
        return tuple(dict.fromkeys(block.tube for block in blocks))
    entry.assume(f"{', '.join(structure.names)} (every tube of the structure; assumed)")
    return structure.names


def _usual_each(entry: Entry, blocks: tuple[ClampAt, ...]) -> int:
    usual = rule("clamps-each-default")
    if not blocks:
        entry.assume(f"{usual.value:g} (two keep a part from turning; {source(usual.source).status})")
    return int(usual.value)


def _clamp_at(entry: Entry, values: Values, shared: Values) -> ClampAt:
    """One clamp; what its block leaves out is as for all clamps."""
    reach, seat, feet, dash, side = (
        shared[key] if values[key] is None else values[key]
        for key in ("reach", "seat", "feet", "dash", "side")
    )
    return ClampAt(values["tube"], values["station"], side, Measured(reach, seat, feet), dash, entry.line)


def _plate(values: Values) -> Plate:
    return Plate(
        material=values["material"],
        thickness_mm=values["thickness"],
        outline=values["outline"],
        points=_counter_clockwise(values["points"]),
        margin_mm=values["margin"],
        corner_radius_mm=values["corner_radius"],
        toward=values["toward"],
        stand_off_mm=values["stand_off"],
        round_to_mm=values["round_to"],
        lightening=tuple(Lightening(v["at"], v["diameter"]) for v in values["lightening"]),
        sheet_mm=values["sheet"],
    )


def _counter_clockwise(points: tuple[Vec2, ...]) -> tuple[Vec2, ...]:
    """The corners the other way round, from the same first one, where they run clockwise."""
    return points if signed_area_mm2(points) >= 0 else (points[0], *points[:0:-1])


def _component(entry: Entry, values: Values) -> Component:
    return Component(
        name=values["name"],
        mass_kg=values["mass"],
        at=values["at"],
        turn_rad=values["turn"],
        holes=values["holes"],
        fastener=values["bolt"],
        hole_mm=values["hole"],
        lug_mm=values["lug"],
        body=values["body"],
        cg_height_mm=values["cg_height"],
        line=entry.line,
    )
