"""Comparing finished parts with their recipe: what is printed of it, and the form to fill in."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from clampwright_cli import leave
from clampwright_cli.outcome import Outcome, attempt, status_of


@dataclass(frozen=True, slots=True)
class Typed:
    """Measurements from the command line."""

    holes: tuple[str, ...]
    bushings: tuple[str, ...]


def verify(
    recipe: Path, measured: Path | None, typed: Typed, detail: str, strict: bool, as_json: bool
) -> Outcome:
    """The outcome for one recipe's parts."""

    def work() -> Outcome:
        from clampwright.verify import verify_recipe
        from clampwright_cli.as_made_report import report

        done = verify_recipe(recipe, measured, typed.holes, typed.bushings)
        status = status_of(done.verdict, strict)
        if as_json:
            from clampwright.files.as_made_json import as_made_as_json

            return Outcome(str(recipe), status, "", as_made_as_json(done.layout, done.fit, done.findings))
        return Outcome(str(recipe), status, report(done, detail), {})

    if measured is None and not (typed.holes or typed.bushings):
        text = "Nothing was measured: name a file of measurements, or type them with --hole and --bushing."
        return Outcome(
            str(recipe), leave.USAGE, f"{text} --form FILE writes a form to fill in.", {"wrong": text}
        )
    return attempt(recipe, work)


def write_form(recipe: Path, form: Path, force: bool) -> Outcome:
    """Write the form to fill in; `force` overwrites an older form, and nothing else."""

    def work() -> Outcome:
        from clampwright.verify import form_of

        data = form_of(recipe)
        try:
            if force and form.is_file() and not _is_form(form):
                return _not_written(recipe, form, "it is no form of measurements, and is left alone")
            with form.open("wb" if force else "xb") as stream:
                stream.write(data)
        except FileExistsError:
            return _not_written(recipe, form, "it is there already; --force overwrites an older form")
        except OSError as error:
            return _not_written(recipe, form, error.strerror or str(error))
        text = f"{form}: the form to fill in. Then: clampwright verify {recipe} {form}"
        return Outcome(str(recipe), leave.DONE, text, {"form": str(form)})

    return attempt(recipe, work)


def _is_form(path: Path) -> bool:
    """Whether a file is a table of measurements: its first line that is no remark has "what" in front."""
    lines = path.read_bytes().decode("utf-8-sig", "replace").splitlines()
    heading = next((line for line in lines if line.strip() and not line.startswith("#")), "")
    return heading.replace(";", ",").replace("\t", ",").split(",")[0].strip().strip('"').casefold() == "what"


def _not_written(recipe: Path, form: Path, why: str) -> Outcome:
    text = f"{form}: not written: {why}. Choose another name."
    return Outcome(str(recipe), leave.NOT_WRITTEN, text, {"not_written": {"file": str(form), "why": why}})
