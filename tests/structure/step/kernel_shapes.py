"""Shapes and STEP files by the kernel's own bindings: what a test wants to be in a file."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Any

from clampwright.quantities import Vec3


def bar(start: Vec3, end: Vec3, od: float, bore: float | None = None) -> Any:
    """A round bar or tube with square ends."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut

    whole = _cylinder(start, end, od / 2)
    return whole if bore is None else BRepAlgoAPI_Cut(whole, _cylinder(start, end, bore / 2)).Shape()


def _cylinder(start: Vec3, end: Vec3, radius: float) -> Any:
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeCylinder
    from OCP.gp import gp_Ax2, gp_Dir, gp_Pnt, gp_Vec

    along = gp_Vec(gp_Pnt(*start), gp_Pnt(*end))
    return BRepPrimAPI_MakeCylinder(gp_Ax2(gp_Pnt(*start), gp_Dir(along)), radius, along.Magnitude()).Shape()


def box(corner: Vec3, size: Vec3) -> Any:
    """A box square to the axes."""
    from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox
    from OCP.gp import gp_Pnt

    return BRepPrimAPI_MakeBox(gp_Pnt(*corner), *size).Shape()


def fused(first: Any, *others: Any) -> Any:
    """One body of several."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Fuse

    for other in others:
        first = BRepAlgoAPI_Fuse(first, other).Shape()
    return first


def cut(whole: Any, away: Any) -> Any:
    """What is left of one body without another."""
    from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut

    return BRepAlgoAPI_Cut(whole, away).Shape()


def free_form(shape: Any) -> Any:
    """The same body with every surface a B-spline."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_NurbsConvert

    return BRepBuilderAPI_NurbsConvert(shape, True).Shape()


def moved(shape: Any, step: Vec3, axis: Vec3 = (0.0, 0.0, 1.0), turn_rad: float = 0.0) -> Any:
    """A copy turned about an axis through the origin, then moved; its geometry is new."""
    from OCP.BRepBuilderAPI import BRepBuilderAPI_Transform
    from OCP.gp import gp_Ax1, gp_Dir, gp_Pnt, gp_Trsf, gp_Vec

    turn, shift = gp_Trsf(), gp_Trsf()
    turn.SetRotation(gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(*axis)), turn_rad)
    shift.SetTranslation(gp_Vec(*step))
    return BRepBuilderAPI_Transform(shape, shift.Multiplied(turn), True).Shape()


def placed(shape: Any, step: Vec3, axis: Vec3 = (0.0, 0.0, 1.0), turn_rad: float = 0.0) -> Any:
    """The same body at another place: as an assembly places its parts."""
    from OCP.gp import gp_Ax1, gp_Dir, gp_Pnt, gp_Trsf, gp_Vec
    from OCP.TopLoc import TopLoc_Location

    turn, shift = gp_Trsf(), gp_Trsf()
    turn.SetRotation(gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(*axis)), turn_rad)
    shift.SetTranslation(gp_Vec(*step))
    return shape.Located(TopLoc_Location(shift.Multiplied(turn)))


def together(shapes: Sequence[Any]) -> Any:
    """Bodies in one compound, each as it is."""
    from OCP.BRep import BRep_Builder
    from OCP.TopoDS import TopoDS_Compound

    whole, builder = TopoDS_Compound(), BRep_Builder()
    builder.MakeCompound(whole)
    for shape in shapes:
        builder.Add(whole, shape)
    return whole


def written(path: Path, shapes: Mapping[str, Any] | Sequence[Any], unit: str = "MM") -> Path:
    """A STEP file of bodies, each a product of its own; named where a mapping gives names."""
    from OCP.Interface import Interface_Static
    from OCP.STEPCAFControl import STEPCAFControl_Writer
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDataStd import TDataStd_Name
    from OCP.TDocStd import TDocStd_Document
    from OCP.XCAFDoc import XCAFDoc_DocumentTool

    document = TDocStd_Document(TCollection_ExtendedString("test"))
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    named = shapes if isinstance(shapes, Mapping) else {f"SOLID{k}": s for k, s in enumerate(shapes)}
    for name, shape in named.items():
        TDataStd_Name.Set_s(tool.AddShape(shape, False), TCollection_ExtendedString(name))
    writer = STEPCAFControl_Writer()
    before = Interface_Static.CVal_s("write.step.unit")
    Interface_Static.SetCVal_s("write.step.unit", unit)
    try:
        writer.Transfer(document)
        writer.Write(str(path))
    finally:
        Interface_Static.SetCVal_s("write.step.unit", before)
    return path
