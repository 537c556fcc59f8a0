"""`clampwright survey solve`: tubes from a tape survey, each coordinate with its ±."""

from __future__ import annotations

from pathlib import Path

import click

from clampwright_cli import leave, options
from clampwright_cli.outcome import Outcome, attempt
from clampwright_cli.status_line import status_line
from clampwright_cli.survey_sheet import written_to


@click.command("solve")
@click.argument("survey", type=click.Path(path_type=Path))
@click.option("--to", type=click.Path(path_type=Path), help="Structure file to write, for recipes.")
@click.option("--force", is_flag=True, help="Overwrite that file if it is there.")
@options.out
@options.as_json
@options.detail
def command(survey: Path, to: Path | None, force: bool, out: Path, as_json: bool, detail: str) -> None:
    """Solve the tape SURVEY: points, tubes and their ±, what is contradicted, what to measure next.

    Writes the report, pictures from three sides and, where the survey can be used, a structure file that
    recipes name. The exit status is 1 where it cannot be used yet: it is loose, contradictory, or two
    mirror images agree with it.
    """
    from clampwright_cli.show import show

    with status_line() as say:
        outcome = attempt(
            survey, lambda: _solved(survey, to, force, out, detail, lambda words: say(survey.name, words))
        )
    show([outcome], as_json)


def _solved(path: Path, to: Path | None, force: bool, out: Path, detail: str, step: options.Say) -> Outcome:
    from clampwright.files.survey_json import solved_as_json
    from clampwright.measure import save_tubes, solve_survey, write_solved
    from clampwright_cli.solved_report import report

    refused = cannot_go_to(to, path, force)
    if refused is not None:
        return refused
    solved = solve_survey(path, step)
    survey, usable = solved.survey, solved.structure is not None
    made = write_solved(solved, out, step)
    text = f"{report(solved, detail)}\n\n{written_to(made.folder, made.files)}"
    if to is not None and solved.structure is not None:
        save_tubes(solved.structure, to, survey.about or survey.name, survey.units, replace=force)
        text += f"\n{to}: the tubes"
    elif to is not None:
        text += f"\n{to} was not written: the survey cannot be used yet."
    data = solved_as_json(solved) | {"folder": str(made.folder), "files": list(made.files)}
    return Outcome(str(path), leave.DONE if usable else leave.CHECK_FAILED, text, data)


def cannot_go_to(to: Path | None, path: Path, force: bool) -> Outcome | None:
    """Why the structure file asked for cannot be written, before anything is; None where it can."""
    if to is None:
        return None
    why = ""
    if to.exists() and path.exists() and to.samefile(path):
        why = "it is the file that is read"
    elif not to.parent.is_dir():
        why = f"there is no folder {to.parent}"
    elif to.is_dir():
        why = "it is a folder"
    elif to.exists() and not force:
        why = "it is there already; --force overwrites it"
    if not why:
        return None
    text = f"{path}: nothing was written: --to {to}: {why}. Choose another file with --to."
    return Outcome(str(path), leave.NOT_WRITTEN, text, {"not_written": {"file": str(to), "why": why}})
