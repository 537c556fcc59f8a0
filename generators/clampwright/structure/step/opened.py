"""A STEP file to named solid parts in millimetres, and the unit that it was written in."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from clampwright.structure.not_readable import NotReadable
from clampwright.structure.step.header import looked_at
from clampwright.structure.step.kernel import explored, kernel_quiet, of_kernel

_UNITS = {
    "millimetre": "mm",
    "centimetre": "cm",
    "metre": "m",
    "micrometre": "µm",
    "inch": "in",
    "foot": "ft",
    "feet": "ft",
    "mil": "mil",
}
_NO_NAME = re.compile(
    r"=>|none$|(solid|compound|shell|part|body|product|document|unnamed|shape)?[\W\d_]*$|open cascade", re.I
)


@dataclass(frozen=True, slots=True, eq=False)
class Part:
    """One occurrence of a product, where it sits: its name ("" where the file gives none) and its faces."""

    name: str
    solids: tuple[Any, ...]
    loose_faces: int


@dataclass(frozen=True, slots=True, eq=False)
class Opened:
    """A STEP file as read."""

    parts: tuple[Part, ...]
    unit: str
    unit_how: str
    size_mm: tuple[float, float, float]


def opened(path: Path) -> Opened:
    """Read a STEP file: every product with solids in it, in millimetres.

    Raises
    ------
    NotReadable
        No such file, no STEP, broken, or nothing solid in it.
    """
    meshed = looked_at(path)
    with kernel_quiet():
        document, units = _read(path)
        parts = tuple(part for part in _parts(document) if part.solids or part.loose_faces)
    if not any(part.solids for part in parts):
        raise _no_solids(meshed, any(part.loose_faces for part in parts))
    return Opened(parts, *_unit(units), _size(parts))


def _no_solids(meshed: bool, surfaces: bool) -> NotReadable:
    if meshed:
        change = "export the model itself as solids, or save the mesh as STL and look for tubes as in a scan"
        return NotReadable("it holds a mesh and no solid body", change)
    if surfaces:
        return NotReadable(
            "it holds surfaces but no solid body", "close them to solids and export them again"
        )
    return NotReadable("there is no solid body in it", "export the tubes as solids, not as sketches or lines")


def _read(path: Path) -> tuple[Any, list[str]]:
    from OCP.IFSelect import IFSelect_ReturnStatus
    from OCP.STEPCAFControl import STEPCAFControl_Reader
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDocStd import TDocStd_Document
    from OCP.XCAFDoc import XCAFDoc_DocumentTool

    document = TDocStd_Document(TCollection_ExtendedString("tubes"))
    XCAFDoc_DocumentTool.SetLengthUnit_s(document, 0.001)
    reader = STEPCAFControl_Reader()
    for mode in (reader.SetColorMode, reader.SetLayerMode, reader.SetPropsMode, reader.SetGDTMode):
        mode(False)
    reader.SetNameMode(True)
    broken = NotReadable("it is broken or cut short", "export it again from the CAD program")
    try:
        if reader.ReadFile(str(path)) != IFSelect_ReturnStatus.IFSelect_RetDone:
            raise broken
        reader.ChangeReader().SetSystemLengthUnit(1.0)
        units = _units_of(reader.ChangeReader())
        reader.Transfer(document)
    except NotReadable:
        raise
    except Exception as error:
        of_kernel(error)
        raise broken from error
    return document, units


def _units_of(reader: Any) -> list[str]:
    from OCP.TColStd import TColStd_SequenceOfAsciiString

    lengths, angles, solid_angles = (TColStd_SequenceOfAsciiString() for _ in range(3))
    reader.FileUnits(lengths, angles, solid_angles)
    said = (lengths.Value(i).ToCString() for i in range(1, lengths.Length() + 1))
    return list(dict.fromkeys(_UNITS.get(unit.lower(), unit.lower()) for unit in said if unit))


def _unit(units: list[str]) -> tuple[str, str]:
    if not units:
        return "mm", "not written in the file: taken as millimetres, look at the lengths"
    if len(units) > 1:
        return units[0], f"written in the file, which mixes {' and '.join(units)}: each part read in its own"
    return units[0], "written in the file"


def _parts(document: Any) -> Iterator[Part]:
    from OCP.XCAFDoc import XCAFDoc_DocumentTool
    from OCP.XCAFPrs import XCAFPrs_DocumentExplorer, XCAFPrs_DocumentExplorerFlags_OnlyLeafNodes

    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    leaves = XCAFPrs_DocumentExplorer(document, XCAFPrs_DocumentExplorerFlags_OnlyLeafNodes)
    while leaves.More():
        node = leaves.Current()
        shape = shapes.GetShape_s(node.RefLabel)
        if not shape.IsNull():
            yield _part(_product_name(leaves), shape.Located(node.Location))
        leaves.Next()


def _part(name: str, shape: Any) -> Part:
    from OCP.TopAbs import TopAbs_ShapeEnum

    kinds = TopAbs_ShapeEnum
    solids = tuple(explored(shape, kinds.TopAbs_SOLID))
    return Part(name, solids, sum(1 for _ in explored(shape, kinds.TopAbs_FACE, kinds.TopAbs_SOLID)))


def _product_name(leaves: Any) -> str:
    """The nearest name from the part upwards that a person gave; the product's before the occurrence's."""
    for depth in range(leaves.CurrentDepth(), -1, -1):
        node = leaves.Current(depth)
        for label in (node.RefLabel, node.Label):
            name = _label_name(label)
            if not _NO_NAME.match(name.strip()):
                return name.strip()
    return ""


def _label_name(label: Any) -> str:
    from OCP.TDataStd import TDataStd_Name

    name = TDataStd_Name()
    return str(name.Get().ToExtString()) if label.FindAttribute(TDataStd_Name.GetID_s(), name) else ""


def _size(parts: tuple[Part, ...]) -> tuple[float, float, float]:
    from OCP.Bnd import Bnd_Box
    from OCP.BRepBndLib import BRepBndLib

    box = Bnd_Box()
    for solid in (solid for part in parts for solid in part.solids):
        BRepBndLib.AddOptimal_s(solid, box, False, False)
    low, high = box.CornerMin(), box.CornerMax()
    return (high.X() - low.X(), high.Y() - low.Y(), high.Z() - low.Z())
