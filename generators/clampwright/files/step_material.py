"""What a part is made of, as a property of its product in a STEP file.

The name stands in a descriptive item, the density in a measure with its unit, each in a representation of its
own that a property of the product definition points to. Readers that look for neither pass over both.

Source: CAx Implementor Forum, Recommended Practices for Material Identification and Density 2.1, 4.1 and 4.2,
as quoted second hand; the kernel reads it as meant.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import count

from clampwright.files.part21_text import as_part21
from clampwright.trade.materials import Material
from clampwright.trade.tube_stock import bushing_material

PROPERTY = "material property"
NAME = "material name"
DENSITY = "density"

_PRODUCT = re.compile(r"(?m)^#(\d+) = PRODUCT\('((?:[^']|'')*)'")
_FORMATION = re.compile(r"(?m)^#(\d+) = PRODUCT_DEFINITION_FORMATION\('(?:[^']|'')*','[^']*',#(\d+)\)")
_DEFINITION = re.compile(r"(?m)^#(\d+) = PRODUCT_DEFINITION\('[^']*','[^']*',#(\d+),")
_CONTEXT = re.compile(r"(?m)^#(\d+) = \( GEOMETRIC_REPRESENTATION_CONTEXT\(3\)")


@dataclass(frozen=True, slots=True)
class MadeOf:
    """A material as a file names it."""

    name: str
    """"6061-T6"."""
    form: str
    """"sheet, T6"; "" where there is nothing to say."""
    density_kg_m3: float | None


def sheet_material(material: Material) -> MadeOf:
    """Of a flat part."""
    return MadeOf(material.name, material.form, material.density_kg_m3)


def turned_material(name: str, make: str) -> MadeOf:
    """Of a bushing: its material, and whether it is cut from tube or turned from rod.

    >>> turned_material("6061-T6", "tube").form
    'tube'
    """
    return MadeOf(name, make, bushing_material(name).density_kg_m3)


def material_lines(data: str, materials: Mapping[str, MadeOf], first: int) -> Iterator[str]:
    """Statements that give products their materials, numbered from `first`.

    Parameters
    ----------
    data : str
        The data section, one statement a line.
    materials : Mapping[str, MadeOf]
        By the product's name. Products that are not named have none.
    first : int
        The first number that is free.
    """
    ids = count(first)
    definitions = _definitions(data)
    found = _CONTEXT.search(data)
    context = int(found[1]) if found else 0
    unit = 0
    for name, made in materials.items():
        definition = definitions[as_part21(name)]
        described = f"DESCRIPTIVE_REPRESENTATION_ITEM('{as_part21(made.name)}','{as_part21(made.form)}')"
        yield from _property(NAME, described, definition, context, ids)
        if made.density_kg_m3 is None:
            continue
        if not unit:
            *lines, unit = _kilograms_a_cubic_metre(ids)
            yield from (str(line) for line in lines)
        measure = f"POSITIVE_RATIO_MEASURE({_real(made.density_kg_m3)})"
        weighed = f"MEASURE_REPRESENTATION_ITEM('density measure',{measure},#{unit})"
        yield from _property(DENSITY, weighed, definition, context, ids)


def _definitions(data: str) -> dict[str, int]:
    """Number of the product definition by the product's name as it is written."""
    products = {int(found[1]): found[2] for found in _PRODUCT.finditer(data)}
    formations = {int(found[1]): products[int(found[2])] for found in _FORMATION.finditer(data)}
    return {formations[int(found[2])]: int(found[1]) for found in _DEFINITION.finditer(data)}


def _property(what: str, item: str, definition: int, context: int, ids: count[int]) -> Iterator[str]:
    told, shown, kept, linked = (next(ids) for _ in range(4))
    yield f"#{told} = {item};\n"
    yield f"#{shown} = REPRESENTATION('{what}',(#{told}),#{context});\n"
    yield f"#{kept} = PROPERTY_DEFINITION('{PROPERTY}','{what}',#{definition});\n"
    yield f"#{linked} = PROPERTY_DEFINITION_REPRESENTATION(#{kept},#{shown});\n"


def _kilograms_a_cubic_metre(ids: count[int]) -> tuple[str, str, str, str, str, int]:
    mass, length, up, down, unit = (next(ids) for _ in range(5))
    return (
        f"#{mass} = ( MASS_UNIT() NAMED_UNIT(*) SI_UNIT(.KILO.,.GRAM.) );\n",
        f"#{length} = ( LENGTH_UNIT() NAMED_UNIT(*) SI_UNIT($,.METRE.) );\n",
        f"#{up} = DERIVED_UNIT_ELEMENT(#{mass},1.);\n",
        f"#{down} = DERIVED_UNIT_ELEMENT(#{length},-3.);\n",
        f"#{unit} = DERIVED_UNIT((#{up},#{down}));\n",
        unit,
    )


def _real(value: float) -> str:
    """A real of ISO 10303-21: with a point, whatever the value."""
    return f"{value:.6f}".rstrip("0")
