"""Plates laid out by hand for the sheets: any size, any number of holes, invented parts."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

from clampwright.checks.finding import Finding
from clampwright.layout.outline import Arc, Line, Outline
from clampwright.layout.placed import (
    BoltChoice,
    ClampPlace,
    FitUp,
    FitUpPlan,
    Frame,
    Hole,
    PlacedComponent,
    PlateLayout,
    ShimReady,
    Stack,
    StackItem,
)
from clampwright.quantities import Vec2, Vec3
from clampwright.recipe.model import (
    Clamps,
    Fastener,
    Measured,
    Measuring,
    Plate,
    PlateJob,
    Recipe,
    Template,
    Zone,
)
from clampwright.recipe.shop import usual_shop
from clampwright.structure.tubes import Structure, Tube
from clampwright.trade.bolts import BoltLength
from clampwright.trade.clamps import LoopClamp
from clampwright.trade.hardware import Nut, Torque
from clampwright.trade.materials import Material

LOOP = LoopClamp(
    part="MS21919WCH12",
    dash=12,
    loop_mm=19.05,
    reach_mm=19.812,
    seat_mm=13.1318,
    feet_mm=2.54,
    band_width_mm=12.7,
    band_mm=0.8128,
    outside_radius_mm=13.1318,
    foot_hole_mm=5.0,
    foot_end_mm=6.35,
    band="steel",
    cushion="chloroprene",
    max_temperature_c=100.0,
    mass_kg=0.014,
    measured=frozenset({"reach"}),
    source="by hand",
)
WASHER = StackItem("washer", "AN960-10", 1.6)
THIN = StackItem("washer", "AN960-10L", 0.8)
NUT = Nut("MS21044N3", "MS21044", "AN3", "insert", 121.0, 6.0, 9.525, 0.002, "by hand", "by hand")
TORQUE = Torque("10-32", "tension", 2.26, 2.82, "by hand")
METAL = Material("6061-T6", "sheet", 2713.0, 290.0, 241.0, 68.3, 100.0, "by hand")
FRAME = Frame((100.0, 200.0, 300.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0))


def rounded_rectangle(width: float, height: float, r: float) -> Outline:
    """A rounded rectangle with its lower left corner at the origin."""
    ends = [((width - r, 0), (width, r)), ((width, height - r), (width - r, height))]
    ends += [((r, height), (0, height - r)), ((0, r), (r, 0))]
    centres = [(width - r, r), (width - r, height - r), (r, height - r), (r, r)]
    pieces: list[Line | Arc] = []
    last = ends[-1][1]
    for (start, end), centre in zip(ends, centres, strict=True):
        pieces += [Line(last, start), Arc(start, end, centre, True)]
        last = end
    return Outline(tuple(pieces))


def world(u: float, v: float, z: float) -> Vec3:
    """A point of the part's frame in the world."""
    f = FRAME
    x, y, w = (o + u * a + v * b + z * c for o, a, b, c in zip(f.origin, f.u, f.v, f.n, strict=True))
    return (x, y, w)


def stack(length: str = "AN3-6A", packing: tuple[StackItem, ...] = ()) -> Stack:
    """A stack with a bolt that fits."""
    items = (
        THIN,
        StackItem("plate", "plate", 2.286),
        *packing,
        StackItem("clamp feet", LOOP.part, 2.54),
        WASHER,
    )
    bolt = BoltLength(length, "AN3", 6, 9.5, 19.8, 0.005, "by hand")
    chosen = BoltChoice(bolt, -0.5, 0.6, 2.0, True)
    return Stack("AN3", items, sum(i.thickness_mm * i.count for i in items), NUT, chosen, None, None, TORQUE)


def clamp(label: str, tube: str, at: Vec2, direction: float, away: float, gap: float) -> ClampPlace:
    """A clamp with its hole at `at`, its tube `away` (+1 above, -1 below) of it, running at `direction`."""
    a = (math.cos(direction), math.sin(direction))
    side = (-a[1] * away, a[0] * away)
    packing = (StackItem("bushing", "bushing, 6061-T6", gap),) if gap else ()
    centre = world(at[0] + side[0] * LOOP.reach_mm, at[1] + side[1] * LOOP.reach_mm, -LOOP.seat_mm - gap)
    return ClampPlace(
        label, tube, 100.0 + at[0], "inboard", 1, LOOP, centre, _turned(a), FRAME.n, 0.0, True,
        frozenset({"reach"}), at, at, -gap, packing, gap, stack(packing=packing),
    )  # fmt: skip


def _turned(a: Vec2) -> Vec3:
    x, y, z = (a[0] * u + a[1] * v for u, v in zip(FRAME.u, FRAME.v, strict=True))
    return (x, y, z)


def plate(
    width: float = 150.0,
    height: float = 100.0,
    *,
    patterns: Sequence[Sequence[Vec2]] | None = None,
    units: str = "mm",
    lightening: Sequence[tuple[Vec2, float]] = (),
    prints: tuple[Vec2, ...] = (),
    slope: float = 0.06,
    outline: Outline | None = None,
    name: str = "coil-plate",
    tubes: tuple[str, str] = ("lower-left", "upper-left"),
    inset: float = 15.0,
) -> PlateLayout:
    """A plate on two tubes, one below and one above, with component holes in `patterns`."""
    if patterns is None:
        x, y = width / 2, height / 2
        patterns = (
            [(x - 38.1, y - 25.4), (x + 12.7, y - 25.4), (x + 12.7, y + 12.7), (x - 38.1, y + 12.7)],
            [(x + 34.0, y - 14.0), (x + 34.0, y + 14.0)],
        )
    low, high = tubes
    spots = {
        "A1": (inset, inset),
        "A2": (width - inset, inset),
        "B1": (inset, height - inset - 4),
        "B2": (width - inset, height - inset + slope * (width - 2 * inset) - 4 - slope * (width - 2 * inset)),
    }
    clamps = (
        clamp("A1", low, spots["A1"], 0.0, -1.0, 0.0),
        clamp("A2", low, spots["A2"], 0.0, -1.0, 0.0),
        clamp("B1", high, spots["B1"], slope, 1.0, 6.5),
        clamp("B2", high, spots["B2"], slope, 1.0, 6.5),
    )
    holes = [Hole(label, "clamp", label, at, 4.8514, "AN3", "#11", "#40") for label, at in spots.items()]
    components = []
    for number, pattern in enumerate(patterns):
        letter = "CDEFGHJK"[number % 8] * (1 + number // 8)
        what = ("coil pack", "relay", "regulator", "separator")[number % 4]
        labels = tuple(f"{letter}{n}" for n in range(1, len(pattern) + 1))
        holes += [
            Hole(label, "component", what, at, 4.9784, "AN3", "#9", "#40")
            for label, at in zip(labels, pattern, strict=True)
        ]
        us, vs = zip(*pattern, strict=True)
        x0, y0, x1, y1 = min(us) - 6, min(vs) - 6, max(us) + 6, max(vs) + 6
        corners = ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
        components.append(
            PlacedComponent(
                what,
                ((x0 + x1) / 2, (y0 + y1) / 2),
                0.0,
                0.64,
                28.0,
                labels,
                (x1 - x0, y1 - y0, 50.0),
                corners,
                (stack("AN3-7A"),) * len(pattern),
            )
        )
    for number, (at, diameter) in enumerate(lightening, 1):
        holes.append(Hole(f"L{number}", "lightening", "", at, diameter, "", "hole saw", "1/8"))
    job = PlateJob(
        Fastener("AN3", None, None, None),
        Clamps(None, tubes, 2, "inboard", Measured(), None, ()),
        Plate("6061-T6", 2.286, "rounded rectangle", (), None, None, (0.0, 0.0, 1.0), 0.0, 0.5, (), None),
        (),
    )
    structure = Structure(
        (
            _tube(low, spots["A1"], 0.0, -1.0),
            _tube(high, spots["B1"], slope, 1.0),
        )
    )
    recipe = Recipe(
        "accessory plate", name, "Ignition coil pack and relay on two lower mount tubes", units, None,
        structure, Zone(93.0, True, ("oil",)), Measuring(1.5, False), Template(("letter", "a4"), prints),
        usual_shop("in"), job,
        (("zone.temperature", "200 degF"),), "0123456789abcdef",
    )  # fmt: skip
    plan = FitUpPlan(
        1.5,
        False,
        tuple(
            FitUp(
                h.label,
                "pilot, transfer in place" if h.label[0] == "B" else "drill now",
                1.62 if h.purpose == "clamp" else 0.15,
                0.13,
                "The hole's place is known to ± 1.62 mm and the hole gives ± 0.13 mm.",
                "a slot 4.9 x 8.0 mm along Y under a large washer (AN970-3)" if h.label[0] == "B" else "",
            )
            for h in holes
            if h.purpose != "lightening"
        ),
        (
            ShimReady("B1", 6.5, 5.0, 8.0, "cut long, trim in place"),
            ShimReady("B2", 6.5, 5.0, 8.0, "cut long"),
        ),
    )
    box = outline or rounded_rectangle(width, height, 6.35)
    return PlateLayout(
        recipe, FRAME, box, 2.286, METAL, tuple(holes), clamps, tuple(components), 0.09, 0.78,
        (width / 2, height / 2, 24.0), (), plan,
        (("plate.thickness", "2.286 mm: the default"), ("clamps.reach", "family default")),
    )  # fmt: skip


def _tube(name: str, at: Vec2, direction: float, away: float) -> Tube:
    a = (math.cos(direction), math.sin(direction))
    u, v = at[0] - a[1] * away * LOOP.reach_mm, at[1] + a[0] * away * LOOP.reach_mm
    return Tube(
        name,
        world(u - 100 * a[0], v - 100 * a[1], -LOOP.seat_mm),
        world(u + 700 * a[0], v + 700 * a[1], -LOOP.seat_mm),
        19.05,
    )


PASS = Finding("HOLE-1", "hole size", "A1", "pass", 4.85, 5.0, "mm", "4.85 mm lies in the window.", "", ())
UNKNOWN = Finding(
    "CLAMP-5", "clamp dimensions", "A1, A2, B1, B2", "unknown", None, None, "",
    "Seat and feet are defaults nobody measured.", "Measure them on a closed clamp and give clamps.seat and "
    "clamps.feet.", (),
)  # fmt: skip
CAUTION = Finding(
    "EDGE-1", "edge distance", "A2", "caution", 1.8, 2.0, "e/D",
    "e/D is 1.8; the trade plans for 2.0.", "Widen the margin to 9.8 mm.", (),
)  # fmt: skip
FAIL = Finding(
    "BOLT-1", "bolt length", "B1", "fail", 4.2, 3.0, "threads",
    "AN3-6A shows 4.2 threads; at most 3 may show.", "Take AN3-5A with one washer more.", (),
)  # fmt: skip
FINE = (PASS, UNKNOWN, CAUTION)
FAILING = (PASS, UNKNOWN, CAUTION, FAIL)


def with_prints(layout: PlateLayout, prints: tuple[Vec2, ...]) -> PlateLayout:
    """The same after some prints."""
    return replace(
        layout, recipe=replace(layout.recipe, template=replace(layout.recipe.template, prints=prints))
    )
