"""STEP files (ISO 10303-21) by AP214 or AP242, the same bytes for the same bodies.

The header names no author, firm or time. Each body has its name and colour, and its material where that is
given; bodies that are alike share one product. Lengths are millimetres.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from itertools import count

from clampwright.files.maker import made_by
from clampwright.files.part21_text import as_part21
from clampwright.files.step_material import MadeOf, material_lines
from clampwright.files.step_schema import Schema, header_schema, under
from clampwright.solids.body import Body
from clampwright.solids.exchange import KernelText, step_text

_NAME = re.compile(
    r"(?P<version>PRODUCT_DEFINITION_FORMATION\(')'|(?P<product>= PRODUCT\('@\d{5}@',')?(?P<mark>@\d{5}@)"
)
_OCCURRENCE = re.compile(r"NEXT_ASSEMBLY_USAGE_OCCURRENCE\('\d+'")
_WRITER = re.compile(r"'(Open CASCADE STEP processor [^']*)'")
_ID = re.compile(r"(?m)^#(\d+) = ")
_PRODUCT_OR_SOLIDS = re.compile(
    r" = PRODUCT\('(?P<mark>@\d{5}@)'"
    r"| = ADVANCED_BREP_SHAPE_REPRESENTATION\('',\((?P<items>[#\d,]+)\),#(?P<context>\d+)\)"
)
_BROKEN_LINE = re.compile(r"(?<!;)\n\s*")


def step_part(
    body: Body,
    file_name: str,
    about: str,
    schema: Schema = "AP214",
    material: MadeOf | None = None,
    revision: str = "",
) -> bytes:
    """One body in its own frame.

    Parameters
    ----------
    body : Body
        The part.
    file_name : str
        Name of the file, for its header.
    about : str
        What it is, for its header.
    schema : str
        Application protocol, "AP214" or "AP242".
    material : MadeOf | None
        Becomes a property of the product.
    revision : str
        Of the part: the version of its product.
    """
    written = step_text([body], file_name, one_part=True)
    materials = {body.product: material} if material else {}
    return _steady(written, file_name, about, schema, materials, revision)


def step_assembly(
    bodies: Sequence[Body],
    title: str,
    file_name: str,
    about: str,
    schema: Schema = "AP214",
    materials: Mapping[str, MadeOf] | None = None,
    revision: str = "",
) -> bytes:
    """Every body where it sits, under one assembly called `title`.

    `materials` gives the products that have one, by their names; `revision` is that of all of them.
    """
    written = step_text(bodies, title, one_part=False)
    return _steady(written, file_name, about, schema, materials or {}, revision)


def _steady(
    written: KernelText,
    file_name: str,
    about: str,
    schema: Schema,
    materials: Mapping[str, MadeOf],
    revision: str,
) -> bytes:
    text = written.data.decode("ascii")
    data = under(schema, _one_statement_a_line(text[text.index("DATA;") :]))
    ids = count(1)
    data = _OCCURRENCE.sub(lambda _: f"NEXT_ASSEMBLY_USAGE_OCCURRENCE('{next(ids)}'", data)
    data = _with(data, _styles(data, written.bodies))
    data = _NAME.sub(lambda found: _named(found, written, revision), data)
    data = _with(data, material_lines(data, materials, _free(data)))
    return (_header(text, file_name, about, schema) + data).encode("ascii")


def _with(data: str, statements: Iterator[str]) -> str:
    return data.replace("\nENDSEC;", "\n" + "".join(statements) + "ENDSEC;")


def _free(data: str) -> int:
    return max(int(i) for i in _ID.findall(data)) + 1


def _named(found: re.Match[str], written: KernelText, revision: str) -> str:
    if found["version"]:
        return f"{found['version']}{as_part21(revision)}'"
    mark = found["mark"]
    if found["product"]:
        name = as_part21(written.products[mark])
        return f"= PRODUCT('{name}','{name}"
    return as_part21(written.bodies[mark].name)


def _styles(data: str, bodies: dict[str, Body]) -> Iterator[str]:
    """A colour for every solid: one chain of styles a colour, one presentation a product."""
    ids = count(_free(data))
    chains: dict[str, int] = {}
    mark = ""
    for found in _PRODUCT_OR_SOLIDS.finditer(data):
        if found["mark"]:
            mark = found["mark"]
            continue
        colour = bodies[mark].colour
        if colour not in chains:
            chain = [next(ids) for _ in range(7)]
            chains[colour] = chain[0]
            yield from _chain(chain, colour)
        solids = [int(i) for i in found["items"].split(",#")[1:]]
        items = [next(ids) for _ in solids]
        for item, solid in zip(items, solids, strict=True):
            yield f"#{item} = STYLED_ITEM('color',(#{chains[colour]}),#{solid});\n"
        shown = ",".join(f"#{item}" for item in items)
        kind = "MECHANICAL_DESIGN_GEOMETRIC_PRESENTATION_REPRESENTATION"
        yield f"#{next(ids)} = {kind}('',({shown}),#{found['context']});\n"


def _chain(ids: list[int], colour: str) -> Iterator[str]:
    red, green, blue = (f"{int(colour[k : k + 2], 16) / 255:.6f}" for k in (1, 3, 5))
    after = [f"#{i}" for i in ids[1:]]
    kinds = (
        f"PRESENTATION_STYLE_ASSIGNMENT(({after[0]}))",
        f"SURFACE_STYLE_USAGE(.BOTH.,{after[1]})",
        f"SURFACE_SIDE_STYLE('',({after[2]}))",
        f"SURFACE_STYLE_FILL_AREA({after[3]})",
        f"FILL_AREA_STYLE('',({after[4]}))",
        f"FILL_AREA_STYLE_COLOUR('',{after[5]})",
        f"COLOUR_RGB('',{red},{green},{blue})",
    )
    yield from (f"#{i} = {kind};\n" for i, kind in zip(ids, kinds, strict=True))


def _one_statement_a_line(data: str) -> str:
    return _BROKEN_LINE.sub("", data)


def _header(text: str, file_name: str, about: str, schema: Schema) -> str:
    writer = _WRITER.search(text)
    lines = (
        "ISO-10303-21;",
        "HEADER;",
        f"FILE_DESCRIPTION(('{as_part21(about)}'),'2;1');",
        f"FILE_NAME('{as_part21(file_name)}','',(''),(''),'{writer.group(1) if writer else ''}',"
        f"'{made_by()}','');",
        header_schema(schema),
        "ENDSEC;",
        "",
    )
    return "\n".join(lines)
