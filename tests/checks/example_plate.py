"""A plate on four clamps, built by hand so that every number in it can be followed with a pencil.

Two parallel tubes of 19.05 mm run along x, 200 mm apart. Four clamps sit at stations 200 and 400 with
their holes inboard. Reach 19.812 (0.78 in), seat 12.827 (9.525 + 3.302), so the holes stand 19.812 inside
either axis: 200 mm apart along the tubes and 200 - 2 x 19.812 = 160.376 mm across. The outline is a
rectangle 12 mm outside the holes, 224 x 184.376 mm, with 6 mm corners. It passes every check; the tests
spoil it one number at a time.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

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
    Stack,
    StackItem,
)
from clampwright.quantities import Vec2
from clampwright.recipe.model import (
    Clamps,
    Component,
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

OD, REACH, SEAT, FEET, BAND = 19.05, 19.812, 12.827, 2.2, 12.7
HOLE = 4.8514  # drill #11, 0.191 in
MARGIN, ACROSS = 12.0, 200.0 - 2 * REACH
LONG, WIDE = 200.0 + 2 * MARGIN, ACROSS + 2 * MARGIN
THICK = 2.286  # 0.090 in
MIDDLE: Vec2 = (LONG / 2, WIDE / 2)
PITCH = 0.79375  # 1/32 in
ALL = frozenset({"reach", "seat", "feet"})

TUBES = (
    Tube("lower", (0.0, 0.0, 0.0), (600.0, 0.0, 0.0), OD),
    Tube("upper", (0.0, 200.0, 0.0), (600.0, 200.0, 0.0), OD),
)
FRAME = Frame((200.0 - MARGIN, REACH - MARGIN, SEAT), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))

CLAMP = LoopClamp(
    part="MS21919WCJ12",
    dash=12,
    loop_mm=OD,
    reach_mm=REACH,
    seat_mm=SEAT,
    feet_mm=FEET,
    band_width_mm=BAND,
    band_mm=0.8128,
    outside_radius_mm=SEAT,
    foot_hole_mm=5.1562,
    foot_end_mm=6.35,
    band="stainless steel",
    cushion="fluorosilicone",
    max_temperature_c=204.0,
    mass_kg=0.02,
    measured=ALL,
    source="assumed",
    code="CJ",
)
NUT = Nut("MS21044N3", "MS21044", "AN3", "insert", 121.0, 6.35, 9.525, 0.002, "assumed", "assumed")
TORQUE = Torque("10-32", "tension", 2.26, 2.82, "assumed")
ALUMINIUM = Material("6061-T6", "sheet", 2713.0, 290.0, 241.0, 68.3, None, "assumed")

# AN3-5A: grip 5/8 - 3/8 = 1/4 in, length 5/8 + 1/32 = 21/32 in
AN3_4A = BoltLength("AN3-4A", "AN3", 4, 3.175, 13.49375, 0.004, "assumed")
AN3_5A = BoltLength("AN3-5A", "AN3", 5, 6.35, 16.66875, 0.005, "assumed")
AN3_6A = BoltLength("AN3-6A", "AN3", 6, 9.525, 19.84375, 0.006, "assumed")

THIN = StackItem("washer", "AN960-10L", 0.8128, od_mm=11.1125, id_mm=5.1562)
REGULAR = StackItem("washer", "AN960-10", 1.6002, od_mm=11.1125, id_mm=5.1562)
PLATE_LAYER = StackItem("plate", "plate", THICK)


def chosen(length: BoltLength, thickness: float, nut: Nut = NUT) -> BoltChoice:
    """A bolt tried in a stack, its numbers worked out here."""
    showing = None
    if nut.height_mm is not None:
        showing = (length.length_mm - thickness - nut.height_mm) / PITCH
    past = length.grip_mm - thickness
    return BoltChoice(length, past, -past / PITCH, showing, fits=past <= 0)


def stack(*middle: StackItem, bolt: BoltLength = AN3_5A, nut: Nut = NUT) -> Stack:
    """Thin washer, the layers, regular washer, with the bolt and its neighbours."""
    items = (THIN, *middle, REGULAR)
    thick = sum(i.thickness_mm * i.count for i in items)
    return Stack(
        "AN3",
        items,
        thick,
        nut,
        chosen(bolt, thick, nut),
        chosen(AN3_4A, thick, nut),
        chosen(AN3_6A, thick, nut),
        TORQUE,
    )


def clamp_stack(feet: float = FEET, **more: Any) -> Stack:
    """0.8128 + 2.286 + 2.2 + 1.6002 = 6.899 mm."""
    return stack(PLATE_LAYER, StackItem("clamp feet", "clamp feet", feet), **more)


def lug_stack(lug: float = 2.0, **more: Any) -> Stack:
    """0.8128 + 2.0 + 2.286 + 1.6002 = 6.699 mm."""
    return stack(StackItem("component lug", "component lug", lug), PLATE_LAYER, **more)


def rectangle(long: float = LONG, wide: float = WIDE, radius: float = 6.0) -> Outline:
    """A rounded rectangle from the datum corner, counter-clockwise from the lower edge."""
    r = radius
    corners = [(r, r), (long - r, r), (long - r, wide - r), (r, wide - r)]
    starts = [-90.0, 0.0, 90.0, 180.0]
    pieces: list[Line | Arc] = []
    ends: list[tuple[Vec2, Vec2]] = []
    for (x, y), degrees in zip(corners[1:] + corners[:1], starts, strict=True):
        a, b = math.radians(degrees), math.radians(degrees + 90.0)
        ends.append(((x + r * math.cos(a), y + r * math.sin(a)), (x + r * math.cos(b), y + r * math.sin(b))))
    for i, ((start, end), centre) in enumerate(zip(ends, corners[1:] + corners[:1], strict=True)):
        pieces.append(Line(ends[i - 1][1], start))
        if r > 0:
            pieces.append(Arc(start, end, centre, True))
    return Outline(tuple(pieces))


def polygon(*points: Vec2) -> Outline:
    """Sharp corners, counter-clockwise."""
    return Outline(tuple(Line(a, b) for a, b in zip(points, points[1:] + points[:1], strict=True)))


def clamp(label: str, tube: str, station: float, turn: int, at: Vec2) -> ClampPlace:
    """One clamp; (0,0,1) x (1,0,0) = (0,1,0), so turn +1 puts the hole towards +y."""
    y = 0.0 if tube == "lower" else 200.0
    return ClampPlace(
        label=label,
        tube=tube,
        station_mm=station,
        side="inboard",
        turn=turn,
        clamp=CLAMP,
        centre=(station, y, 0.0),
        axis=(1.0, 0.0, 0.0),
        bolt_axis=(0.0, 0.0, 1.0),
        at=at,
        at_exact=at,
        seat_z_mm=0.0,
        packing=(),
        gap_mm=0.0,
        tilt_rad=0.0,
        station_given=True,
        stack=clamp_stack(),
        measured=ALL,
    )


CLAMPS = (
    clamp("A1", "lower", 200.0, 1, (MARGIN, MARGIN)),
    clamp("A2", "lower", 400.0, 1, (MARGIN + 200.0, MARGIN)),
    clamp("B1", "upper", 200.0, -1, (MARGIN, MARGIN + ACROSS)),
    clamp("B2", "upper", 400.0, -1, (MARGIN + 200.0, MARGIN + ACROSS)),
)

PATTERN = ((-38.1, -25.4), (38.1, -25.4), (38.1, 25.4), (-38.1, 25.4))
BODY = (101.6, 76.2, 55.88)


def around(at: Vec2, length: float, width: float) -> tuple[Vec2, ...]:
    """Corners of a rectangle about a place, counter-clockwise."""
    half = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    return tuple((at[0] + i * length / 2, at[1] + j * width / 2) for i, j in half)


COIL = PlacedComponent(
    name="coil pack",
    at=MIDDLE,
    turn_rad=0.0,
    mass_kg=0.635,
    cg_height_mm=27.94,
    holes=("C1", "C2", "C3", "C4"),
    body=BODY,
    corners=around(MIDDLE, BODY[0], BODY[1]),
    stacks=(lug_stack(),) * 4,
)

HOLES = (
    *(Hole(c.label, "clamp", c.label, c.at, HOLE, "AN3", "#11", "#30") for c in CLAMPS),
    *(
        Hole(f"C{i}", "component", "coil pack", (MIDDLE[0] + x, MIDDLE[1] + y), HOLE, "AN3", "#11", "#30")
        for i, (x, y) in enumerate(PATTERN, 1)
    ),
    Hole("L1", "lightening", "", MIDDLE, 40.0, "", "hole saw", "#30"),
)

RECIPE = Recipe(
    kind="accessory plate",
    name="example",
    about="",
    units="mm",
    path=None,
    structure=Structure(TUBES),
    zone=Zone(93.0, True, ("oil",)),
    measuring=Measuring(0.05, True),
    template=Template(("letter", "a4"), ()),
    shop=usual_shop("in"),
    job=PlateJob(
        fastener=Fastener("AN3", "MS21044", 6.35, None),
        clamps=Clamps(
            code="CJ",
            on=("lower", "upper"),
            each=2,
            side="inboard",
            measured=Measured(REACH, SEAT, FEET),
            dash=None,
            at=(),
        ),
        plate=Plate(
            material="6061-T6",
            thickness_mm=THICK,
            outline="rounded rectangle",
            points=(),
            margin_mm=MARGIN,
            corner_radius_mm=6.0,
            toward=(0.0, 0.0, 1.0),
            stand_off_mm=0.0,
            round_to_mm=0.0,
            lightening=(),
            sheet_mm=(609.6, 609.6),
        ),
        carries=(Component("coil pack", 0.635, MIDDLE, 0.0, PATTERN, "AN3", None, 2.0, BODY, 27.94, 1),),
    ),
    assumed=(),
    digest="0" * 16,
)

LAYOUT = PlateLayout(
    recipe=RECIPE,
    frame=FRAME,
    outline=rectangle(),
    thickness_mm=THICK,
    material=ALUMINIUM,
    holes=HOLES,
    clamps=CLAMPS,
    components=(COIL,),
    plate_mass_kg=0.25,
    total_mass_kg=0.885,
    centre_of_gravity=(MIDDLE[0], MIDDLE[1], 20.0),
    hardware=(),
    fit_up=FitUpPlan(
        0.05,
        True,
        tuple(FitUp(h.label, "drill now", 0.01, 0.0127, "", "") for h in HOLES if h.purpose != "lightening"),
        (),
    ),
    assumed=(),
)


def with_hole(label: str, layout: PlateLayout = LAYOUT, **changes: Any) -> PlateLayout:
    """The layout with one hole changed."""
    holes = tuple(replace(h, **changes) if h.label == label else h for h in layout.holes)
    return replace(layout, holes=holes)


def with_clamp(label: str, layout: PlateLayout = LAYOUT, **changes: Any) -> PlateLayout:
    """The layout with one clamp place changed."""
    return replace(
        layout, clamps=tuple(replace(c, **changes) if c.label == label else c for c in layout.clamps)
    )


def with_each_clamp(layout: PlateLayout = LAYOUT, **changes: Any) -> PlateLayout:
    """The layout with the loop clamp itself changed everywhere."""
    return replace(layout, clamps=tuple(replace(c, clamp=replace(c.clamp, **changes)) for c in layout.clamps))


def with_zone(layout: PlateLayout = LAYOUT, **changes: Any) -> PlateLayout:
    """The layout with its zone changed."""
    zone = replace(layout.recipe.zone, **changes)
    return replace(layout, recipe=replace(layout.recipe, zone=zone))


def with_plate(layout: PlateLayout = LAYOUT, **changes: Any) -> PlateLayout:
    """The layout with what the recipe asks of the plate changed."""
    job = layout.recipe.job
    job = replace(job, plate=replace(job.plate, **changes))
    return replace(layout, recipe=replace(layout.recipe, job=job))


def box_at(at: Vec2, length: float, width: float, height: float, name: str = "relay") -> PlacedComponent:
    """A component without bolts, standing at a place of the plate."""
    corners = around(at, length, width)
    return PlacedComponent(name, at, 0.0, 0.1, height / 2, (), (length, width, height), corners, ())


def also(component: PlacedComponent, layout: PlateLayout = LAYOUT) -> PlateLayout:
    """The layout with another component on it."""
    return replace(layout, components=(*layout.components, component))


def braced(*tubes: Tube) -> PlateLayout:
    """The example with other tubes in its structure."""
    return replace(LAYOUT, recipe=replace(LAYOUT.recipe, structure=Structure((*TUBES, *tubes))))
