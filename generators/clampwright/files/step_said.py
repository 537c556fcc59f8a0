"""What a STEP file says of products: solids, round faces, corners, colour, material, unit; read as text."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from clampwright.files.part21 import Argument, NotPart21, Part21, Record, Ref, Word
from clampwright.files.step_material import DENSITY, NAME, PROPERTY
from clampwright.files.step_said_rounds import Round, corners_of, rounds_of
from clampwright.quantities import Vec3


@dataclass(frozen=True, slots=True)
class Product:
    """A product with what its solids look like in its own frame, mm."""

    name: str
    solids: int
    """0: an assembly."""
    colours: tuple[str, ...]
    """Of its solids, "#rrggbb"; each once."""
    material: str
    """"" where it has none."""
    density_kg_m3: float | None
    revision: str
    rounds: tuple[Round, ...]
    corners: tuple[Vec3, Vec3] | None
    """Lowest and highest of its vertices."""


@dataclass(frozen=True, slots=True)
class Said:
    """What a file is worth, before any geometry is worked out."""

    schema: str
    units: tuple[str, ...]
    """Every unit of length that a shape is in: "mm", or its words."""
    products: tuple[Product, ...]
    """In order of their names."""
    placed: tuple[tuple[str, str, str], ...]
    """(assembly, name, product) of each piece that is placed in an assembly."""


@dataclass(frozen=True, slots=True)
class Pieces:
    """What a file says of its pieces by name and number, without their geometry: a hundredth of the work."""

    schema: str
    units: tuple[str, ...]
    products: tuple[str, ...]
    """Their names, in order."""
    solids: int
    placed: tuple[tuple[str, str, str], ...]
    """As in `Said`, in order."""


def pieces_in(file: Part21) -> Pieces:
    """What a file says of its pieces.

    Raises
    ------
    NotPart21
        As `said_in`; of statements that are not read for this nothing is known.
    """
    try:
        names = _names(file)
        solids = sum(1 for _ in file.of_kind("MANIFOLD_SOLID_BREP"))
        products = tuple(sorted(name for name, _ in names.values()))
        return Pieces(
            _schema(file), tuple(sorted(_units(file))), products, solids, tuple(sorted(_placed(file, names)))
        )
    except (IndexError, TypeError, ValueError, KeyError) as lacking:
        raise NotPart21(f"a statement lacks what belongs there: {lacking}") from lacking


def said_in(file: Part21) -> Said:
    """All that a file says of its products.

    Raises
    ------
    NotPart21
        Where a statement does not have what ISO 10303-42 and -41 ask of it.
    """
    try:
        return _said(file)
    except (IndexError, TypeError, ValueError, KeyError) as lacking:
        raise NotPart21(f"a statement lacks what belongs there: {lacking}") from lacking


def _said(file: Part21) -> Said:
    names, solids = _names(file), _solids(file)
    colours, materials = _colours(file), _materials(file)
    products = tuple(
        _product(file, named, solids.get(number, []), colours, materials.get(number, {}))
        for number, named in names.items()
    )
    units = tuple(sorted(_units(file)))
    return Said(_schema(file), units, in_order(products), tuple(_placed(file, names)))


def _names(file: Part21) -> dict[int, tuple[str, str]]:
    """Name and revision of the product of each definition."""
    formations = {
        number: file.one(definition.arguments[2]) for number, definition in file.of_kind("PRODUCT_DEFINITION")
    }
    return {
        number: (_text(file.one(formation.arguments[2]).arguments[1]), _text(formation.arguments[0]))
        for number, formation in formations.items()
    }


def _placed(file: Part21, names: dict[int, tuple[str, str]]) -> Iterator[tuple[str, str, str]]:
    for _, use in file.of_kind("NEXT_ASSEMBLY_USAGE_OCCURRENCE"):
        whole, piece = (names[_to(use.arguments[k])][0] for k in (3, 4))
        yield whole, _text(use.arguments[1]), piece


def _schema(file: Part21) -> str:
    (schema,) = (_text(each) for each in _several(file.header["FILE_SCHEMA"][0]))
    return schema


def in_order(products: Iterable[Product]) -> tuple[Product, ...]:
    """Products by name, then by size."""
    return tuple(sorted(products, key=lambda each: (each.name, each.corners or ())))


def _product(
    file: Part21,
    named: tuple[str, str],
    solids: list[int],
    colours: dict[int, str],
    material: dict[str, Argument],
) -> Product:
    density = material.get(DENSITY)
    found = [corners_of(file, solid) for solid in solids]
    points = [point for points in found for point in points]
    name, revision = named
    return Product(
        name,
        len(solids),
        tuple(sorted({colours[solid] for solid in solids if solid in colours})),
        str(material.get(NAME, "")),
        float(density) if isinstance(density, float) else None,
        revision,
        tuple(each for solid in solids for each in rounds_of(file, solid)),
        box_of(points) if points else None,
    )


def box_of(points: Iterable[Vec3]) -> tuple[Vec3, Vec3]:
    """Lowest and highest corner round points.

    >>> box_of([(0.0, 2.0, 0.0), (1.0, 1.0, 3.0)])
    ((0.0, 1.0, 0.0), (1.0, 2.0, 3.0))
    """
    x, y, z = zip(*points, strict=True)
    return (min(x), min(y), min(z)), (max(x), max(y), max(z))


def _solids(file: Part21) -> dict[int, list[int]]:
    """Solids by product definition."""
    found: dict[int, list[int]] = defaultdict(list)
    for _, link in file.of_kind("SHAPE_DEFINITION_REPRESENTATION"):
        definition = _to(file.one(link.arguments[0]).arguments[2])
        for item in _several(file.one(link.arguments[1]).arguments[1]):
            if file.one(item).kind == "MANIFOLD_SOLID_BREP":
                found[definition].append(_to(item))
    return found


def _colours(file: Part21) -> dict[int, str]:
    """Colour by solid: the one colour that its style leads to."""
    found = {}
    for _, styled in file.of_kind("STYLED_ITEM"):
        colours = {each for style in _several(styled.arguments[1]) for each in _leads_to_colour(file, style)}
        if len(colours) == 1:
            found[_to(styled.arguments[2])] = colours.pop()
    return found


def _leads_to_colour(file: Part21, argument: Argument) -> Iterator[str]:
    if isinstance(argument, tuple):
        for each in argument:
            yield from _leads_to_colour(file, each)
    elif isinstance(argument, Ref):
        record = file.one(argument)
        if record.kind == "COLOUR_RGB":
            yield "#" + "".join(f"{round(255 * _number(part)):02x}" for part in record.arguments[1:4])
        else:
            yield from _leads_to_colour(file, record.arguments)


def _materials(file: Part21) -> dict[int, dict[str, Argument]]:
    """Name and density by product definition; the density where its unit is the kilogram a cubic metre."""
    found: dict[int, dict[str, Argument]] = defaultdict(dict)
    for _, link in file.of_kind("PROPERTY_DEFINITION_REPRESENTATION"):
        kept = file.one(link.arguments[0])
        if kept.arguments[0] != PROPERTY:
            continue
        item = file.one(_several(file.one(link.arguments[1]).arguments[1])[0])
        of = _to(kept.arguments[2])
        if item.kind == "DESCRIPTIVE_REPRESENTATION_ITEM":
            found[of][NAME] = item.arguments[0]
        elif _kilograms_a_cubic_metre(file, item.arguments[2]):
            measure = item.arguments[1]
            found[of][DENSITY] = measure.arguments[0] if isinstance(measure, Record) else None
    return found


def _kilograms_a_cubic_metre(file: Part21, unit: Argument) -> bool:
    parts = [file.one(part) for part in _several(file.one(unit).arguments[0])]
    found = {_si(file, _to(part.arguments[0])): part.arguments[1] for part in parts}
    return found == {"KILO GRAM": 1.0, "METRE": -3.0}


def _units(file: Part21) -> set[str]:
    found = set()
    for _, context in file.of_kind("GLOBAL_UNIT_ASSIGNED_CONTEXT"):
        for unit in _several(context.arguments[0]):
            if any(record.kind == "LENGTH_UNIT" for record in file.records(_to(unit))):
                said = _si(file, _to(unit))
                found.add("mm" if said == "MILLI METRE" else said)
    return found


def _si(file: Part21, unit: int) -> str:
    """Words of a unit: prefix and name, or the name of one that is given by conversion."""
    for record in file.records(unit):
        if record.kind == "SI_UNIT":
            return " ".join(each.word for each in record.arguments if isinstance(each, Word))
        if record.kind == "CONVERSION_BASED_UNIT":
            return _text(record.arguments[0])
    return "no unit"


def _to(argument: Argument) -> int:
    if not isinstance(argument, Ref):
        raise TypeError(f"a pointer was expected, not {argument!r}")
    return argument.to


def _text(argument: Argument) -> str:
    if not isinstance(argument, str):
        raise TypeError(f"a text was expected, not {argument!r}")
    return argument


def _number(argument: Argument) -> float:
    if not isinstance(argument, (int, float)) or not math.isfinite(argument):
        raise TypeError(f"a number was expected, not {argument!r}")
    return float(argument)


def _several(argument: Argument) -> tuple[Argument, ...]:
    if not isinstance(argument, tuple):
        raise TypeError(f"a list was expected, not {argument!r}")
    return argument
