"""What was read from a "stand-off" recipe, as the typed job."""

from __future__ import annotations

from clampwright.quantities import Vec3
from clampwright.quantities.directions import unit
from clampwright.recipe.bushing_fields import stock
from clampwright.recipe.fields import Values
from clampwright.recipe.model import Fastener, Measured
from clampwright.recipe.stand_off_model import CarriedLine, PairClamp, StandOffJob
from clampwright.recipe.written import Entry
from clampwright.structure.tubes import Structure


def job(entry: Entry, values: Values, structure: Structure) -> StandOffJob:
    """The typed job of a recipe without faults."""
    fastener, support = values["fastener"], values["support"]
    return StandOffJob(
        fastener=Fastener(fastener["bolt"], fastener["nut"], fastener["nut_height"], fastener["hole"]),
        tube=_tube(entry.inside("support").inside("tube"), support, structure),
        panel=support["panel"],
        station_mm=support["station"],
        carried=_line(entry.inside("line"), values["line"]),
        on_tube=_clamp(values["clamps"]["tube"]),
        on_line=_clamp(values["clamps"]["line"]),
        spacer_mm=values["spacer"]["length"],
        place=values["spacer"]["place"],
        bushings=stock(values["bushings"]),
    )


def _tube(entry: Entry, support: Values, structure: Structure) -> str | None:
    """The tube named, or the only one there is."""
    tube: str | None = support["tube"]
    if tube is None and support["panel"] is None:
        tube = structure.names[0]
        entry.assume(f"{tube} (the only tube of the structure; assumed)")
    return tube


def _line(entry: Entry, values: Values) -> CarriedLine:
    return CarriedLine(
        name=values["name"],
        what=values["what"] or _sort(entry.inside("what"), values),
        od_mm=values["od"],
        hose_dash=values["hose"],
        wires=values["wires"] or (),
        sleeve_mm=values["sleeve"],
        point=values["point"],
        to=values["to"],
        direction=_unit(values["direction"]),
        beside_mm=values["beside"],
        toward=_unit(values["toward"]),
        next_supports_mm=values["next_supports"],
        rides_on=values["rides_on"],
        line=entry.line,
    )


def _sort(entry: Entry, values: Values) -> str:
    """Which sort of line it is by how its thickness is said."""
    if values["hose"] is not None:
        return "hose"
    if values["wires"]:
        return "bundle"
    entry.assume("tube (only its diameter is given; assumed)")
    return "tube"


def _unit(direction: Vec3 | None) -> Vec3 | None:
    return None if direction is None else unit(direction)


def _clamp(values: Values) -> PairClamp:
    return PairClamp(
        values["code"], Measured(values["reach"], values["seat"], values["feet"]), values["dash"]
    )
