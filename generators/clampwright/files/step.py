"""STEP files (ISO 10303-21, AP214), the same bytes for the same bodies.

The header names no author, firm or time. Each body has its name and colour; bodies that are alike share
one product. Lengths are millimetres.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import count

from clampwright.files.maker import made_by
from clampwright.solids.body import Body
from clampwright.solids.exchange import KernelText, step_text

_NAME = re.compile(r"(?P<product>= PRODUCT\('@\d{5}@',')?(?P<mark>@\d{5}@)")
_OCCURRENCE = re.compile(r"NEXT_ASSEMBLY_USAGE_OCCURRENCE\('\d+'")
_WRITER = re.compile(r"'(Open CASCADE STEP processor [^']*)'")
_SCHEMA = re.compile(r"FILE_SCHEMA\([^;]*;")
_ID = re.compile(r"(?m)^#(\d+) = ")
_PRODUCT_OR_SOLIDS = re.compile(
    r" = PRODUCT\('(?P<mark>@\d{5}@)'"
    r"| = ADVANCED_BREP_SHAPE_REPRESENTATION\('',\((?P<items>[#\d,]+)\),#(?P<context>\d+)\)"
)
_BROKEN_LINE = re.compile(r"(?<!;)\n\s*")
_NOT_BASIC = re.compile(r"[^\x20-\x7e]+")


def step_part(body: Body, file_name: str, about: str) -> bytes:
    """One body in its own frame.

    Parameters
    ----------
    body : Body
        The part.
    file_name : str
        Name of the file, for its header.
    about : str
        What it is, for its header.
    """
    return _steady(step_text([body], file_name, one_part=True), file_name, about)


def step_assembly(bodies: Sequence[Body], title: str, file_name: str, about: str) -> bytes:
    """Every body where it sits, under one assembly called `title`."""
    return _steady(step_text(bodies, title, one_part=False), file_name, about)


def as_part21(text: str) -> str:
    r"""A text inside a string of ISO 10303-21: quotes and backslashes doubled, others as \X2\ groups.

    >>> print(as_part21("relay 'K1' é"))
    relay ''K1'' \X2\00E9\X0\
    """
    plain = text.replace("\\", "\\\\").replace("'", "''")
    return _NOT_BASIC.sub(lambda found: _group(found.group()), plain)


def _group(text: str) -> str:
    if any(ord(c) > 0xFFFF for c in text):
        return f"\\X4\\{''.join(f'{ord(c):08X}' for c in text)}\\X0\\"
    return f"\\X2\\{''.join(f'{ord(c):04X}' for c in text)}\\X0\\"


def _steady(written: KernelText, file_name: str, about: str) -> bytes:
    text = written.data.decode("ascii")
    data = _one_statement_a_line(text[text.index("DATA;") :])
    ids = count(1)
    data = _OCCURRENCE.sub(lambda _: f"NEXT_ASSEMBLY_USAGE_OCCURRENCE('{next(ids)}'", data)
    data = data.replace("\nENDSEC;", "\n" + "".join(_styles(data, written.bodies)) + "ENDSEC;")
    data = _NAME.sub(lambda found: _named(found, written), data)
    return (_header(text, file_name, about) + data).encode("ascii")


def _named(found: re.Match[str], written: KernelText) -> str:
    mark = found["mark"]
    if found["product"]:
        name = as_part21(written.products[mark])
        return f"= PRODUCT('{name}','{name}"
    return as_part21(written.bodies[mark].name)


def _styles(data: str, bodies: dict[str, Body]) -> Iterator[str]:
    """A colour for every solid: one chain of styles a colour, one presentation a product."""
    first = max(int(i) for i in _ID.findall(data)) + 1
    ids = count(first)
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


def _header(text: str, file_name: str, about: str) -> str:
    writer, schema = _WRITER.search(text), _SCHEMA.search(text)
    lines = (
        "ISO-10303-21;",
        "HEADER;",
        f"FILE_DESCRIPTION(('{as_part21(about)}'),'2;1');",
        f"FILE_NAME('{as_part21(file_name)}','',(''),(''),'{writer.group(1) if writer else ''}',"
        f"'{made_by()}','');",
        schema.group() if schema else "",
        "ENDSEC;",
        "",
    )
    return "\n".join(lines)
