"""A STEP file read afresh by the kernel, and what the solids in it measure."""

from __future__ import annotations

import math
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import cadquery as cq
from OCP.BRepAdaptor import BRepAdaptor_Curve
from OCP.GCPnts import GCPnts_AbscissaPoint
from OCP.IFSelect import IFSelect_ReturnStatus
from OCP.STEPControl import STEPControl_Reader

from clampwright.quantities import Vec3
from clampwright.solids.measure import area_mm2, box_mm, volume_mm3
from clampwright.solids.no_part import NoPart
from clampwright.solids.round_faces import RoundFace, open_holes, round_faces
from clampwright.solids.shapes import Shape


class NotRead(NoPart):
    """A STEP file out of which the kernel reads no shape."""

    own_fault = True


@dataclass(frozen=True, slots=True)
class Measures:
    """What solids measure where they sit, in mm, mm2 and mm3."""

    solids: int
    valid: bool
    volume_mm3: float
    area_mm2: float
    box: tuple[Vec3, Vec3]
    holes: tuple[RoundFace, ...]
    """Whole hollow cylinders."""
    blind: int
    """How many of them are closed at an end."""
    shortest_edge_mm: float
    smallest_face_mm2: float


def read_step(data: bytes) -> Shape:
    """The shape in a STEP file, in millimetres.

    Raises `NotRead`.
    """
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "kept.step"
        path.write_bytes(data)
        reader = STEPControl_Reader()
        status = reader.ReadFile(str(path))
        if status != IFSelect_ReturnStatus.IFSelect_RetDone or not reader.TransferRoots():
            raise NotRead("the kernel reads no shape out of the file")
    shape = reader.OneShape()
    if shape.IsNull():
        raise NotRead("the kernel reads an empty shape out of the file")
    return cq.Shape.cast(shape)


def measures(shapes: Sequence[Shape]) -> Measures:
    """What shapes measure together, each where it sits.

    >>> from clampwright.solids.shapes import ring
    >>> found = measures([ring(11.0, 5.0, 12.5)])
    >>> found.solids, len(found.holes), found.blind, found.valid
    (1, 1, 0, True)
    """
    solids = [solid for shape in shapes for solid in shape.Solids()]
    holes = [[each for each in round_faces(solid) if each.hollow and each.whole] for solid in solids]
    boxes = [box_mm(solid) for solid in solids]
    return Measures(
        solids=len(solids),
        valid=all(solid.isValid() for solid in solids),
        volume_mm3=math.fsum(volume_mm3(solid) for solid in solids),
        area_mm2=math.fsum(area_mm2(solid) for solid in solids),
        box=_round_all(boxes),
        holes=tuple(hole for own in holes for hole in own),
        blind=sum(open_holes(*each).count(False) for each in zip(solids, holes, strict=True)),
        shortest_edge_mm=min((_length(e) for s in solids for e in s.Edges()), default=0.0),
        smallest_face_mm2=min((float(f.Area()) for s in solids for f in s.Faces()), default=0.0),
    )


def _length(edge: Shape) -> float:
    return float(GCPnts_AbscissaPoint.Length_s(BRepAdaptor_Curve(edge.wrapped)))


def _round_all(boxes: Sequence[tuple[Vec3, Vec3]]) -> tuple[Vec3, Vec3]:
    if not boxes:
        return (0.0, 0.0, 0.0), (0.0, 0.0, 0.0)
    low = [min(values) for values in zip(*(box[0] for box in boxes), strict=True)]
    high = [max(values) for values in zip(*(box[1] for box in boxes), strict=True)]
    return (low[0], low[1], low[2]), (high[0], high[1], high[2])
