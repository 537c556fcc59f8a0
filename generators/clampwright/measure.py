"""From what was measured to tubes: runs the stages for surveys by tape, STEP files and scans.

The commands and the Python user call this, as `make` is called for recipes.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from clampwright.files.folder import folder
from clampwright.files.manifest import manifest_of
from clampwright.files.safe_names import plain_name
from clampwright.files.written import Written
from clampwright.recipe.written import printable
from clampwright.structure.found import Found
from clampwright.structure.survey.model import Survey
from clampwright.structure.survey.solved import SolvedSurvey
from clampwright.structure.tubes import Structure

Step = Callable[[str], None]
"""Called with a few words before each stage that takes time."""

FORM_FOLDER = "survey-form"
STEP_SUFFIXES = (".step", ".stp")


@dataclass(frozen=True, slots=True)
class Made:
    """The folder that was written, and its files in order."""

    folder: Path
    files: tuple[str, ...]


def write_form(survey: Survey | None, out: Path, step: Step = lambda _: None) -> Made:
    """The form to fill in by hand: blank, or with what is worth measuring on a survey's tubes.

    Raises
    ------
    OSError
        The folder could not be written; what stood there is untouched.
    """
    from clampwright.files.survey_files import form_files

    if survey is None:
        step("form")
        return _written(out, FORM_FOLDER, form_files(None, ()), {"survey": None})
    from clampwright.structure.survey.planning import plan

    step("what to measure")
    wanted = plan(survey)
    made_from = {"survey": {"name": survey.name, "digest": survey.digest}}
    return _written(out, f"{survey.name}-form", form_files(survey, wanted), made_from)


def solve_survey(path: Path, step: Step = lambda _: None) -> SolvedSurvey:
    """Read a tape survey and solve it.

    Raises
    ------
    RecipeFaults
        Everything that is wrong with the file, at once.
    """
    from clampwright.recipe.survey_file import read_survey
    from clampwright.structure.survey.solve import solve

    return solve(read_survey(path), step)


def write_solved(solved: SolvedSurvey, out: Path, step: Step = lambda _: None) -> Made:
    """Report, pictures, data and, where the survey can be used, its tubes: `out`/<name of the survey>.

    Raises
    ------
    OSError
        The folder could not be written; what stood there is untouched.
    """
    from clampwright.files.survey_files import solved_files
    from clampwright.files.survey_json import solved_json

    step("sheets")
    survey = solved.survey
    files = [*solved_files(solved), solved_json(solved)]
    if solved.structure is not None:
        text = tubes_text(solved.structure, survey.about or survey.name, survey.units)
        files.append(Written(f"{survey.name}-tubes.toml", text.encode("utf-8"), "The tubes, for recipes"))
    made_from = {
        "survey": {"name": survey.name, "digest": survey.digest},
        "usable": solved.structure is not None,
    }
    return _written(out, survey.name, files, made_from)


def find_tubes(
    path: Path, unit: str | None = None, step: Step = lambda _: None, *, units: str = "mm"
) -> Found:
    """The round tubes in a STEP file (.step, .stp), a mesh or a cloud of points.

    `unit` is that of a scan's numbers, where it is known; `units` that of what sentences say.

    Raises
    ------
    NotReadable
        It is no such file, or holds nothing that could be looked at.
    """
    if path.suffix.lower() in STEP_SUFFIXES:
        from clampwright.structure.step.read import tubes_in_step

        step("reading")
        return tubes_in_step(path, units=units)
    from clampwright.structure.scan.find import tubes_in_scan

    return tubes_in_scan(path, unit, _in_words(step), units=units)


def _in_words(step: Step) -> Callable[[str, float | None], None]:
    """A step that knows how far it is."""

    def say(words: str, share: float | None = None) -> None:
        step(words if share is None else f"{words} {share:.0%}")

    return say


def write_found(found: Found, out: Path, structure: Structure | None, units: str) -> Made:
    """Picture, table and, where tubes were chosen, their structure file: `out`/<name of the file>-tubes.

    Raises
    ------
    OSError
        The folder could not be written; what stood there is untouched.
    """
    from clampwright.files.survey_files import found_files
    from clampwright.files.survey_json import found_json

    name = plain_name(Path(found.source).stem)
    files = [*found_files(found, units), found_json(found, name)]
    if structure is not None:
        text = tubes_text(structure, f"Tubes found in {found.source}", units)
        files.append(Written(f"{name}-tubes.toml", text.encode("utf-8"), "The chosen tubes, for recipes"))
    return _written(out, f"{name}-tubes", files, {"source": found.source})


def chosen_tubes(found: Found, numbers: Sequence[int], names: Mapping[int, str]) -> Structure:
    """The structure of the tubes with these numbers, under the names given.

    Raises
    ------
    LookupError
        No tube has such a number; or a name is given to a tube that is not taken, twice, or is none that a
        recipe takes; or the file's unit was only guessed.
    """
    from clampwright.recipe.blocks import NAME
    from clampwright.structure.chosen import chosen

    if found.unit_how.startswith("guessed"):
        raise LookupError(f"its unit was {found.unit_how}. Say which it is: --unit {found.unit}, or another")
    for name in names.values():
        if not NAME.fullmatch(name):
            least = "at most 40 letters, digits, spaces, . - and _, the first a letter or digit"
            raise LookupError(f'"{printable(name)}" is no name for a tube: {least}')
    return chosen(found, numbers, names)


def tubes_text(structure: Structure, about: str, units: str) -> str:
    """A structure as the text of a structure file."""
    from clampwright.files.structure_toml import structure_toml

    return structure_toml(structure, about, units)


def save_tubes(structure: Structure, path: Path, about: str, units: str, *, replace: bool = False) -> None:
    """Write a structure file for recipes, whole or not at all.

    Raises
    ------
    FileExistsError
        It is there already, and `replace` is not set.
    OSError
        It could not be written.
    """
    if path.exists() and not replace:
        raise FileExistsError(17, "it is there already", str(path))
    data = tubes_text(structure, about, units).encode("utf-8")
    handle, draft = tempfile.mkstemp(dir=path.parent, prefix=f".{path.name}.")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        Path(draft).chmod(0o644)
        Path(draft).replace(path)
    except BaseException:
        Path(draft).unlink(missing_ok=True)
        raise


def _written(out: Path, name: str, files: Iterable[Written], made_from: Mapping[str, object]) -> Made:
    with folder(out, name) as draft:
        for file in files:
            draft.write(file)
        draft.write(manifest_of(dict(made_from), draft.files))
    return Made(out / name, tuple(file.name for file in draft.files))
