"""The parts list of a pack: every made part with its number, quantity, material, weight and files."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.files.csv_text import csv_bytes, mm, stands
from clampwright.files.pack.contents import DRAWINGS, Contents
from clampwright.files.written import Written
from clampwright.layout.shop.told import FlatPart, TurnedGroup
from clampwright.sheets.both_units import both
from clampwright.sheets.figures import distance
from clampwright.sheets.shop.size_words import OTHER

NAME = "parts-list.csv"
COLUMNS = (
    *("part_number", "title", "quantity", "material", "stock", "size", "thickness_mm", "length_mm"),
    *("mass_each_g", "mass_total_g", "finish", "for", "revision", "files", "check"),
)


def parts_list(contents: Contents) -> Written:
    """One line a part: flat parts first, then turned ones, which are made alike for all recipes."""
    rows = [*(_flat(part, contents) for part in contents.flat)]
    rows += [_turned(group, contents) for group in contents.turned]
    about = "Parts to make: number, quantity of all sets, material, weight, and their files"
    return Written(NAME, csv_bytes(COLUMNS, rows), about, (("lines", len(rows)),))


def _flat(part: FlatPart, contents: Contents) -> dict[str, str]:
    return {
        "part_number": part.number,
        "title": part.title,
        "quantity": str(part.quantity),
        "material": part.material.name,
        "stock": f"{part.material.form}, {both(part.thickness_mm, part.units)}",
        "size": flat_size(part),
        "thickness_mm": mm(part.thickness_mm),
        **_mass(part.mass_kg, part.quantity),
        "finish": part.shop.finish or "none",
        "for": part.recipe,
        "revision": part.digest,
        "files": "; ".join(each.path for each in contents.of(part.number)),
        "check": stands(contents.fails(part)),
    }


def _turned(group: TurnedGroup, contents: Contents) -> dict[str, str]:
    sheet = contents.sheet_of(group)
    shared = [f.path for f in contents.files if f.folder == DRAWINGS and f.file.name.split(".")[0] == sheet]
    return {
        "part_number": group.number,
        "title": turned_title(group, contents.units_of(group)),
        "quantity": str(group.quantity),
        "material": group.material,
        "stock": group.stock,
        "size": turned_size(group, contents.units_of(group)),
        "length_mm": mm(group.length_mm),
        **_mass(group.mass_each_kg, group.quantity),
        "finish": " / ".join(finishes(group, contents)),
        "for": "; ".join(f"{each.recipe} {each.mark}: {each.quantity}" for each in group.belongs),
        "revision": "; ".join(dict.fromkeys(each.digest for each in group.belongs)),
        "files": "; ".join((*shared, *(each.path for each in contents.of(group.number)))),
        "check": stands(contents.fails(group)),
    }


def finishes(group: TurnedGroup, contents: Contents) -> Iterator[str]:
    """Finishes that the recipes of a group ask for, each once."""
    asked = (contents.job(each.recipe).recipe.shop.finish or "none" for each in group.belongs)
    yield from dict.fromkeys(asked)


def flat_size(part: FlatPart) -> str:
    """The outline's box, in the unit of the part's drawing, in the other one behind.

    A part with bends is so large before it is bent.
    """
    x0, y0, x1, y1 = part.outline.box()
    flat = " flat" if part.bends else ""
    first, other = (
        f"{distance(x1 - x0, unit)} x {distance(y1 - y0, unit)} {unit}"
        for unit in (part.units, OTHER[part.units])
    )
    return f"{first} ({other}){flat}"


def turned_title(group: TurnedGroup, units: str) -> str:
    """What a turned part is, in a few words, in the unit of its drawing and the other one."""
    return f"Bushing {both(group.length_mm, units)} long{', left long' if group.trim else ''}"


def turned_size(group: TurnedGroup, units: str) -> str:
    """Outside, bore and length, in the unit of its drawing and the other one."""
    sizes = (group.od_mm, group.bore_mm, group.length_mm)
    outside, bore, long = (both(size, units) for size in sizes)
    return f"{outside} OD x {bore} bore x {long} long"


def _mass(each_kg: float, quantity: int) -> dict[str, str]:
    return {"mass_each_g": f"{each_kg * 1e3:.1f}", "mass_total_g": f"{each_kg * quantity * 1e3:.1f}"}
