"""What was read from a "component bushings" recipe, as the typed job."""

from __future__ import annotations

from clampwright.quantities import Vec3
from clampwright.quantities.directions import unit
from clampwright.recipe.bushing_fields import stock
from clampwright.recipe.bushing_model import BushingJob, ClampsOn, Lug, MountedComponent, Pose
from clampwright.recipe.direction import square_to
from clampwright.recipe.fields import Values
from clampwright.recipe.model import Fastener, Measured
from clampwright.recipe.written import Entry
from clampwright.structure.tubes import Structure
from clampwright.trade.tables import rule


def job(entry: Entry, values: Values, structure: Structure) -> BushingJob:
    """The typed job of a recipe without faults."""
    fastener, show = values["fastener"], values["show"]
    return BushingJob(
        Fastener(fastener["bolt"], fastener["nut"], fastener["nut_height"], None),
        _component(values["component"]),
        _pose(values["pose"]),
        _clamps(entry.inside("clamps"), values["clamps"], structure),
        stock(values["bushings"]),
        int(rule("bushing-answers-shown").value) if show is None else show,
    )


def _component(values: Values) -> MountedComponent:
    holes = values["holes"]
    thick = values["lugs"] or (values["lug"],) * len(holes)
    faces = values["near_faces"] or (0.0,) * len(holes)
    return MountedComponent(
        name=values["name"],
        mass_kg=values["mass"],
        lugs=tuple(Lug(*lug) for lug in zip(holes, thick, faces, strict=True)),
        hole_mm=values["hole"],
        body=values["body"],
        body_base_mm=values["body_base"],
        cg=values["cg"],
        rides_on=values["rides_on"],
    )


def _pose(values: Values) -> Pose:
    up, along = (None if values[key] is None else unit(values[key]) for key in ("up", "along"))
    return Pose(
        at=values["at"],
        within_mm=values["within"],
        up=up,
        along=_level(along, up),
        turn_within_rad=values["turn_within"],
        fixed=values["fixed"],
        stand_off_mm=values["stand_off"],
    )


def _level(along: Vec3 | None, up: Vec3 | None) -> Vec3 | None:
    """The component's x: square to its z, where both are given."""
    return along if along is None or up is None else square_to(along, up)


def _clamps(entry: Entry, values: Values, structure: Structure) -> ClampsOn:
    on = values["on"]
    if on is None:
        entry.inside("on").assume(f"{', '.join(structure.names)} (every tube of the structure; assumed)")
    own = tuple((name, _measured(v), v["dash"]) for name, v in (values["tubes"] or {}).items())
    return ClampsOn(on or structure.names, values["code"], _measured(values), values["dash"], own)


def _measured(values: Values) -> Measured:
    return Measured(values["reach"], values["seat"], values["feet"])
