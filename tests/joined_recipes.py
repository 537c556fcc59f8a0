"""Recipes built by hand, typed, for tests of a component on bushings and of stand-offs. Millimetres."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from clampwright.quantities import Vec2, Vec3
from clampwright.recipe.bushing_model import (
    BushingJob,
    BushingStock,
    ClampsOn,
    Lug,
    MountedComponent,
    Pose,
)
from clampwright.recipe.model import Fastener, Measured, Measuring, Recipe, Template, Zone
from clampwright.recipe.shop import usual_shop
from clampwright.recipe.stand_off_model import CarriedLine, PairClamp, StandOffJob
from clampwright.structure.surroundings import KeepOut, Panel
from clampwright.structure.tubes import Structure, Tube

FASTENER = Fastener("AN3", None, None, None)
STOCK = BushingStock(None, None, None, 1.5, 305.0)
NOT_MEASURED = Measured()
MEASURED = Measured(19.812, 13.1318, 3.2131)
LOW = Tube("low", (0.0, 0.0, 0.0), (500.0, 0.0, 0.0), 19.05)
HIGH = Tube("high", (0.0, 150.0, 8.0), (500.0, 150.0, 8.0), 19.05)
SKEW = Tube("skew", (50.0, -100.0, 60.0), (450.0, 100.0, 60.0), 15.875)
FIREWALL = Panel("firewall", (-50.0, 0.0, 0.0), (1.0, 0.0, 0.0), 0.4826, "304 stainless")
EXHAUST = KeepOut("exhaust", (0.0, 75.0, 200.0), (500.0, 75.0, 200.0), 44.45, 50.0, "engine", "hot")
PATTERN: tuple[Vec2, ...] = ((-40.0, -55.0), (40.0, -55.0), (0.0, 55.0))


def structure(*tubes: Tube, **more: Any) -> Structure:
    """The low and high tube with a firewall and an exhaust, or other tubes."""
    return replace(Structure(tubes or (LOW, HIGH), (FIREWALL,), (EXHAUST,), 8.0), **more)


def recipe(kind: str, job: object, tubes: Structure, **more: Any) -> Recipe:
    """A recipe of any kind, in mm."""
    made = Recipe(
        kind=kind,
        name="by-hand",
        about="",
        units="mm",
        path=None,
        structure=tubes,
        zone=Zone(90.0, True, ("oil",)),
        measuring=Measuring(1.5, False),
        template=Template(("letter", "a4"), ()),
        shop=usual_shop("mm"),
        job=job,
        assumed=(),
        digest="0123456789abcdef",
    )
    return replace(made, **more)


def bushing_job(**more: Any) -> BushingJob:
    """A separator with three lugs, somewhere above the tubes."""
    lugs = tuple(Lug(at, 3.0, 0.0) for at in PATTERN)
    component = MountedComponent("separator", 0.5, lugs, 5.2, (100.0, 130.0, 90.0), 0.0, None, "mount")
    pose = Pose((250.0, 75.0, 30.0), 60.0, (0.0, 0.0, 1.0), (1.0, 0.0, 0.0), None, False, 6.0)
    job = BushingJob(
        FASTENER, component, pose, ClampsOn(("low", "high"), None, MEASURED, None, ()), STOCK, show=3
    )
    return replace(job, **more)


def bushing_recipe(tubes: Structure | None = None, **more: Any) -> Recipe:
    """The separator on the low and high tube."""
    return recipe("component bushings", bushing_job(**more), tubes or structure())


def carried(**more: Any) -> CarriedLine:
    """A hose of 20 mm that crosses over the low tube."""
    line = CarriedLine(
        name="oil hose",
        what="hose",
        od_mm=20.0,
        hose_dash=None,
        wires=(),
        sleeve_mm=0.0,
        point=(250.0, -100.0, 40.0),
        to=(300.0, 100.0, 40.0),
        direction=None,
        beside_mm=None,
        toward=None,
        next_supports_mm=None,
        rides_on="mount",
        line=12,
    )
    return replace(line, **more)


def stand_off_job(**more: Any) -> StandOffJob:
    """The hose held off the low tube."""
    clamp = PairClamp(None, MEASURED, None)
    job = StandOffJob(FASTENER, "low", None, None, carried(), clamp, clamp, None, None, STOCK)
    return replace(job, **more)


def stand_off_recipe(tubes: Structure | None = None, **more: Any) -> Recipe:
    """The hose held off the low tube by a pair of clamps."""
    return recipe("stand-off", stand_off_job(**more), tubes or structure())


def parallel(beside_mm: float, toward: Vec3) -> CarriedLine:
    """The hose beside the low tube."""
    return carried(point=None, to=None, beside_mm=beside_mm, toward=toward)
