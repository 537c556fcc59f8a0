"""Cutting files: the flat pattern of each part, and all of them nested on sheets."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.files.dxf import cut_dxf
from clampwright.files.pack.bay import Job
from clampwright.files.pack.contents import CUTTING
from clampwright.files.pack.no_part_of import making
from clampwright.files.pack.placed_file import PlacedFile
from clampwright.files.preflight import refuse_unfit
from clampwright.files.solid_files import warning
from clampwright.files.written import Written
from clampwright.layout.placed import PlateLayout
from clampwright.layout.shop.told import FlatPart


def flat_pattern(part: FlatPart, job: Job) -> Iterator[PlacedFile]:
    """The flat pattern of a part at 1:1: pilots where the drawing says so, all other holes at final size.

    Raises
    ------
    NoPartOf
        The file is not what the layout says.
    """
    if not isinstance(job.layout, PlateLayout):
        raise TypeError(f"{part.number} is cut from sheet, but {job.recipe.kind} has no flat pattern")
    pilots = {hole.label: hole.made_mm for hole in part.holes if hole.piloted}
    holes = (
        f"holes {' '.join(pilots)} as pilots, all others at final size" if pilots else "holes at final size"
    )
    about = (
        f"{part.number}, {part.material.name}, {part.thickness_mm:g} mm, {part.quantity} off: contours to "
        f"cut, 1:1 in mm, {holes}{warning(job.verdict)}"
    )
    data = cut_dxf(job.layout, about, pilots)
    with making(part.recipe):
        refuse_unfit(data, job.layout, pilots)
    facts = (("contours", 1 + len(part.holes)), ("unit", "mm"), ("outline_area_mm2", part.outline.area_mm2()))
    yield PlacedFile(CUTTING, Written(f"{part.number}-cut.dxf", data, about, facts), part.number)
