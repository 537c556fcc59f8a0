"""`clampwright survey new`: a commented survey file to type measurements into."""

from __future__ import annotations

from pathlib import Path

import click

from clampwright_cli.starting import write_starter


@click.command("new")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--units", type=click.Choice(["in", "mm"]), default="in", show_default=True)
@click.option("--force", is_flag=True, help="Overwrite the file if it is there.")
def command(file: Path, units: str, force: bool) -> None:
    """Write a commented survey to FILE; put your own tubes and measurements in place of its own."""

    def text(name: str) -> str:
        from clampwright.recipe.survey_starter import starter

        return starter(units, name)

    target = write_starter(file, text, force)
    click.echo(
        f"Wrote {target}. Put in your tubes, then: clampwright survey sheet {target}; "
        f"with the measurements typed in: clampwright survey solve {target}"
    )
