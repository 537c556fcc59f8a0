"""A tube as a mesh, and meshes written as text by hand."""

from __future__ import annotations

from pathlib import Path

import numpy as np


def mesh(inside_out: bool = False) -> tuple[np.ndarray, np.ndarray]:
    """A tube of 24 facets round, corners on the skin."""
    turn = np.arange(24) * np.pi / 12
    ring = np.column_stack([9.525 * np.cos(turn), 9.525 * np.sin(turn), 0 * turn])
    corners = np.concatenate([ring + np.array([0, 0, 20.0 * k]) for k in range(11)])
    facets = []
    for k in range(10):
        for i in range(24):
            a, b = 24 * k + i, 24 * k + (i + 1) % 24
            facets += [(a, b, b + 24), (a, b + 24, a + 24)]
    return corners, np.array(facets)[:, :: -1 if inside_out else 1]


def write_mesh(path: Path, corners: np.ndarray, facets: np.ndarray) -> None:
    """A mesh as text, written here by hand."""
    places = [" ".join(f"{x:.6f}" for x in p) for p in corners]
    if path.suffix == ".obj":
        text = "".join(f"v {p}\n" for p in places)
        text += "".join("f " + " ".join(str(i + 1) for i in f) + "\n" for f in facets)
    elif path.suffix == ".ply":
        text = f"ply\nformat ascii 1.0\nelement vertex {len(corners)}\n"
        text += "".join(f"property float {axis}\n" for axis in "xyz")
        text += f"element face {len(facets)}\nproperty list uchar int vertex_indices\nend_header\n"
        text += "".join(p + "\n" for p in places) + "".join(f"3 {a} {b} {c}\n" for a, b, c in facets)
    else:
        rows = "".join(
            "facet normal 0 0 0\nouter loop\n"
            + "".join(f"vertex {places[i]}\n" for i in f)
            + "endloop\nendfacet\n"
            for f in facets
        )
        text = f"solid tube\n{rows}endsolid tube\n"
    path.write_text(text)
