"""Writes STEP files with gmsh's own build of the kernel, in a process of its own: another tool chain.

Run as a program: JSON in, a STEP file out. The JSON holds the path and calls of `gmsh.model.occ` by name,
each with its arguments; every body that a call makes is given its number by the caller.
"""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

Call = tuple[str, list[Any]]


def written_by_gmsh(path: Path, calls: list[Call]) -> Path:
    """A STEP file of what the calls leave standing."""
    asked = json.dumps({"path": str(path), "calls": calls})
    subprocess.run([sys.executable, __file__], input=asked, text=True, check=True, capture_output=True)
    return path


def _write(path: str, calls: list[Call]) -> None:
    import gmsh

    gmsh.initialize(interruptible=False)
    gmsh.option.setNumber("General.Terminal", 0)
    for name, arguments in calls:
        getattr(gmsh.model.occ, name)(*arguments)
    gmsh.model.occ.synchronize()
    gmsh.write(path)
    gmsh.finalize()


if __name__ == "__main__":
    asked = json.loads(sys.stdin.read())
    _write(asked["path"], asked["calls"])
