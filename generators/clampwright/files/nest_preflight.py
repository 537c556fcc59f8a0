"""What a cutting shop's clerk would look for in a nested sheet, read back from its bytes.

A fault here means that the file is not what the nest says: it is a fault of this program, and the file is
refused.
"""

from __future__ import annotations

import io
import math
from collections.abc import Iterator, Sequence
from typing import Any

import ezdxf

from clampwright.files.dxf import CUT
from clampwright.files.dxf_document import METRIC, MILLIMETRES
from clampwright.files.preflight import NotFitForCutting, contour_of
from clampwright.layout.outline import Arc, Outline
from clampwright.nesting.nested import NestedSheet
from clampwright.nesting.on_sheet import holes_on_sheet, outline_on_sheet
from clampwright.nesting.proof import layout_faults
from clampwright.quantities import Vec2

SAME_MM = 1e-6
"""Places and diameters in the file may differ this much from the nest."""
SAME_SHARE = 1e-9
"""Relative difference allowed between areas."""

Rim = tuple[Vec2, float]


def refuse_unfit_nest(data: bytes, sheet: NestedSheet) -> None:
    """Raise `NotFitForCutting` where `faults_of_sheet` finds anything."""
    faults = faults_of_sheet(data, sheet)
    if faults:
        raise NotFitForCutting(faults)


def faults_of_sheet(data: bytes, sheet: NestedSheet) -> tuple[str, ...]:
    """Everything wrong with the cut file of a sheet, as sentences; empty for one that may go to the shop.

    Looks at units, layers, kinds of entity, closed contours; finds every contour and hole once, at its place,
    with its true arcs and its area, and nothing else; measures between the contours that were read, and to
    the sheet's edges: kerf and margin are kept.
    """
    try:
        document = ezdxf.read(io.StringIO(data.decode("utf-8")))
    except (ezdxf.DXFError, UnicodeDecodeError, OSError) as fault:
        return (f"the file does not read: {fault}",)
    entities = list(document.modelspace())
    faults = (*_file_faults(document), *_entity_faults(entities))
    if faults:
        return faults
    rims = [_rim(e) for e in entities if e.dxftype() == "CIRCLE"]
    contours = [contour_of(e) for e in entities if e.dxftype() == "LWPOLYLINE"]
    return tuple(_content_faults(sheet, rims, contours))


def _file_faults(document: Any) -> Iterator[str]:
    if document.header.get("$INSUNITS") != MILLIMETRES or document.header.get("$MEASUREMENT") != METRIC:
        yield "the file does not say that its unit is the millimetre"
    audit = document.audit()
    yield from (f"the file breaks the format: {entry.message}" for entry in (*audit.errors, *audit.fixes))
    if any(len(layout) for layout in document.layouts if layout.name != "Model"):
        yield "something is drawn on a paper layout"
    if any(len(block) for block in document.blocks if not block.is_any_layout):
        yield "something is hidden in a block"


def _entity_faults(entities: Sequence[Any]) -> Iterator[str]:
    for entity in entities:
        kind = entity.dxftype()
        if entity.dxf.layer != CUT:
            yield f"a {kind} stands on layer {entity.dxf.layer}, not on {CUT}"
        if kind not in ("CIRCLE", "LWPOLYLINE"):
            yield f"a {kind} is neither a circle nor a contour"
        elif tuple(entity.dxf.extrusion) != (0, 0, 1) or entity.dxf.thickness != 0:
            yield f"a {kind} does not lie flat"
        if kind == "LWPOLYLINE" and not entity.closed:
            yield "a contour is open"


def _content_faults(sheet: NestedSheet, rims: list[Rim], contours: list[Outline]) -> Iterator[str]:
    """What is missing, what is there beside or twice, and what lies too close."""
    read: list[tuple[str, Outline]] = []
    for laid in sheet.laid:
        name = f"{laid.part.number} copy {laid.copy}"
        for hole, wanted in zip(laid.part.holes, holes_on_sheet(laid), strict=True):
            if not _taken(rims, wanted):
                where = f"{wanted[1]:.4f} mm at {_said(wanted[0])}"
                yield f"hole {hole.label} of {name} is not in the file, {where}"
        found = _found(outline_on_sheet(laid), rims, contours)
        if found is None:
            yield f"the contour of {name} is not in the file as it should be"
        else:
            read.append((name, found))
    yield from (f"a circle at {_said(at)} belongs to no part" for at, _ in rims)
    yield from (f"a contour at {_said(each.box()[:2])} belongs to no part" for each in contours)
    yield from layout_faults(sheet.stock, read)


def _found(outline: Outline, rims: list[Rim], contours: list[Outline]) -> Outline | None:
    """The contour as it was read; it is taken out, so that it counts once."""
    whole = outline.pieces[0]
    if len(outline.pieces) == 1 and isinstance(whole, Arc):
        return outline if _taken(rims, (whole.centre, 2 * whole.radius_mm)) else None
    found = next((each for each in contours if _same(each, outline)), None)
    contours[:] = [each for each in contours if each is not found]
    return found


def _taken(rims: list[Rim], wanted: Rim) -> bool:
    """Whether a circle is there; it is taken out, so that it counts once."""
    for rim in rims:
        if math.dist(rim[0], wanted[0]) <= SAME_MM and abs(rim[1] - wanted[1]) <= SAME_MM:
            rims.remove(rim)
            return True
    return False


def _same(found: Outline, wanted: Outline) -> bool:
    if len(found.pieces) != len(wanted.pieces):
        return False
    pairs = list(zip(found.pieces, wanted.pieces, strict=True))
    return (
        all(
            isinstance(a, Arc) == isinstance(b, Arc) and math.dist(a.start, b.start) <= SAME_MM
            for a, b in pairs
        )
        and all(abs(a - b) <= SAME_MM for a, b in zip(found.box(), wanted.box(), strict=True))
        and math.isclose(found.area_mm2(), wanted.area_mm2(), rel_tol=SAME_SHARE)
    )


def _rim(circle: Any) -> Rim:
    return (float(circle.dxf.center[0]), float(circle.dxf.center[1])), 2 * float(circle.dxf.radius)


def _said(at: Sequence[float]) -> tuple[float, ...]:
    return tuple(round(float(v), 4) for v in at)
