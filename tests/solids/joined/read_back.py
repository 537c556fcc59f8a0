"""An assembly written as STEP and read back by gmsh's own build of the kernel: axes and faces of its bodies.

Nothing is taken from what wrote it but the names of the bodies. Run as a program with a STEP file and pairs
of names in it, it prints the distances that gmsh measures.
"""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

Vector = NDArray[np.float64]


@dataclass(frozen=True)
class Read:
    """A solid as gmsh reads it."""

    name: str
    volume: float
    circles: tuple[tuple[Vector, float], ...]
    """Centre and radius of every circle and arc of it."""

    def centres(self, diameter: float) -> list[Vector]:
        """Centres of its circles of a diameter."""
        found = [centre for centre, radius in self.circles if abs(2 * radius - diameter) < 1e-6]
        assert found, f"no circle of {diameter} on {self.name}: {sorted({2 * r for _, r in self.circles})}"
        return found

    def axis(self, diameter: float) -> tuple[Vector, Vector]:
        """A point and the unit direction of the line through its circles of a diameter."""
        centres = self.centres(diameter)
        far = max(centres, key=lambda c: float(np.linalg.norm(c - centres[0])))
        return centres[0], (far - centres[0]) / np.linalg.norm(far - centres[0])


def read_back(data: bytes, folder: Path) -> dict[str, Read]:
    """Every solid of an assembly by its name in the file."""
    from files.gmsh_reader import solids_in_step

    path = folder / "assembly.step"
    path.write_bytes(data)
    found = {}
    for solid in solids_in_step(path):
        name = solid["name"].split("/")[-2]
        circles = tuple((np.array(c["centre"]), c["radius"]) for c in solid["circles"])
        found[name] = Read(name, solid["volume"], circles)
    return found


def off_line(point: Vector, line: tuple[Vector, Vector]) -> float:
    """Distance of a point from a line."""
    return float(np.linalg.norm(np.cross(point - line[0], line[1])))


def between_lines(a: tuple[Vector, Vector], b: tuple[Vector, Vector]) -> float:
    """Distance between two lines."""
    across = np.cross(a[1], b[1])
    size = float(np.linalg.norm(across))
    if size < 1e-9:
        return off_line(b[0], a)
    return abs(float((b[0] - a[0]) @ across)) / size


def distances(data: bytes, pairs: Sequence[tuple[str, str]], folder: Path) -> list[float]:
    """Distance between the solids of each pair, by their names, as gmsh measures it."""
    path = folder / "assembly.step"
    path.write_bytes(data)
    words = [sys.executable, __file__, str(path), json.dumps(pairs)]
    run = subprocess.run(words, capture_output=True, text=True, check=True)
    found: list[float] = json.loads(run.stdout.splitlines()[-1])
    return found


def _measured(path: str, pairs: Sequence[tuple[str, str]]) -> list[float]:
    import gmsh

    gmsh.initialize(interruptible=False)
    gmsh.option.setNumber("General.Terminal", 0)
    gmsh.option.setNumber("Geometry.OCCImportLabels", 1)
    tags: dict[str, Any] = {}
    found = gmsh.model.occ.importShapes(path)
    gmsh.model.occ.synchronize()
    for dimension, tag in found:
        if dimension == 3:
            tags[gmsh.model.getEntityName(3, tag).split("/")[-2]] = tag
    return [gmsh.model.occ.getDistance(3, tags[a], 3, tags[b])[0] for a, b in pairs]


if __name__ == "__main__":
    print(json.dumps(_measured(sys.argv[1], json.loads(sys.argv[2]))))
