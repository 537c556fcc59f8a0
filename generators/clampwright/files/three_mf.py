"""3MF (ISO/IEC 25422, core specification): parts for a fit check in plastic, laid out beside each other.

The unit is the millimetre. Each part is an object with its name and colour, each copy an item to build; they
stand on z = 0 and do not touch. It is packed without compression, dates or anything else that changes: the
same parts give the same bytes.
"""

from __future__ import annotations

import io
import zipfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from xml.sax.saxutils import escape, quoteattr

from clampwright.files.maker import made_by
from clampwright.files.mesh_of import SharedMesh, shared_mesh
from clampwright.solids.body import Body
from clampwright.trade.tables import rule

_MODEL = "3D/3dmodel.model"
_CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02"
_START = "http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"
_HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
_TYPES = (
    f'{_HEAD}<Types xmlns="{_PACKAGE}/content-types">'
    '<Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>'
    '<Default Extension="model" ContentType="application/vnd.ms-package.3dmanufacturing-3dmodel+xml"/>'
    "</Types>\n"
)
_LINKS = (
    f'{_HEAD}<Relationships xmlns="{_PACKAGE}/relationships">'
    f'<Relationship Id="rel0" Target="/{_MODEL}" Type="{_START}"/></Relationships>\n'
)
_MATERIALS = 1
"""Id of the colours; objects count on from it."""


@dataclass(frozen=True, slots=True)
class ToPrint:
    """A part in its own frame, and how many of it."""

    body: Body
    copies: int = 1


@dataclass(frozen=True, slots=True)
class Printable:
    """A written 3MF: its bytes, and what each part is worth in it."""

    data: bytes
    chord_mm: float
    volumes_mm3: tuple[tuple[str, float], ...]
    """Inside the triangles of one copy, by the part's name."""
    triangles: int
    """Of one copy of each."""


def three_mf(parts: Sequence[ToPrint], title: str, about: str, chord_mm: float) -> Printable:
    """Parts as one 3MF.

    Parameters
    ----------
    parts : Sequence[ToPrint]
        What is to be printed.
    title : str
        Of the file.
    about : str
        What it is for, and whatever a person who prints it must know.
    chord_mm : float
        No flat strays further from the true surface.

    Raises
    ------
    NotWatertight
        Where the triangles of a part leave a gap; nothing is written then.
    """
    meshes = [shared_mesh(part.body.placed(), chord_mm) for part in parts]
    worth = ", ".join(f"{p.body.name} {m.volume_mm3:.2f} mm3" for p, m in zip(parts, meshes, strict=True))
    said = f"{about}. Unit mm. Chord error {chord_mm:g} mm. Volume of one: {worth}"
    model = "".join(_model(parts, meshes, title, said))
    return Printable(
        _packed((("[Content_Types].xml", _TYPES), ("_rels/.rels", _LINKS), (_MODEL, model))),
        chord_mm,
        tuple((part.body.name, mesh.volume_mm3) for part, mesh in zip(parts, meshes, strict=True)),
        sum(len(mesh.triangles) for mesh in meshes),
    )


def _model(parts: Sequence[ToPrint], meshes: Sequence[SharedMesh], title: str, about: str) -> Iterator[str]:
    yield f'{_HEAD}<model unit="millimeter" xml:lang="en-US" xmlns="{_CORE}">\n'
    for name, value in (("Title", title), ("Description", about), ("Application", made_by())):
        yield f'<metadata name="{name}">{escape(_plain(value))}</metadata>\n'
    yield "<resources>\n"
    colours = list(dict.fromkeys((part.body.role, part.body.colour) for part in parts))
    yield f'<basematerials id="{_MATERIALS}">\n'
    for role, colour in colours:
        yield f'<base name="{role}, plastic for a fit check" displaycolor="{colour.upper()}"/>\n'
    yield "</basematerials>\n"
    for k, (part, mesh) in enumerate(zip(parts, meshes, strict=True), _MATERIALS + 1):
        yield from _object(k, part.body, colours.index((part.body.role, part.body.colour)), mesh)
    yield "</resources>\n<build>\n"
    yield from _build(parts, meshes)
    yield "</build>\n</model>\n"


def _object(number: int, body: Body, colour: int, mesh: SharedMesh) -> Iterator[str]:
    name, product = quoteattr(_plain(body.name)), quoteattr(_plain(body.product))
    yield f'<object id="{number}" type="model" name={name} partnumber={product} '
    yield f'pid="{_MATERIALS}" pindex="{colour}">\n<mesh>\n<vertices>\n'
    for x, y, z in (mesh.corners - mesh.low).tolist():
        yield f'<vertex x="{_short(x)}" y="{_short(y)}" z="{_short(z)}"/>\n'
    yield "</vertices>\n<triangles>\n"
    for a, b, c in mesh.triangles.tolist():
        yield f'<triangle v1="{a}" v2="{b}" v3="{c}"/>\n'
    yield "</triangles>\n</mesh>\n</object>\n"


def _build(parts: Sequence[ToPrint], meshes: Sequence[SharedMesh]) -> Iterator[str]:
    sides = [
        (float(mesh.size[0]), float(mesh.size[1]))
        for part, mesh in zip(parts, meshes, strict=True)
        for _ in range(part.copies)
    ]
    ids = [k for k, part in enumerate(parts, _MATERIALS + 1) for _ in range(part.copies)]
    for k, (x, y) in zip(ids, side_by_side(sides), strict=True):
        yield f'<item objectid="{k}" transform="1 0 0 0 1 0 0 0 1 {_short(x)} {_short(y)} 0"/>\n'


def side_by_side(sides: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """Where the lower left corners of boxes come to lie: in rows as wide as a usual bed, with room between.

    A box wider than the bed has a row of its own.

    >>> side_by_side([(150.0, 80.0), (40.0, 40.0), (10.0, 20.0)])
    [(0.0, 0.0), (155.0, 0.0), (0.0, 85.0)]
    """
    gap, bed = rule("print-gap").value, rule("print-bed-width").value
    x = y = deep = 0.0
    found = []
    for width, depth in sides:
        if x > 0 and x + width > bed:
            x, y, deep = 0.0, y + deep + gap, 0.0
        found.append((x, y))
        x, deep = x + width + gap, max(deep, depth)
    return found


def _short(value: float) -> str:
    return f"{value:.6f}".rstrip("0").rstrip(".")


def _plain(text: str) -> str:
    """Without characters that XML 1.0 cannot carry."""
    return "".join(c if c.isprintable() else " " for c in text)


def _packed(files: Sequence[tuple[str, str]]) -> bytes:
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w", zipfile.ZIP_STORED) as package:
        for name, text in files:
            entry = zipfile.ZipInfo(name)
            entry.create_system = 0
            package.writestr(entry, text.encode())
    return held.getvalue()
