"""`clampwright survey sheet`: the form to fill in by hand, made for a survey's tubes."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

from clampwright_cli import options
from clampwright_cli.outcome import Outcome, attempt
from clampwright_cli.status_line import status_line


@click.command("sheet")
@click.argument("survey", type=click.Path(path_type=Path))
@options.out
@options.as_json
def command(survey: Path, out: Path, as_json: bool) -> None:
    """Write the form for SURVEY: a sketch of its points, what to measure in which order, boxes to fill in."""
    write(survey, out, as_json, f"With the measurements typed in: clampwright survey solve {survey}")


def write(path: Path | None, out: Path, as_json: bool, following: str) -> None:
    """Write a form and say where it is."""
    from clampwright_cli.show import show

    with status_line() as say:

        def work() -> Outcome:
            from clampwright.measure import write_form
            from clampwright.recipe.survey_file import read_survey

            survey = None if path is None else read_survey(path)
            made = write_form(survey, out, lambda words: say("form", words))
            data: dict[str, Any] = {"folder": str(made.folder), "files": list(made.files)}
            return Outcome(str(path or ""), 0, written_to(made.folder, made.files) + f"\n\n{following}", data)

        outcome = attempt(path or out, work)
    show([outcome], as_json)


def written_to(folder: Path, files: tuple[str, ...]) -> str:
    """Where the files went."""
    return f"Written to {folder}\n  " + "\n  ".join(files)
