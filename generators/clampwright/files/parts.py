"""Every file of the parts themselves: STEP, STL and DXF. Loads the CAD kernel."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from clampwright.files.dxf import cut_dxf, marks_dxf
from clampwright.files.preflight import refuse_unfit
from clampwright.files.step import step_assembly, step_part
from clampwright.files.stl import stl
from clampwright.files.written import Written
from clampwright.layout.fit_up import PILOT
from clampwright.layout.placed import PlateLayout
from clampwright.solids.assembly import bushings, plate_of
from clampwright.solids.body import Body
from clampwright.solids.measure import volume_mm3
from clampwright.solids.place import Place
from clampwright.trade.holes import drill


def part_files(layout: PlateLayout, bodies: Sequence[Body], verdict: str = "pass") -> Iterator[Written]:
    """The plate, each bushing, the assembly, and the flat pattern, in this order, as they are made.

    Parameters
    ----------
    layout : PlateLayout
        What is to be made.
    bodies : Sequence[Body]
        The assembly of the layout.
    verdict : str
        Of the checks. Where one fails every file says inside that it is not to be made.

    Raises
    ------
    NotWatertight, NotFitForCutting
        Where a file does not come out as it must: then no file should be kept.
    """
    name = layout.recipe.name
    yield from solid_files(replace(plate_of(bodies), place=Place()), name, _about_plate(layout, verdict))
    for bushing in bushings(layout):
        about = f"{bushing.product}, for {bushing.name.removeprefix('bushing ')}{warning(verdict)}"
        yield from solid_files(bushing, f"{name}-{bushing.name.replace(' ', '-')}", about)
    yield assembly_file(layout.recipe.name, "plate and bushings", bodies, verdict)
    yield from flat_files(layout, verdict)


def flat_files(layout: PlateLayout, verdict: str = "pass") -> Iterator[Written]:
    """The flat pattern: to cut, to cut with pilots where holes are transferred in place, and to read."""
    name, about = layout.recipe.name, _about_plate(layout, verdict)
    yield _cut(layout, f"{name}-cut.dxf", f"{about}: contours to cut, holes at final size", {})
    pilots = pilot_diameters(layout)
    if pilots:
        which = " ".join(pilots)
        yield _cut(
            layout, f"{name}-cut-pilots.dxf", f"{about}: contours to cut, holes {which} as pilots", pilots
        )
    about = f"{about}: hole labels and datum, not for cutting"
    yield Written(f"{name}-marks.dxf", marks_dxf(layout, about), about)


def pilot_diameters(layout: PlateLayout) -> dict[str, float]:
    """Pilot diameter of each hole that the fit-up plan transfers in place, mm."""
    transferred = {fit.hole for fit in layout.fit_up.holes if fit.way == PILOT}
    return {
        hole.label: drill(hole.pilot).diameter_mm
        for hole in layout.holes
        if hole.label in transferred and hole.pilot
    }


def _cut(layout: PlateLayout, name: str, about: str, diameters: dict[str, float]) -> Written:
    data = cut_dxf(layout, about, diameters)
    refuse_unfit(data, layout, diameters)
    facts = (
        ("contours", 1 + len(layout.holes)),
        ("unit", "mm"),
        ("outline_area_mm2", layout.outline.area_mm2()),
    )
    return Written(name, data, about, facts)


def solid_files(body: Body, name: str, about: str) -> Iterator[Written]:
    """STEP and STL of one part, under this name."""
    volume = volume_mm3(body.shape)
    step_name, stl_name = f"{name}.step", f"{name}.stl"
    yield Written(step_name, step_part(body, step_name, about), about, (("volume_mm3", volume),))
    mesh = stl(body.placed(), name)
    facts = (
        ("volume_mm3", mesh.volume_mm3),
        ("volume_of_solid_mm3", volume),
        ("chord_error_mm", mesh.chord_mm),
        ("triangles", mesh.count),
        ("watertight", "yes"),
    )
    yield Written(stl_name, mesh.data, about, facts)


def assembly_file(recipe: str, made: str, bodies: Sequence[Body], verdict: str) -> Written:
    """STEP of every body where it sits; `made` says in words which are parts and not for reference only."""
    name = f"{recipe}-assembly.step"
    about = f"{recipe} where it sits, all but {made} for reference only"
    about += warning(verdict)
    data = step_assembly(bodies, f"{recipe} assembly", name, about)
    return Written(name, data, about, (("bodies", len(bodies)),))


def _about_plate(layout: PlateLayout, verdict: str) -> str:
    what = f"Plate {layout.recipe.name}, {layout.material.name}, {layout.thickness_mm:g} mm"
    return what + warning(verdict)


def warning(verdict: str) -> str:
    """What stands inside every file of a part where a check fails."""
    return " (A CHECK FAILS: DO NOT MAKE)" if verdict == "fail" else ""
