"""Solids of a pack: STEP of every part and of what is made, meshes to print a fit check from."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from clampwright.files.exchange import flat_exchange, made_parts_exchange, turned_exchange
from clampwright.files.fit_check import fit_check_files
from clampwright.files.pack.bay import Job
from clampwright.files.pack.contents import Contents, recipes_of
from clampwright.files.pack.from_kernel import Solids
from clampwright.files.pack.no_part_of import making
from clampwright.files.pack.placed_file import PlacedFile, placed
from clampwright.files.solid_files import warning
from clampwright.files.written import Written
from clampwright.solids.body import Body
from clampwright.solids.mesh import HEAD

STEP, FIT_CHECK = "step", "fit-check"
_STOP = "DO NOT MAKE: A CHECK FAILS. "


def model_files(contents: Contents, solids: Solids) -> Iterator[PlacedFile]:
    """STEP by AP242 and AP214 of each part and of each recipe's made parts; STL and 3MF.

    Raises
    ------
    NoPartOf
        A file that does not read back as the part that its drawing tells.
    """
    for part in contents.flat:
        job, bodies = contents.job(part.recipe), solids.of[part.recipe].bodies
        with making(part.recipe):
            yield from placed(STEP, flat_exchange(part, bodies, job.verdict), part.number)
    for group in contents.turned:
        verdict = "fail" if contents.fails(group) else "pass"
        with making(*recipes_of(group)):
            yield from placed(STEP, turned_exchange(group, group.number, verdict), group.number)
    for job in contents.bay.jobs:
        if not job.no_part_because:
            with making(job.recipe.name):
                yield from _of_recipe(job, solids.of[job.recipe.name].bodies, contents)


def _of_recipe(job: Job, bodies: Sequence[Body], contents: Contents) -> Iterator[PlacedFile]:
    """Its made parts where they sit, and its meshes."""
    yield from placed(STEP, made_parts_exchange(job.layout, bodies, job.verdict))
    for file in fit_check_files(job.layout, bodies, job.verdict):
        of = _part_of(file, job, contents)
        yield PlacedFile(FIT_CHECK, _told(file, of, job), of)


def _told(file: Written, of: str, job: Job) -> Written:
    """In words which part it is. A mesh has 80 bytes of them: where it is not to be made they say that."""
    about = f"{of or f'one set of {job.recipe.name}'}, to print and try on{warning(job.verdict)}"
    if not job.failing or not file.name.endswith(".stl"):
        return replace(file, about=about)
    said = f"{_STOP}{job.recipe.name}"[:HEAD].ljust(HEAD).encode("ascii", "replace")
    return replace(file, about=about, data=said + file.data[HEAD:])


def _part_of(file: Written, job: Job, contents: Contents) -> str:
    """Number of the part that a mesh shows; "" where it is of several."""
    name, recipe = file.name, job.recipe.name
    for part in contents.flat:
        if name == f"{part.number}-fit-check.stl":
            return part.number
    for group in contents.turned:
        marks = [own.mark for own in group.belongs if own.recipe == recipe]
        if any(name == f"{recipe}-bushing-{mark}-fit-check.stl" for mark in marks):
            return group.number
    return ""
