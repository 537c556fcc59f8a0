"""`clampwright check`: lay a recipe out and judge it, without the CAD kernel."""

from __future__ import annotations

from pathlib import Path

import click

from clampwright_cli import options
from clampwright_cli.outcome import Outcome, attempt, status_of


@click.command("check")
@options.recipes
@options.as_json
@options.detail
@options.strict
def command(recipes: tuple[Path, ...], as_json: bool, detail: str, strict: bool) -> None:
    """Lay recipes out and judge them: clamps, holes, bolts, findings. Writes nothing."""
    from clampwright_cli.show import show

    show([check_one(path, detail, strict, as_json) for path in recipes], as_json)


def check_one(path: Path, detail: str, strict: bool, as_json: bool) -> Outcome:
    """One recipe's outcome."""

    def work() -> Outcome:
        from clampwright.make import check_recipe
        from clampwright_cli.outcome import data_of
        from clampwright_cli.report import report

        checked = check_recipe(path)
        status = status_of(checked.verdict, strict)
        if as_json:
            return Outcome(str(path), status, "", data_of(checked))
        return Outcome(str(path), status, report(checked, detail), {})

    return attempt(path, work)
