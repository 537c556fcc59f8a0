"""Recipes built by hand for the layout tests: everything in millimetres, radians and kilograms."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import numpy.typing as npt

from clampwright.quantities import Vec2, Vec3
from clampwright.recipe.model import (
    ClampAt,
    Clamps,
    Component,
    Fastener,
    Lightening,
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

Array = npt.NDArray[np.float64]

REACH, SEAT, FEET = 20.0, 13.0, 2.6
MEASURED = Measured(REACH, SEAT, FEET)
UP: Vec3 = (0.0, 0.0, 1.0)


def tube(name: str, start: Vec3, end: Vec3, od_mm: float = 19.05) -> Tube:
    return Tube(name, start, end, od_mm)


def at(
    name: str, station_mm: float | None, side: str = "inboard", measured: Measured = MEASURED, line: int = 0
) -> ClampAt:
    return ClampAt(name, station_mm, side, measured, None, line)


def component(
    name: str = "coil pack",
    where: Vec2 | None = None,
    *,
    turn_rad: float = 0.0,
    holes: tuple[Vec2, ...] = (),
    body: tuple[float, float, float] | None = (60.0, 40.0, 50.0),
    mass_kg: float = 0.6,
    cg_height_mm: float | None = None,
) -> Component:
    return Component(name, mass_kg, where, turn_rad, holes, "AN3", None, 3.0, body, cg_height_mm, line=0)


def plate(
    *,
    outline: str = "rounded rectangle",
    points: tuple[Vec2, ...] = (),
    margin_mm: float | None = 12.0,
    corner_radius_mm: float | None = 5.0,
    toward: Vec3 | None = UP,
    stand_off_mm: float = 0.0,
    round_to_mm: float = 0.0,
    lightening: tuple[Lightening, ...] = (),
) -> Plate:
    return Plate(
        material="6061-T6",
        thickness_mm=2.0,
        outline=outline,
        points=points,
        margin_mm=margin_mm,
        corner_radius_mm=corner_radius_mm,
        toward=toward,
        stand_off_mm=stand_off_mm,
        round_to_mm=round_to_mm,
        lightening=lightening,
        sheet_mm=None,
    )


def recipe(
    tubes: tuple[Tube, ...],
    clamps_at: tuple[ClampAt, ...] = (),
    *,
    on: tuple[str, ...] | None = None,
    each: int = 2,
    side: str = "inboard",
    measured: Measured = MEASURED,
    carries: tuple[Component, ...] = (),
    sheet: Plate | None = None,
    units: str = "mm",
) -> Recipe:
    names = tuple(t.name for t in tubes)
    job = PlateJob(
        fastener=Fastener("AN3", "MS21042", None, None),
        clamps=Clamps("CH", on if on is not None else names, each, side, measured, None, clamps_at),
        plate=sheet if sheet is not None else plate(),
        carries=carries,
    )
    return Recipe(
        kind="accessory plate",
        name="hand-case",
        about="",
        units=units,
        path=None,
        structure=Structure(tubes),
        zone=Zone(90.0, True, ()),
        measuring=Measuring(1.5, True),
        template=Template(("a4",), ()),
        shop=usual_shop("mm"),
        job=job,
        assumed=(),
        digest="0" * 16,
    )


def with_plate(given: Recipe, **changes: object) -> Recipe:
    sheet = replace(given.job.plate, **changes)  # type: ignore[arg-type]
    return replace(given, job=replace(given.job, plate=sheet))


def with_clamps(given: Recipe, **changes: object) -> Recipe:
    clamps = replace(given.job.clamps, **changes)  # type: ignore[arg-type]
    return replace(given, job=replace(given.job, clamps=clamps))


PARALLEL = (
    tube("lower", (0.0, 0.0, 0.0), (500.0, 0.0, 0.0)),
    tube("upper", (0.0, 150.0, 0.0), (500.0, 150.0, 0.0)),
)
"""Side by side, 150 mm apart."""
