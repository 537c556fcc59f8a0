"""The baseline of the budgets: an ordinary CadQuery script that makes and exports the same solids.

It reads the numbers of a layout from a layout JSON, as a person would have typed them, and knows nothing
else of this project: `python bare_script.py coil-plate-layout.json FOLDER`.
"""

from __future__ import annotations

import json
import math
import sys
from pathlib import Path

import cadquery as cq

data = json.loads(Path(sys.argv[1]).read_text(encoding="utf-8"))
folder = Path(sys.argv[2])
folder.mkdir(parents=True, exist_ok=True)
thickness = data["plate"]["thickness_mm"]


def ring(outer: float, inner: float, height: float) -> cq.Workplane:
    """A washer, a bushing or a cylinder."""
    flat = cq.Workplane().circle(outer / 2)
    return (flat.circle(inner / 2) if inner else flat).extrude(height)


def plate() -> cq.Workplane:
    """The plate with all its holes."""
    pieces = data["plate"]["outline"]
    flat = cq.Workplane().moveTo(*pieces[0]["start_mm"])
    for piece in pieces:
        if piece["piece"] == "line":
            flat = flat.lineTo(*piece["end_mm"])
        else:
            centre = cq.Vector(*piece["centre_mm"])
            middle = (cq.Vector(*piece["start_mm"]) + cq.Vector(*piece["end_mm"])) * 0.5 - centre
            out = centre + middle.normalized() * piece["radius_mm"]
            flat = flat.threePointArc((out.x, out.y), tuple(piece["end_mm"]))
    flat = flat.close()
    for hole in data["holes"]:
        flat = flat.moveTo(*hole["at_mm"]).circle(hole["diameter_mm"] / 2)
    return flat.extrude(thickness)


def strap(clamp: dict) -> cq.Workplane:
    """Loop and feet of a clamp: x towards the bolt, z along it, tube along y."""
    width, radius = 12.7, clamp["seat_mm"]
    loop = cq.Workplane("XZ").circle(radius).circle(clamp["loop_mm"] / 2 + 2.8).extrude(width / 2, both=True)
    feet = (
        cq.Workplane()
        .box(clamp["reach_mm"] + 6.35, width, clamp["feet_mm"], centered=(False, True, False))
        .translate((0, 0, clamp["seat_mm"] - clamp["feet_mm"]))
    )
    bore = cq.Workplane("XZ").circle(clamp["loop_mm"] / 2 + 2.8).extrude(width, both=True)
    hole = ring(5.16, 0, 50).translate((clamp["reach_mm"], 0, 0))
    return loop.union(feet.cut(bore)).cut(hole)


def placed(origin: list[float], x: list[float], z: list[float]) -> cq.Location:
    """A frame in the world."""
    return cq.Location(cq.Plane(tuple(origin), tuple(x), tuple(z)))


def stack(whole: cq.Assembly, layers: dict, at: list[float], top: float, name: str) -> None:
    """Bolt, washers, bushing and nut of one hole, in the plate's frame."""
    z = top + sum(layer["thickness_mm"] * layer["count"] for layer in layers["layers"][:1])
    chosen = layers["chosen"]
    if chosen is None:
        return
    head = cq.Workplane().polygon(6, 9.525 / math.cos(math.pi / 6)).extrude(3.2)
    bolt = head.union(ring(4.76, 0, chosen["length_mm"]).translate((0, 0, -chosen["length_mm"])))
    whole.add(bolt, loc=cq.Location(cq.Vector(*at, z)), name=f"bolt {name}", color=cq.Color("gold"))
    for number, layer in enumerate(layers["layers"]):
        z -= layer["thickness_mm"] * layer["count"]
        if layer["od_mm"]:
            body = ring(layer["od_mm"], layer["id_mm"], layer["thickness_mm"])
            whole.add(body, loc=cq.Location(cq.Vector(*at, z)), name=f"{layer['name']} {name} {number}")
    nut = cq.Workplane().polygon(6, 9.525 / math.cos(math.pi / 6)).circle(4.9 / 2).extrude(6.3)
    whole.add(nut, loc=cq.Location(cq.Vector(*at, z - 6.3)), name=f"nut {name}")


def assembly(part: cq.Workplane) -> cq.Assembly:
    """Everything where it sits."""
    frame = data["frame"]
    world = placed(frame["origin_mm"], frame["u"], frame["n"])
    whole = cq.Assembly(name="assembly")
    own = cq.Assembly(name="own frame")
    own.add(part, name="plate", color=cq.Color("blue"))
    for clamp in data["clamps"]:
        stack(own, clamp["stack"], clamp["at_mm"], thickness, clamp["label"])
        y = cq.Vector(*clamp["bolt_axis"]).cross(cq.Vector(*clamp["axis"])) * clamp["turn"]
        where = placed(clamp["centre_mm"], y.toTuple(), clamp["bolt_axis"])
        whole.add(strap(clamp), loc=where, name=f"clamp {clamp['label']}", color=cq.Color("gray"))
        lining = cq.Workplane("XZ").circle(clamp["loop_mm"] / 2 + 2.8).circle(clamp["loop_mm"] / 2)
        whole.add(lining.extrude(6.35, both=True), loc=where, name=f"cushion {clamp['label']}")
    for component in data["components"]:
        holes = {hole["label"]: hole["at_mm"] for hole in data["holes"]}
        for label, layers in zip(component["holes"], component["stacks"], strict=False):
            stack(own, layers, holes[label], thickness + 3, label)
        length, width, height = component["body_mm"]
        body = cq.Workplane().box(length, width, height, centered=(True, True, False))
        body = body.pushPoints([(x - length / 2, 0) for x in (10.0, length - 10.0)]).hole(5)
        own.add(body, loc=cq.Location(cq.Vector(*component["at_mm"], thickness)), name=component["name"])
    whole.add(own, loc=world)
    used = {clamp["tube"] for clamp in data["clamps"]}
    for tube in data["tubes"]:
        if tube["name"] in used:
            start, end = cq.Vector(*tube["start_mm"]), cq.Vector(*tube["end_mm"])
            body = cq.Solid.makeCylinder(tube["od_mm"] / 2, (end - start).Length, start, end - start)
            whole.add(body, name=tube["name"], color=cq.Color("gray60"))
    return whole


part = plate()
cq.exporters.export(part, str(folder / "plate.step"))
cq.exporters.export(part, str(folder / "plate.stl"), tolerance=0.01, angularTolerance=0.5)
bushings = {
    (layer["od_mm"], layer["id_mm"], layer["thickness_mm"])
    for clamp in data["clamps"]
    for layer in clamp["packing"]
    if layer["name"] == "bushing"
}
for count, size in enumerate(sorted(bushings)):
    body = ring(*size)
    cq.exporters.export(body, str(folder / f"bushing-{count}.step"))
    cq.exporters.export(body, str(folder / f"bushing-{count}.stl"), tolerance=0.01, angularTolerance=0.5)
assembly(part).export(str(folder / "assembly.step"))
