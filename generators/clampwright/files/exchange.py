"""STEP for a shop: every part by AP242 and AP214, and the made parts as an assembly; none kept that differs.

Each file is read back as text and by the kernel afresh, and the solid is held against what its drawing tells.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from clampwright.files.agree import disagreements
from clampwright.files.solid_files import warning
from clampwright.files.step import step_assembly, step_part
from clampwright.files.step_material import MadeOf, sheet_material, turned_material
from clampwright.files.step_read_back import (
    Expected,
    NotAsMade,
    expected_assembly,
    expected_part,
    refuse_other,
)
from clampwright.files.step_schema import PROTOCOLS, Schema
from clampwright.files.written import Fact, Written
from clampwright.layout.bushing_parts import BushingPart, chamfer_made
from clampwright.layout.joined import Joined
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.layout.shop.told import FlatPart, TurnedGroup
from clampwright.solids.assembly import plate_of
from clampwright.solids.body import Body
from clampwright.solids.bushing import bushing_layer, bushing_product, bushing_shape
from clampwright.solids.place import Place

SCHEMAS: tuple[Schema, ...] = ("AP242", "AP214")
MADE = ("plate", "bushing")
"""Roles of bodies that are parts to be made."""


def flat_exchange(part: FlatPart, bodies: Sequence[Body], verdict: str = "pass") -> Iterator[Written]:
    """A flat part by each protocol, called by its drawing's number.

    Raises `NotAsMade` where a file or a drawing's numbers differ from the solid, as all of these do: then no
    file should be kept. Where `verdict` is "fail" every file says inside that it is not to be made.
    """
    about = f"{part.title} {part.number}, {part.material.name}, {part.thickness_mm:g} mm{warning(verdict)}"
    material = sheet_material(part.material)
    yield from _part(part, flat_body(part, bodies), about, material, part.digest)


def turned_exchange(group: TurnedGroup, name: str, verdict: str = "pass") -> Iterator[Written]:
    """A line of a turning sheet by each protocol, at the length that the shop makes."""
    size = f"{group.od_mm:g} x {group.bore_mm:g} x {group.length_mm:g} mm"
    about = f"Bushing {name}, {size}, {group.material}, {group.quantity} off{warning(verdict)}"
    material = turned_material(group.material, group.make)
    revisions = " ".join(dict.fromkeys(each.digest for each in group.belongs))
    yield from _part(group, turned_body(group, name), about, material, revisions)


def made_parts_exchange(layout: Joined, bodies: Sequence[Body], verdict: str = "pass") -> Iterator[Written]:
    """The parts to be made, at their finished length, where they sit: one assembly, by each protocol.

    Nothing where a layout has none.
    """
    made = made_bodies(layout, bodies)
    if not made:
        return
    recipe, revision = layout.recipe.name, layout.recipe.digest
    title = f"{recipe} made parts"
    about = f"{title}, where they sit{warning(verdict)}"
    materials = _materials(layout, made)
    expected = expected_assembly(made, title, materials=materials, revision=revision)
    for schema in SCHEMAS:
        name = f"{recipe}-made-parts-{schema.lower()}.step"
        data = step_assembly(made, title, name, about, schema, materials, revision)
        yield _kept(name, data, about, expected, schema, (("bodies", len(made)),))


def flat_body(part: FlatPart, bodies: Sequence[Body]) -> Body:
    """The solid of a flat part in its own frame, called by its drawing's number."""
    return replace(plate_of(bodies), name=part.number, product=part.number, place=Place())


def turned_body(group: TurnedGroup, name: str) -> Body:
    """A line of a turning sheet as a solid: bore along z, lower end at z = 0."""
    shape = bushing_shape(group.length_mm, group.od_mm, group.bore_mm, group.chamfer_mm)
    return Body(name, name, "bushing", shape, Place())


def made_bodies(layout: Joined, bodies: Sequence[Body]) -> tuple[Body, ...]:
    """The bodies of an assembly that are to be made, where they sit; bushings with chamfers and marks."""
    return tuple(_as_made(body, layout) for body in bodies if body.role in MADE)


def _as_made(body: Body, layout: Joined) -> Body:
    if body.role == "plate":
        product = next((part.number for part in flat_parts(layout)), body.product)
        return replace(body, product=product)
    part = _bushing_at(body, layout)
    if part is None:
        return body
    shape = bushing_layer(part.length_mm, part.od_mm, part.id_mm, chamfer_made(part))
    return replace(body, product=bushing_product(part), shape=shape)


def _bushing_at(body: Body, layout: Joined) -> BushingPart | None:
    """The bushing that a body of an assembly stands for: it is named after its clamp or joint."""
    where = body.name.removeprefix("bushing ").split(" no. ")[0].split("+")
    for part in layout.bushings:
        if any(set(fill.where.split("+")) & set(where) for fill in part.fills):
            return part
    return None


def _materials(layout: Joined, made: Sequence[Body]) -> Mapping[str, MadeOf]:
    """By product, of the products that are there."""
    there = {body.product for body in made}
    flat = {part.number: sheet_material(part.material) for part in flat_parts(layout)}
    bored = {bushing_product(b): turned_material(b.material, b.make) for b in layout.bushings}
    return {product: made_of for product, made_of in (flat | bored).items() if product in there}


def _part(
    told: FlatPart | TurnedGroup, body: Body, about: str, material: MadeOf, revision: str
) -> Iterator[Written]:
    name = body.name
    differing = disagreements(told, body.shape)
    if differing:
        raise NotAsMade(f"{name}: what is told differs from the solid: " + "; ".join(differing))
    expected = expected_part(body, material=material, revision=revision)
    for schema in SCHEMAS:
        file = f"{name}-{schema.lower()}.step"
        data = step_part(body, file, about, schema, material, revision)
        yield _kept(file, data, about, expected, schema, (("material", material.name),))


def _kept(
    name: str, data: bytes, about: str, expected: Expected, schema: Schema, more: tuple[tuple[str, Fact], ...]
) -> Written:
    said = replace(expected.said, schema=PROTOCOLS[schema].schema)
    refuse_other(data, replace(expected, said=said), name)
    found = expected.measured
    worth: tuple[tuple[str, Fact], ...] = (
        ()
        if found is None
        else (
            ("volume_mm3", found.volume_mm3),
            ("area_mm2", found.area_mm2),
            ("holes", len(found.holes)),
        )
    )
    return Written(name, data, about, (("schema", schema), ("unit", "mm"), *worth, *more))
