"""Reads a STEP file with gmsh's own build of the kernel, in a process of its own, and prints what it found.

Run as a program: the path of the STEP file in, JSON out. Circles are found by three points on their curve, so
that nothing of the writer's description is taken on trust.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any


def solids_in_step(path: Path) -> list[dict[str, Any]]:
    """Every solid of a STEP file: name, colour, volume, box, circles (centre, radius), count of cylinders."""
    run = subprocess.run([sys.executable, __file__, str(path)], capture_output=True, text=True, check=True)
    found: list[dict[str, Any]] = json.loads(run.stdout.splitlines()[-1])
    return found


def _read(path: str) -> list[dict[str, Any]]:
    import gmsh

    gmsh.initialize(interruptible=False)
    gmsh.option.setNumber("General.Terminal", 0)
    gmsh.option.setNumber("Geometry.OCCImportLabels", 1)
    gmsh.option.setNumber("Geometry.OCCBoundsUseStl", 0)
    found = gmsh.model.occ.importShapes(path)
    gmsh.model.occ.synchronize()
    return [_solid(gmsh, tag) for dimension, tag in found if dimension == 3]


def _solid(gmsh: Any, tag: int) -> dict[str, Any]:
    faces = gmsh.model.getBoundary([(3, tag)], oriented=False)
    curves = sorted(set(gmsh.model.getBoundary(faces, combined=False, oriented=False)))
    circles = [curve for _, curve in curves if gmsh.model.getType(1, curve) == "Circle"]
    return {
        "name": gmsh.model.getEntityName(3, tag),
        "colour": gmsh.model.getColor(3, tag)[:3],
        "volume": gmsh.model.occ.getMass(3, tag),
        "box": gmsh.model.occ.getBoundingBox(3, tag),
        "cylinders": sum(gmsh.model.getType(2, face) == "Cylinder" for _, face in faces),
        "faces": len(faces),
        "circles": [_circle(gmsh, curve) for curve in circles],
    }


def _circle(gmsh: Any, curve: int) -> dict[str, Any]:
    import numpy as np

    (low,), (high,) = gmsh.model.getParametrizationBounds(1, curve)
    at = gmsh.model.getValue(1, curve, [low, low + (high - low) / 3, low + 2 * (high - low) / 3])
    a, b, c = np.array(at).reshape(3, 3)
    ab, ac = b - a, c - a
    across = np.cross(ab, ac)
    to_centre = np.dot(ac, ac) * np.cross(across, ab) + np.dot(ab, ab) * np.cross(ac, across)
    centre = a + to_centre / (2 * np.dot(across, across))
    whole = abs(high - low - 2 * np.pi) < 1e-9
    return {"centre": centre.tolist(), "radius": float(np.linalg.norm(a - centre)), "whole": bool(whole)}


if __name__ == "__main__":
    print(json.dumps(_read(sys.argv[1])))
