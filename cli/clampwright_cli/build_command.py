"""`clampwright build`: make every file of one recipe or many."""

from __future__ import annotations

from pathlib import Path

import click

from clampwright_cli import options


@click.command("build")
@options.recipes
@click.option(
    "--out",
    callback=options.folder,
    default="out",
    show_default=True,
    help="Folder that gets one folder a recipe.",
)
@click.option("--jobs", type=click.IntRange(min=1), help="Worker processes; left out: one a core.")
@options.as_json
@options.detail
@options.strict
def command(
    recipes: tuple[Path, ...], out: Path, jobs: int | None, as_json: bool, detail: str, strict: bool
) -> None:
    """Make the files of one recipe or many: template, STEP, STL, DXF, order list, findings.

    A failing check does not stop the build; every sheet then says that it is not to be drilled, and the
    exit status is 1.
    """
    from clampwright_cli.building import Wanted, build_all
    from clampwright_cli.show import show

    show(build_all(recipes, Wanted(out, detail, strict, as_json), jobs), as_json)
