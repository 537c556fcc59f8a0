"""What a cutting shop's clerk would look for in a flat pattern, read back from its bytes.

A fault here means that the file is not what the layout says: it is a fault of this program, and the file
is refused. What is hard to cut although the file is right is a finding (`checks.cutting`).
"""

from __future__ import annotations

import io
import math
from collections import Counter
from collections.abc import Iterator, Mapping
from typing import Any

import ezdxf

from clampwright.files.dxf import CUT
from clampwright.files.dxf_document import METRIC, MILLIMETRES
from clampwright.layout.outline import Arc, Line, Outline
from clampwright.layout.placed import PlateLayout
from clampwright.quantities import Vec2
from clampwright.solids.no_part import NoPart
from clampwright.trade.tables import rule

SAME_MM = 1e-6
"""Places and diameters in the file may differ this much from the layout."""

SAME_SHARE = 1e-9
"""Relative difference allowed between areas."""


class NotFitForCutting(NoPart):
    """A flat pattern that differs from its layout or breaks a rule for cut files; `faults` says how."""

    def __init__(self, faults: tuple[str, ...]) -> None:
        super().__init__("; ".join(faults))
        self.faults = faults


def refuse_unfit(data: bytes, layout: PlateLayout, diameters: Mapping[str, float] | None = None) -> None:
    """Raise `NotFitForCutting` where `faults_of` finds anything."""
    faults = faults_of(data, layout, diameters)
    if faults:
        raise NotFitForCutting(faults)


def faults_of(
    data: bytes, layout: PlateLayout, diameters: Mapping[str, float] | None = None
) -> tuple[str, ...]:
    """Everything wrong with a cut file, as sentences; empty for one that may go to the shop.

    Looks at units, layers, kinds of entity, closed contours, true arcs, duplicates, and compares number,
    place and diameter of holes, box and area with the layout. No piece of the contour may be shorter than the
    rule `cut-piece-least`.

    Parameters
    ----------
    data : bytes
        The file.
    layout : PlateLayout
        What it should say.
    diameters : Mapping[str, float], optional
        Other diameters by hole label, mm, as given to `cut_dxf`.
    """
    try:
        document = ezdxf.read(io.StringIO(data.decode("utf-8")))
    except (ezdxf.DXFError, UnicodeDecodeError, OSError) as fault:
        return (f"the file does not read: {fault}",)
    entities = list(document.modelspace())
    return (
        *_file_faults(document),
        *_entity_faults(entities),
        *_duplicates(entities),
        *_hole_faults(entities, layout, diameters or {}),
        *_outline_faults(entities, layout.outline),
    )


def contour_of(polyline: Any) -> Outline:
    """A closed polyline as lines and arcs; an arc's centre follows from its chord and bulge."""
    points = [(float(x), float(y), float(b)) for x, y, b in polyline.get_points("xyb")]
    after = [*points[1:], points[0]]
    return Outline(tuple(_piece(a, b) for a, b in zip(points, after, strict=True)))


def _piece(point: tuple[float, float, float], after: tuple[float, float, float]) -> Line | Arc:
    start, end, b = (point[0], point[1]), (after[0], after[1]), point[2]
    if b == 0:
        return Line(start, end)
    # The centre lies (1 - b^2)/(4b) chords to the left of the chord's middle.
    off = (1 - b * b) / (4 * b)
    du, dv = end[0] - start[0], end[1] - start[1]
    centre = ((start[0] + end[0]) / 2 - off * dv, (start[1] + end[1]) / 2 + off * du)
    return Arc(start, end, centre, b > 0)


def _file_faults(document: Any) -> Iterator[str]:
    if document.header.get("$INSUNITS") != MILLIMETRES or document.header.get("$MEASUREMENT") != METRIC:
        yield "the file does not say that its unit is the millimetre"
    audit = document.audit()
    for entry in (*audit.errors, *audit.fixes):
        yield f"the file breaks the format: {entry.message}"
    if any(len(layout) for layout in document.layouts if layout.name != "Model"):
        yield "something is drawn on a paper layout"
    if any(len(block) for block in document.blocks if not block.is_any_layout):
        yield "something is hidden in a block"


def _entity_faults(entities: list[Any]) -> Iterator[str]:
    for entity in entities:
        if entity.dxf.layer != CUT:
            yield f"a {entity.dxftype()} stands on layer {entity.dxf.layer}, not on {CUT}"
        if entity.dxftype() not in ("CIRCLE", "LWPOLYLINE"):
            yield f"a {entity.dxftype()} is neither a circle nor a contour"
        elif tuple(entity.dxf.extrusion) != (0, 0, 1) or entity.dxf.thickness != 0:
            yield f"a {entity.dxftype()} does not lie flat"
        if entity.dxftype() == "LWPOLYLINE" and not entity.closed:
            yield "a contour is open"


def _duplicates(entities: list[Any]) -> Iterator[str]:
    centres = Counter(_rounded(e.dxf.center) for e in _circles(entities))
    yield from (f"{n} circles round {at}" for at, n in centres.items() if n > 1)
    for polyline in _polylines(entities):
        starts = Counter(_rounded(p) for p in polyline.get_points("xy"))
        yield from (f"the contour passes {at} {n} times" for at, n in starts.items() if n > 1)


def _hole_faults(entities: list[Any], layout: PlateLayout, diameters: Mapping[str, float]) -> Iterator[str]:
    left = [(_flat(c.dxf.center), 2 * float(c.dxf.radius)) for c in _circles(entities)]
    for hole in layout.holes:
        wanted = diameters.get(hole.label, hole.diameter_mm)
        found = next((c for c in left if math.dist(c[0], hole.at) <= SAME_MM), None)
        if found is None:
            yield f"hole {hole.label} is not in the file at ({hole.at[0]:.4f}, {hole.at[1]:.4f})"
            continue
        left.remove(found)
        if abs(found[1] - wanted) > SAME_MM:
            yield f"hole {hole.label} is {found[1]:.4f} mm in the file, not {wanted:.4f} mm"
    if not _round_plate(layout.outline):
        yield from (f"a circle at {_rounded(at)} belongs to no hole" for at, _ in left)


def _outline_faults(entities: list[Any], outline: Outline) -> Iterator[str]:
    if _round_plate(outline):
        return
    contours = [contour_of(p) for p in _polylines(entities)]
    if len(contours) != 1:
        yield f"{len(contours)} contours besides the holes, not one"
        return
    found = contours[0]
    arcs = [sum(isinstance(p, Arc) for p in o.pieces) for o in (found, outline)]
    if arcs[0] != arcs[1]:
        yield f"{arcs[0]} true arcs in the contour, not {arcs[1]}"
    if any(abs(a - b) > SAME_MM for a, b in zip(found.box(), outline.box(), strict=True)):
        yield f"the contour spans {_rounded(found.box())}, not {_rounded(outline.box())}"
    yield from _short_pieces(found)
    if not math.isclose(found.area_mm2(), outline.area_mm2(), rel_tol=SAME_SHARE):
        yield f"the contour encloses {found.area_mm2():.4f} mm2, not {outline.area_mm2():.4f} mm2"


def _short_pieces(outline: Outline) -> Iterator[str]:
    """Pieces so short that a machine stops, burns a mark or drops them."""
    least = rule("cut-piece-least").value
    for number, piece in enumerate(outline.pieces, 1):
        if piece.length_mm < least:
            what = "arc" if isinstance(piece, Arc) else "line"
            where = f"piece {number} of the contour, {what} at {_rounded(piece.start)}"
            yield (f"{where}, is {piece.length_mm:.2g} mm long; machines follow {least:g} mm or more")


def _round_plate(outline: Outline) -> bool:
    return len(outline.pieces) == 1


def _circles(entities: list[Any]) -> list[Any]:
    return [e for e in entities if e.dxftype() == "CIRCLE"]


def _polylines(entities: list[Any]) -> list[Any]:
    return [e for e in entities if e.dxftype() == "LWPOLYLINE"]


def _flat(point: Any) -> Vec2:
    return (float(point[0]), float(point[1]))


def _rounded(numbers: Any) -> tuple[float, ...]:
    return tuple(round(float(n), 4) for n in numbers)
