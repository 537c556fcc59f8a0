"""Everything that goes into a pack, in order, and the zip of it. Loads the CAD kernel."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from clampwright.files.findings_json import summary
from clampwright.files.json_text import Json
from clampwright.files.manifest import manifest_of
from clampwright.files.pack.bay import Bay
from clampwright.files.pack.bay_cuts import bay_cut_list, bay_cuts
from clampwright.files.pack.contents import LISTS, Contents
from clampwright.files.pack.cutting import flat_pattern
from clampwright.files.pack.drawings import drawing_files
from clampwright.files.pack.findings_files import findings_files
from clampwright.files.pack.from_kernel import Solids, solids_of
from clampwright.files.pack.inspection import inspection_files
from clampwright.files.pack.models import model_files
from clampwright.files.pack.nested import nested
from clampwright.files.pack.no_part_of import NoPartOf
from clampwright.files.pack.order_list import order_list
from clampwright.files.pack.parts_list import parts_list
from clampwright.files.pack.placed_file import FOLDERS, PlacedFile, as_listed, placed
from clampwright.files.pack.read_me import read_me
from clampwright.files.pack.stock_lines import StockLine, bar_lines, blank_lines, sheet_lines
from clampwright.files.pack.turned_parts import turnings
from clampwright.files.pack.zipped import zipped
from clampwright.layout.shop.flat_parts import flat_parts

Step = Callable[[str], None]
Refuse = Callable[[Bay], None]


@dataclass(frozen=True, slots=True)
class Made:
    """The zip, the paths in it, and the bay with what only its solids could show."""

    data: bytes
    files: tuple[str, ...]
    bay: Bay
    not_nested: str = ""
    """Why flat parts are not nested."""


def pack_files(bay: Bay, step: Step, refuse: Refuse) -> Made:
    """Every file of a pack as one zip.

    Parameters
    ----------
    bay : Bay
        What is packed.
    step : Callable[[str], None]
        Told what is being done.
    refuse : Callable[[Bay], None]
        Called with all findings, those of the solids among them, before anything is drawn; it raises where
        the pack is not to be written.
    """
    bay, solids = solids_of(bay, step)
    refuse(bay)
    contents = _with_lists(_as_far_as_it_goes(bay, solids, step, refuse), solids)
    listed = as_listed(contents.files)
    files = (*listed, manifest_of(_made_from(contents), listed))
    data = zipped(contents.bay.name, files)
    return Made(data, tuple(file.name for file in files), contents.bay, contents.not_nested)


def _as_far_as_it_goes(bay: Bay, solids: Solids, step: Step, refuse: Refuse) -> Contents:
    """The files of the parts; a recipe one of whose own cannot be made fails, and gives no part at all.

    Each round takes at least one recipe's parts away, so there is an end to it.
    """
    while True:
        try:
            return _made(bay, solids, step)
        except NoPartOf as none:
            bay = bay.without_parts_of(none.recipes, none.why, none.own_fault)
            refuse(bay)


def _made(bay: Bay, solids: Solids, step: Step) -> Contents:
    """Drawings, solids and cutting files."""
    able = [job for job in bay.jobs if not job.no_part_because]
    flat = tuple(part for job in able for part in flat_parts(job.layout))
    sheets = turnings(bay)
    groups = tuple(group for sheet in sheets for group in sheet.groups)
    contents = Contents(bay, flat, sheets, bay_cuts(bay, groups), None, ())
    step("drawings")
    drawings = tuple(drawing_files(contents))
    step("solids for the shop")
    models = tuple(model_files(contents, solids))
    step("nesting")
    patterns = tuple(file for part in flat for file in flat_pattern(part, contents.job(part.recipe)))
    found = nested(contents, step)
    files = (*drawings, *models, *patterns, *found.files)
    return replace(contents, nest=found.nest, files=files, not_nested=found.not_nested)


def _with_lists(contents: Contents, solids: Solids) -> Contents:
    """Lists, inspection page and findings; the read-me, which names them all, first of all."""
    bay = contents.bay
    lists = [parts_list(contents)]
    if contents.cuts:
        lists.append(bay_cut_list(bay, contents.cuts))
    lists.append(order_list(bay, _stock(contents)))
    files = (
        *contents.files,
        *placed(LISTS, lists),
        *placed("inspection", inspection_files(bay)),
        *placed("findings", findings_files(bay)),
        *solids.measured(),
    )
    contents = replace(contents, files=tuple(sorted(files, key=lambda each: FOLDERS.index(each.folder))))
    return replace(contents, files=(PlacedFile("", read_me(contents)), *contents.files))


def _stock(contents: Contents) -> Iterator[StockLine]:
    units = contents.bay.units
    yield from bar_lines(contents.cuts, units)
    if contents.nest is not None:
        yield from sheet_lines(contents.nest, units)
    yield from blank_lines(contents.flat, contents.nest, units)


def _made_from(contents: Contents) -> Json:
    """What a pack was made from, and how it stands: the head of its manifest."""
    bay = contents.bay
    return {
        "pack": {"name": bay.name, "digest": bay.digest, "do_not_make": bool(bay.failing)},
        "recipes": [
            {
                "name": job.recipe.name,
                "kind": job.recipe.kind,
                "digest": job.recipe.digest,
                "sets": job.recipe.shop.quantity,
                **summary(job.findings),
                "failing": [f"{f.code} {f.where}: {f.says}" for f in job.failing],
                "no_part_because": list(job.no_part_because),
            }
            for job in bay.jobs
        ],
        **summary(bay.findings),
        "not_nested": contents.not_nested,
        "parts": [{"number": part.number, "quantity": part.quantity} for part in contents.flat]
        + [{"number": group.number, "quantity": group.quantity} for group in contents.turned],
    }
