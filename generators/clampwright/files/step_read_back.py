"""A STEP file against the bodies it was made of, before it is kept.

Two readers judge it: a plain one of the text, which shares nothing with the kernel that wrote it, and, where
asked, the kernel in a fresh read, which measures the solids that come out.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields

from clampwright.files.part21 import NotPart21, read_part21, refuse_bad_part21
from clampwright.files.step_material import MadeOf
from clampwright.files.step_said import Pieces, Product, Said, in_order, pieces_in, said_in
from clampwright.files.step_said_rounds import SAME_MM, Round
from clampwright.files.step_schema import PROTOCOLS, Schema
from clampwright.quantities import Vec3
from clampwright.solids.body import Body
from clampwright.solids.no_part import NoPart
from clampwright.solids.round_faces import RoundFace, open_holes, round_faces, vertex_box
from clampwright.solids.shapes import Shape
from clampwright.solids.step_reader import Measures, NotRead, measures, read_step
from clampwright.trade.tables import rule

SAME_SHARE = 1e-9
"""Volumes, areas and densities agree within this share."""


class NotAsMade(NoPart):
    """A STEP file that does not say what it was made of; names what differs."""

    own_fault = True


@dataclass(frozen=True, slots=True)
class Expected:
    """What a file has to say, and what its solids have to measure."""

    said: Said
    measured: Measures | None
    """None: the kernel is not asked."""


def expected_part(
    body: Body,
    schema: Schema = "AP214",
    material: MadeOf | None = None,
    revision: str = "",
    measure: bool = True,
) -> Expected:
    """What the file of one part in its own frame has to say.

    Parameters
    ----------
    body : Body
        As `step_part` takes it.
    schema, material, revision
        As `step_part` takes them.
    measure : bool
        Whether the kernel is to read the file too and measure its solids.
    """
    product = _product(body, material, revision)
    said = Said(PROTOCOLS[schema].schema, ("mm",), (product,), ())
    return Expected(said, measures([body.shape]) if measure else None)


def expected_assembly(
    bodies: Sequence[Body],
    title: str,
    schema: Schema = "AP214",
    materials: Mapping[str, MadeOf] | None = None,
    revision: str = "",
    measure: bool = True,
) -> Expected:
    """What the file of an assembly has to say; parameters as `step_assembly` and `expected_part`."""
    firsts, placed = _shared(bodies, title)
    whole = Product(title, 0, (), "", None, revision, (), None)
    products = [_product(each, (materials or {}).get(each.product), revision) for each in firsts]
    said = Said(PROTOCOLS[schema].schema, ("mm",), in_order((whole, *products)), tuple(placed))
    return Expected(said, measures([body.placed() for body in bodies]) if measure else None)


def _shared(bodies: Sequence[Body], title: str) -> tuple[list[Body], list[tuple[str, str, str]]]:
    """The first body of each product, and (assembly, name, product) of all: those alike share one."""
    firsts: list[Body] = []
    placed = []
    for body in bodies:
        same = next((each for each in firsts if each.shape.wrapped.IsSame(body.shape.wrapped)), None)
        if same is None:
            firsts.append(body)
        placed.append((title, body.name, (same or body).product))
    return firsts, placed


def refuse_other_pieces(data: bytes, bodies: Sequence[Body], title: str, name: str) -> None:
    """Raise `NotAsMade` where an AP214 assembly does not have these pieces, by name and number.

    Its geometry is not looked at: `refuse_other` does that, for a twentyfold of the time.
    """
    firsts, placed = _shared(bodies, title)
    wanted = Pieces(
        PROTOCOLS["AP214"].schema,
        ("mm",),
        tuple(sorted((title, *(body.product for body in firsts)))),
        sum(len(body.shape.Solids()) for body in firsts),
        tuple(sorted(placed)),
    )
    try:
        found = pieces_in(read_part21(data))
    except NotPart21 as broken:
        raise NotAsMade(f"{name} breaks ISO 10303-21: {broken}") from broken
    differing = [
        each.name for each in fields(Pieces) if getattr(found, each.name) != getattr(wanted, each.name)
    ]
    if differing:
        raise NotAsMade(f"{name} does not say what was made: other {', '.join(differing)}")


def _product(body: Body, material: MadeOf | None, revision: str) -> Product:
    shape = body.shape
    return Product(
        body.product,
        len(shape.Solids()),
        (body.colour,),
        material.name if material else "",
        material.density_kg_m3 if material else None,
        revision,
        tuple(_rounds(shape)),
        vertex_box(shape),
    )


def _rounds(shape: Shape) -> Iterator[Round]:
    faces = round_faces(shape)
    holes = [face for face in faces if face.hollow and face.whole]
    closed = {hole for hole, is_open in zip(holes, open_holes(shape, holes), strict=True) if not is_open}
    for each in faces:
        through = each.hollow and each not in closed
        yield Round(each.diameter_mm, each.start, each.end, each.hollow, each.whole, through)


def refuse_other(data: bytes, expected: Expected, name: str) -> None:
    """Raise `NotAsMade` where the file called `name` differs from what is expected of it."""
    found = differences(data, expected)
    if found:
        raise NotAsMade(f"{name} does not say what was made: " + "; ".join(found))


def differences(data: bytes, expected: Expected) -> tuple[str, ...]:
    """In which ways a STEP file differs from what is expected of it, a sentence each; none where it does not.

    Parameters
    ----------
    data : bytes
        The file. The kernel is given it only where its text says what it should: it does not survive every
        file that is broken.
    expected : Expected
        From `expected_part` or `expected_assembly`.
    """
    try:
        file = read_part21(data)
        refuse_bad_part21(file)
        found = [*_said_differently(expected.said, said_in(file))]
    except NotPart21 as broken:
        return (f"its text breaks ISO 10303-21: {broken}",)
    if found or expected.measured is None:
        return tuple(found)
    try:
        return tuple(_measured_differently(expected.measured, measures([read_step(data)])))
    except NotRead as refused:
        return (str(refused),)


def _said_differently(wanted: Said, found: Said) -> Iterator[str]:
    if found.schema != wanted.schema:
        yield f"its schema is {found.schema!r}, not {wanted.schema!r}"
    if found.units != wanted.units:
        yield f"its unit of length is {', '.join(found.units) or 'not said'}, not mm"
    if sorted(found.placed) != sorted(wanted.placed):
        lost = [name for _, name, _ in wanted.placed if name not in {name for _, name, _ in found.placed}]
        yield f"pieces are not placed as they were ({', '.join(lost) or 'another product or number'})"
    names = [[product.name for product in said.products] for said in (wanted, found)]
    if names[0] != names[1]:
        yield f"its products are {', '.join(names[1]) or 'none'}, not {', '.join(names[0])}"
        return
    for each, other in zip(wanted.products, found.products, strict=True):
        yield from (f"{each.name}: {said}" for said in _product_differently(each, other))


def _product_differently(wanted: Product, found: Product) -> Iterator[str]:
    if found.solids != wanted.solids:
        yield f"{found.solids} solids, not {wanted.solids}"
    if wanted.solids and found.colours != wanted.colours:
        yield f"its colour is {', '.join(found.colours) or 'not said'}, not {', '.join(wanted.colours)}"
    if found.material != wanted.material:
        yield f"its material is {found.material or 'not said'}, not {wanted.material or 'to be said'}"
    if not _same_density(found.density_kg_m3, wanted.density_kg_m3):
        yield f"its density is {found.density_kg_m3} kg/m3, not {wanted.density_kg_m3}"
    if found.revision != wanted.revision:
        yield f"its revision is {found.revision or 'not said'}, not {wanted.revision or 'to be said'}"
    yield from _rounds_differently(wanted.rounds, found.rounds)
    if wanted.corners is not None and (found.corners is None or not _same_box(wanted.corners, found.corners)):
        yield f"its corners lie within {_shown_box(found.corners)}, not {_shown_box(wanted.corners)}"


def _same_density(one: float | None, other: float | None) -> bool:
    if one is None or other is None:
        return one is other
    return math.isclose(one, other, rel_tol=SAME_SHARE)


def _rounds_differently(wanted: Sequence[Round], found: Sequence[Round]) -> Iterator[str]:
    left = list(found)
    for each in wanted:
        same = next((other for other in left if _same_round(each, other)), None)
        if same is None:
            yield f"{_shown_round(each)} is not in it"
        else:
            left.remove(same)
    yield from (f"{_shown_round(other)} is in it and was not made" for other in left)


def _same_round(a: Round, b: Round) -> bool:
    if abs(a.diameter_mm - b.diameter_mm) > SAME_MM:
        return False
    if (a.hollow, a.whole, a.through) != (b.hollow, b.whole, b.through):
        return False
    ends = ((b.start, b.end), (b.end, b.start))
    return any(_same_place(a.start, start) and _same_place(a.end, end) for start, end in ends)


def _same_place(a: Vec3, b: Vec3) -> bool:
    return math.dist(a, b) <= SAME_MM


def _shown_round(each: Round) -> str:
    what = ("through hole" if each.through else "blind hole") if each.hollow else "round"
    part = "" if each.whole else "part of a "
    return f"{part}{what} of {each.diameter_mm:.6g} mm at {_shown(each.start)}"


def _measured_differently(wanted: Measures, found: Measures) -> Iterator[str]:
    for what, count, counted in (
        ("solids", found.solids, wanted.solids),
        ("holes", len(found.holes), len(wanted.holes)),
        ("blind holes", found.blind, wanted.blind),
    ):
        if count != counted:
            yield f"read again it has {count} {what}, not {counted}"
    if wanted.valid and not found.valid:
        yield "read again its solids are not valid"
    for what, value, was in (
        ("volume", found.volume_mm3, wanted.volume_mm3),
        ("area", found.area_mm2, wanted.area_mm2),
    ):
        if not math.isclose(value, was, rel_tol=SAME_SHARE):
            yield f"read again its {what} is {value:.6f}, not {was:.6f} (mm)"
    if not _same_box(found.box, wanted.box):
        yield f"read again it fills {_shown_box(found.box)}, not {_shown_box(wanted.box)}"
    yield from _rounds_differently(*([_plain(each) for each in side.holes] for side in (wanted, found)))
    yield from _slivers(found)


def _slivers(found: Measures) -> Iterator[str]:
    least = rule("step-edge-least").value
    if found.shortest_edge_mm < least:
        yield f"it has an edge of {found.shortest_edge_mm:.2g} mm, shorter than {least:g} mm"
    if found.smallest_face_mm2 < least**2:
        yield f"it has a face of {found.smallest_face_mm2:.2g} mm2, a sliver"


def _plain(face: RoundFace) -> Round:
    return Round(face.diameter_mm, face.start, face.end, face.hollow, face.whole, True)


def _same_box(a: tuple[Vec3, Vec3], b: tuple[Vec3, Vec3]) -> bool:
    return all(_same_place(p, q) for p, q in zip(a, b, strict=True))


def _shown_box(box: tuple[Vec3, Vec3] | None) -> str:
    return "nothing" if box is None else f"{_shown(box[0])} to {_shown(box[1])}"


def _shown(at: Vec3) -> str:
    return "(" + ", ".join(f"{each + 0.0:.6g}" for each in at) + ")"
