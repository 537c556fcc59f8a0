"""Meshes of the made parts, to print them in plastic and try them on before metal is cut."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from clampwright.files.exchange import flat_body
from clampwright.files.solid_files import warning
from clampwright.files.stl import stl
from clampwright.files.three_mf import ToPrint, three_mf
from clampwright.files.written import Written
from clampwright.layout.bushing_parts import BushingPart
from clampwright.layout.cut_long import as_marked
from clampwright.layout.joined import Joined
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.solids.body import Body
from clampwright.solids.bushing import bushing_body
from clampwright.solids.measure import volume_mm3

PURPOSE = "For a fit check in plastic, not to make parts from"


def fit_check_files(layout: Joined, bodies: Sequence[Body], verdict: str = "pass") -> Iterator[Written]:
    """An STL of each part, then one 3MF with as many of each as one set takes.

    Bushings have the length that they are finished to, plates their holes at final size. No flat strays
    further from the true surface than the recipe allows (`shop.chord_error`).

    Parameters
    ----------
    layout : Joined
        Of any kind.
    bodies : Sequence[Body]
        Its assembly.
    verdict : str
        Of the checks. Where one fails every file's words say that it is not to be made.

    Raises
    ------
    NotWatertight
        Where the triangles of a part leave a gap: then no file should be kept.
    """
    parts = to_print(layout, bodies)
    if not parts:
        return
    recipe, chord = layout.recipe.name, layout.recipe.shop.chord_error_mm
    about = PURPOSE + warning(verdict)
    for part in parts:
        yield _stl(part.body, f"{part.body.name.replace(' ', '-')}-fit-check", about, chord)
    made = three_mf(parts, f"{recipe}, fit check", about, chord)
    facts = (
        ("parts", len(parts)),
        ("pieces", sum(part.copies for part in parts)),
        ("chord_error_mm", made.chord_mm),
        ("volume_mm3", sum(v * part.copies for part, (_, v) in zip(parts, made.volumes_mm3, strict=True))),
        ("triangles", made.triangles),
        ("watertight", "yes"),
    )
    yield Written(f"{recipe}-fit-check.3mf", made.data, about, facts)


def to_print(layout: Joined, bodies: Sequence[Body]) -> tuple[ToPrint, ...]:
    """The parts of one set, each in its own frame; named after the recipe, as its files are."""
    flat = [ToPrint(flat_body(part, bodies)) for part in flat_parts(layout)]
    return (*flat, *(_bushing(layout.recipe.name, part) for part in as_marked(layout)))


def _bushing(recipe: str, part: BushingPart) -> ToPrint:
    body = bushing_body(part)
    return ToPrint(replace(body, name=f"{recipe}-bushing-{part.mark}"), part.quantity)


def _stl(body: Body, name: str, about: str, chord: float) -> Written:
    mesh = stl(body.placed(), name, chord)
    facts = (
        ("volume_mm3", mesh.volume_mm3),
        ("volume_of_solid_mm3", volume_mm3(body.shape)),
        ("chord_error_mm", mesh.chord_mm),
        ("triangles", mesh.count),
        ("watertight", "yes"),
    )
    return Written(f"{name}.stl", mesh.data, f"{body.name}: {about}", facts)
