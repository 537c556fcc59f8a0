"""The shop's part of the read-me: how many of what, which file is which, units, tolerances, material."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.files.pack.contents import Contents
from clampwright.files.pack.parts_list import finishes, flat_size, turned_size
from clampwright.files.pack.plain_text import columns, paragraph, title
from clampwright.layout.shop.told import FlatPart, TurnedGroup
from clampwright.quantities import show_mass
from clampwright.recipe.model import Shop
from clampwright.sheets.both_units import both
from clampwright.sheets.shop.block_words import mass_words
from clampwright.sheets.shop.stuff_words import material_words
from clampwright.trade.general_tolerances import block_words

_HEAD = ("part", "off", "what")


def parts(contents: Contents) -> Iterator[str]:
    """How many of what, of which material, by which drawing."""
    yield from title("HOW MANY OF WHAT")
    rows = [_HEAD]
    rows += [(p.number, str(p.quantity), _what_flat(p, contents)) for p in contents.flat]
    rows += [(g.number, str(g.quantity), _what_turned(g, contents)) for g in contents.turned]
    for job in contents.bay.jobs:
        for why in job.no_part_because:
            yield from paragraph(f"No part of it can be made, because {why}.", first=f"{job.recipe.name}: ")
    if len(rows) == 1:
        bought = all(not job.no_part_because for job in contents.bay.jobs)
        yield from paragraph("Nothing is to be made" + (": all parts are bought." if bought else "."))
        return
    yield from columns(rows)
    yield ""
    if contents.turned:
        yield from paragraph(_sheets_said(contents))
    yield from paragraph("Quantities count all sets. lists/parts-list.csv says the same for a spreadsheet.")


def _sheets_said(contents: Contents) -> str:
    """Where bushings stand, and why on several sheets where they do."""
    sheets = " and ".join(f"drawings/{turning.name}.pdf" for turning in contents.turnings)
    if len(contents.turnings) == 1:
        return (
            f"Bushings are a line each of the turning sheet, {sheets}. Those that are alike are one line, "
            "whichever recipe they are for."
        )
    return (
        f"Bushings are a line each of {len(contents.turnings)} turning sheets, {sheets}: their recipes ask "
        "for other units, finish, tolerances, edge break, paper or projection. Those that are alike are one "
        "line of their sheet; the same size may stand on another sheet too, and is made for both."
    )


def _what_flat(part: FlatPart, contents: Contents) -> str:
    drawing = "".join(
        f"; {each.path}" for each in contents.of(part.number) if each.file.name.endswith(".pdf")
    )
    thick, mass = both(part.thickness_mm, part.units), mass_words(part.mass_kg, part.units)
    said = f"{part.title}, {flat_size(part)}, {part.material.name} {thick}, {mass}"
    return f"{said}{drawing}{_stop(part, contents)}"


def _what_turned(group: TurnedGroup, contents: Contents) -> str:
    size, mass = turned_size(group, contents.units_of(group)), show_mass(group.mass_each_kg, "g")
    return f"Bushing, {size}, {group.material}, {mass}{_stop(group, contents)}"


def _stop(part: FlatPart | TurnedGroup, contents: Contents) -> str:
    """Behind each part of a recipe with a failing check."""
    return " -- DO NOT MAKE: A CHECK FAILS" if contents.fails(part) else ""


def which_file(contents: Contents) -> Iterator[str]:
    """Folders, and which governs."""
    yield from title("WHICH FILE IS WHICH, AND WHICH GOVERNS")
    there = {each.folder for each in contents.files}
    nests = contents.nest is not None and bool(contents.nest.sheets)
    said = dict(_FOLDERS) | {"drawings": _drawings_said(contents)}
    said |= {} if nests else {"cutting": _NOT_NESTED}
    rows = [(f"{folder}/", what) for folder, what in said.items() if folder in there]
    yield from columns(rows)
    if "step" in there:
        yield ""
        yield from paragraph(
            "In step/, *-made-parts-* shows all made parts of a recipe where they sit, and how they belong "
            "together. There and in fit-check/ a bushing that is left long has the length it is trimmed to; "
            "T1, T2 ... are as you make them."
        )
    if "drawings" not in there:
        return
    yield ""
    yield from paragraph(
        "The PDF drawing governs: sizes, tolerances, material, finish, quantity and revision stand there. "
        "Solids and cutting files are the same part at nominal size, and were compared with the drawing when "
        "this was packed. If two files disagree all the same, stop and ask; make nothing from either."
    )


def _drawings_said(contents: Contents) -> str:
    count = len(contents.turnings)
    said = ["PDF and DXF drawing of each flat part"] if contents.flat else []
    if count:
        said.append(f"{'the turning sheet' if count == 1 else f'{count} turning sheets'} of bushings")
    return f"{'; '.join(said)}. These govern."


_NOT_NESTED = "flat patterns to cut, one part a DXF"
_FOLDERS = (
    ("drawings", ""),
    ("step", "solids: *-ap242.step, or *-ap214.step where your system does not read that"),
    ("cutting", f"{_NOT_NESTED}; the same nested on sheets, with a picture and a list"),
    ("fit-check", "STL and 3MF, to print one in plastic and try it on first. Not to make parts from."),
    ("lists", "parts list, cut list of bars, order list"),
    ("inspection", "for the aircraft's next mechanic; not for the shop"),
    ("findings", "what the checks found; not for the shop"),
)


def terms(contents: Contents) -> Iterator[str]:
    """Units, tolerances, material and finish."""
    yield from title("UNITS, TOLERANCES, MATERIAL, FINISH")
    yield from paragraph(_units(contents), first="- ")
    for shop, who in _by_shop(contents):
        whose = "" if len(_by_shop(contents)) == 1 else f" ({', '.join(who)})"
        units = contents.job(who[0]).recipe.units
        said = "; ".join(block_words(shop, units)[1:])
        yield from paragraph(
            f"Where a drawing says nothing beside a size{whose}: {said}. Tighter ones stand at their size, "
            "with the reason. They are asked for only where a fit needs them.",
            first="- ",
        )
    for material in _materials(contents):
        yield from paragraph(material, first="- ")
    yield from paragraph(_finish(contents), first="- ")


def _units(contents: Contents) -> str:
    units = {part.units for part in contents.flat} | {contents.units_of(group) for group in contents.turned}
    said = (
        "inches" if units == {"in"} else "millimetres" if units == {"mm"} else "the unit in their title block"
    )
    projection = " and ".join(dict.fromkeys(job.recipe.shop.projection for job in contents.bay.jobs))
    return (
        f"Drawings are in {said}. STEP, DXF, STL and 3MF are in millimetres at 1:1, whatever the drawing is "
        "in; only the DXF in drawings/ is the sheet itself, in millimetres of its paper: cut from cutting/ "
        f"alone. Do not measure off the drawings. Projection: {projection} angle."
    )


def _by_shop(contents: Contents) -> list[tuple[Shop, list[str]]]:
    """Recipes by their general tolerance."""
    groups: dict[tuple[str, str], tuple[Shop, list[str]]] = {}
    for job in contents.bay.jobs:
        shop = job.recipe.shop
        groups.setdefault((shop.tolerances, job.recipe.units), (shop, []))[1].append(job.recipe.name)
    return list(groups.values())


def _materials(contents: Contents) -> Iterator[str]:
    for part in contents.flat:
        said = material_words(part.material.name, part.specification, part.specification_source)
        yield f"{part.number}: {said}, sheet {both(part.thickness_mm, part.units)}, in the temper named."
    for group in {group.stock: group for group in contents.turned}.values():
        numbers = ", ".join(g.number for g in contents.turned if g.stock == group.stock)
        stock = group.stock.removesuffix(f", {group.material}")
        said = material_words(group.material, group.specification, group.specification_source)
        yield f"{numbers}: {said}; from {stock}."


def _finish(contents: Contents) -> str:
    asked: dict[str, dict[str, None]] = {}
    for part in contents.flat:
        asked.setdefault(part.shop.finish or "none", {})[part.number] = None
    for group in contents.turned:
        asked.setdefault(" / ".join(finishes(group, contents)), {})[group.number] = None
    said = [f"{', '.join(numbers)}: {finish}" for finish, numbers in asked.items()]
    if list(asked) == ["none"]:
        return "Finish: none is asked for. Leave the parts as machined, clean and dry."
    return f"Finish: {'; '.join(said)}."
