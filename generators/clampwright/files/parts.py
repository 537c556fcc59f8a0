"""Every file of the parts themselves: STEP, STL and DXF. Loads the CAD kernel."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from clampwright.files.dxf import cut_dxf, marks_dxf
from clampwright.files.made_bushings import bushing_solids
from clampwright.files.preflight import refuse_unfit
from clampwright.files.solid_files import assembly_file, solid_files, warning
from clampwright.files.step_material import sheet_material
from clampwright.files.written import Written
from clampwright.layout.placed import PlateLayout
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.solids.assembly import plate_of
from clampwright.solids.body import Body
from clampwright.solids.place import Place


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
    NotWatertight, NotFitForCutting, NotAsMade
        Where a file does not come out as it must: then no file should be kept.
    """
    name, sheet = layout.recipe.name, sheet_material(layout.material)
    plate = replace(plate_of(bodies), place=Place())
    yield from solid_files(plate, name, _about_plate(layout, verdict), sheet)
    yield from bushing_solids(layout, verdict)
    yield assembly_file(layout.recipe.name, "plate and bushings", bodies, verdict)
    yield from flat_files(layout, verdict)


def flat_files(layout: PlateLayout, verdict: str = "pass") -> Iterator[Written]:
    """The flat pattern: to cut, to cut with pilots where holes are transferred in place, and to read."""
    name, about = layout.recipe.name, _about_plate(layout, verdict)
    pilots = pilot_diameters(layout)
    also = f", also {' '.join(pilots)}, which the drawing has as pilots" if pilots else ""
    yield _cut(layout, f"{name}-cut.dxf", f"{about}: contours to cut, all holes at final size{also}", {})
    if pilots:
        which = " ".join(pilots)
        yield _cut(
            layout, f"{name}-cut-pilots.dxf", f"{about}: contours to cut, holes {which} as pilots", pilots
        )
    about = f"{about}: hole labels and datum, not for cutting"
    yield Written(f"{name}-marks.dxf", marks_dxf(layout, about), about)


def pilot_diameters(layout: PlateLayout) -> dict[str, float]:
    """Pilot diameter of each hole that the shop leaves at its pilot, mm."""
    return {h.label: h.made_mm for part in flat_parts(layout) for h in part.holes if h.piloted}


def _cut(layout: PlateLayout, name: str, about: str, diameters: dict[str, float]) -> Written:
    data = cut_dxf(layout, about, diameters)
    refuse_unfit(data, layout, diameters)
    facts = (
        ("contours", 1 + len(layout.holes)),
        ("unit", "mm"),
        ("outline_area_mm2", layout.outline.area_mm2()),
    )
    return Written(name, data, about, facts)


def _about_plate(layout: PlateLayout, verdict: str) -> str:
    what = f"Plate {layout.recipe.name}, {layout.material.name}, {layout.thickness_mm:g} mm"
    return what + warning(verdict)
