"""STEP and STL of a solid, and the STEP of an assembly. Loads the CAD kernel."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from clampwright.files.step import step_assembly, step_part
from clampwright.files.step_material import MadeOf
from clampwright.files.step_read_back import expected_part, refuse_other, refuse_other_pieces
from clampwright.files.stl import stl
from clampwright.files.written import Written
from clampwright.solids.body import Body
from clampwright.solids.measure import volume_mm3


def solid_files(body: Body, name: str, about: str, material: MadeOf | None = None) -> Iterator[Written]:
    """STEP and STL of one part, under this name; the STEP read back as text before it is handed on.

    Raises `NotAsMade` where the STEP does not say what was made, and `NotWatertight`.
    """
    volume = volume_mm3(body.shape)
    step_name, stl_name = f"{name}.step", f"{name}.stl"
    step = step_part(body, step_name, about, "AP214", material)
    refuse_other(step, expected_part(body, material=material, measure=False), step_name)
    yield Written(step_name, step, about, (("volume_mm3", volume),))
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
    """STEP of every body where it sits; `made` says in words which are parts and not for reference only.

    Its pieces are counted and their names read back; raises `NotAsMade` where they differ.
    """
    name = f"{recipe}-assembly.step"
    about = f"{recipe} where it sits, all but {made} for reference only"
    about += warning(verdict)
    title = f"{recipe} assembly"
    data = step_assembly(bodies, title, name, about)
    refuse_other_pieces(data, bodies, title, name)
    return Written(name, data, about, (("bodies", len(bodies)),))


def warning(verdict: str) -> str:
    """What stands inside every file of a part where a check fails."""
    return " (A CHECK FAILS: DO NOT MAKE)" if verdict == "fail" else ""
