"""The same bodies in FCL, the Flexible Collision Library: an independent measure of their distance."""

from __future__ import annotations

import io

import fcl
import numpy as np
import trimesh

from clampwright.layout.bodies import Body, Box, Capsule
from clampwright.solids.mesh import stl_bytes
from clampwright.solids.shapes import Shape

CHORD_MM, TURN_RAD = 0.005, 0.1


def of_simple(body: Body) -> fcl.CollisionObject:
    """A simple body as FCL's own primitive."""
    if isinstance(body, Box):
        at = fcl.Transform(np.array(body.axes).T, np.array(body.centre))
        return fcl.CollisionObject(fcl.Box(*(2 * half for half in body.half)), at)
    start, end = np.array(body.start), np.array(body.end)
    length = float(np.linalg.norm(end - start))
    z = (end - start) / length
    x = np.cross(z, np.eye(3)[int(np.argmin(np.abs(z)))])
    x /= np.linalg.norm(x)
    turned = np.array([x, np.cross(z, x), z]).T
    kind = fcl.Capsule if isinstance(body, Capsule) else fcl.Cylinder
    return fcl.CollisionObject(kind(body.radius_mm, length), fcl.Transform(turned, (start + end) / 2))


def of_solid(shape: Shape) -> fcl.CollisionObject:
    """A solid as a fine mesh."""
    mesh = trimesh.load_mesh(io.BytesIO(stl_bytes(shape, CHORD_MM, TURN_RAD)), file_type="stl")
    model = fcl.BVHModel()
    model.beginModel(len(mesh.vertices), len(mesh.faces))
    model.addSubModel(mesh.vertices, mesh.faces)
    model.endModel()
    return fcl.CollisionObject(model, fcl.Transform())


def apart(a: fcl.CollisionObject, b: fcl.CollisionObject) -> float:
    """Distance, mm; 0 where they meet."""
    return max(0.0, float(fcl.distance(a, b, fcl.DistanceRequest(), fcl.DistanceResult())))
