"""STEP files as others read them: two builds of the kernel in processes of their own, and as a document."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

_NETGEN = """
import json, sys
from netgen.occ import OCCGeometry
found = []
for path in sys.argv[1:]:
    shape = OCCGeometry(path).shape
    low, high = shape.bounding_box
    found.append({"volumes": [s.mass for s in shape.solids], "area": sum(f.mass for f in shape.faces),
        "faces": len(shape.faces), "box": [*(low[k] for k in range(3)), *(high[k] for k in range(3))]})
print(json.dumps(found))
"""
_GMSH = """
import json, sys
import gmsh
from files.gmsh_reader import _read
found = []
for path in sys.argv[1:]:
    solids = _read(path)
    area = sum(gmsh.model.occ.getMass(2, tag) for _, tag in gmsh.model.getEntities(2))
    found.append({"solids": solids, "area": area})
    gmsh.finalize()
print(json.dumps(found))
"""
_TESTS = Path(__file__).parent.parent


def in_netgen(paths: Sequence[Path]) -> list[dict[str, Any]]:
    """Volumes of the solids, area, faces and box of each file, as netgen's build of the kernel reads it."""
    return _elsewhere(_NETGEN, paths)


def in_gmsh(paths: Sequence[Path]) -> list[dict[str, Any]]:
    """Solids (as `gmsh_reader` has them) and area of each file, as gmsh's build of the kernel reads it."""
    return _elsewhere(_GMSH, paths)


def _elsewhere(script: str, paths: Sequence[Path]) -> list[dict[str, Any]]:
    command = [sys.executable, "-c", script, *map(str, paths)]
    run = subprocess.run(command, capture_output=True, text=True, check=True, cwd=_TESTS)
    found: list[dict[str, Any]] = json.loads(run.stdout.splitlines()[-1])
    return found


@dataclass(frozen=True)
class Named:
    """A shape of a document: its name, colour and material."""

    name: str
    colour: str
    material: str
    density_kg_m3: float
    assembly: bool


def in_document(path: Path) -> tuple[dict[str, Named], dict[str, list[str]]]:
    """Every product by name, and the names of the pieces in each assembly, as a CAD program takes them in."""
    from OCP.STEPCAFControl import STEPCAFControl_Reader
    from OCP.TCollection import TCollection_ExtendedString
    from OCP.TDF import TDF_LabelSequence
    from OCP.TDocStd import TDocStd_Document
    from OCP.XCAFDoc import XCAFDoc_DocumentTool

    document = TDocStd_Document(TCollection_ExtendedString("read"))
    reader = STEPCAFControl_Reader()
    for mode in (reader.SetColorMode, reader.SetNameMode, reader.SetMatMode):
        mode(True)
    reader.ReadFile(str(path))
    assert reader.Transfer(document)
    tool = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    labels = TDF_LabelSequence()
    tool.GetShapes(labels)
    products, pieces = {}, {}
    for k in range(1, labels.Length() + 1):
        label = labels.Value(k)
        name = _name(label)
        products[name] = Named(name, _colour(document, label), *_material(label), tool.IsAssembly_s(label))
        if tool.IsAssembly_s(label):
            parts = TDF_LabelSequence()
            tool.GetComponents_s(label, parts)
            pieces[name] = [_name(parts.Value(j)) for j in range(1, parts.Length() + 1)]
    return products, pieces


def _name(label: Any) -> str:
    from OCP.TDataStd import TDataStd_Name

    found = TDataStd_Name()
    return found.Get().ToExtString() if label.FindAttribute(TDataStd_Name.GetID_s(), found) else ""


def _colour(document: Any, label: Any) -> str:
    from OCP.Quantity import Quantity_Color, Quantity_TypeOfColor
    from OCP.XCAFDoc import XCAFDoc_ColorType, XCAFDoc_DocumentTool

    tool = XCAFDoc_DocumentTool.ColorTool_s(document.Main())
    found = Quantity_Color()
    if not any(tool.GetColor_s(label, kind, found) for kind in _kinds(XCAFDoc_ColorType)):
        return ""
    red, green, blue = found.Values(Quantity_TypeOfColor.Quantity_TOC_sRGB)
    return "#" + "".join(f"{round(255 * part):02x}" for part in (red, green, blue))


def _kinds(of: Any) -> tuple[Any, ...]:
    return (of.XCAFDoc_ColorGen, of.XCAFDoc_ColorSurf)


def _material(label: Any) -> tuple[str, float]:
    """Name, and density in kg/m3: the kernel keeps it in grams a cubic millimetre."""
    from OCP.TDataStd import TDataStd_TreeNode
    from OCP.XCAFDoc import XCAFDoc, XCAFDoc_Material

    if not label.IsAttribute(XCAFDoc.MaterialRefGUID_s()):
        return "", 0.0
    node = TDataStd_TreeNode()
    assert label.FindAttribute(XCAFDoc.MaterialRefGUID_s(), node)
    found = XCAFDoc_Material()
    assert node.Father().Label().FindAttribute(XCAFDoc_Material.GetID_s(), found)
    return found.GetName().ToCString(), found.GetDensity() * 1e6
