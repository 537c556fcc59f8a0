"""`clampwright new`: a commented starter recipe."""

from __future__ import annotations

from pathlib import Path

import click

from clampwright_cli.starting import write_starter


@click.command("new")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--kind", default="accessory plate", show_default=True, help="Kind of recipe.")
@click.option("--units", type=click.Choice(["in", "mm"]), default="in", show_default=True)
@click.option("--force", is_flag=True, help="Overwrite the file if it is there.")
def command(file: Path, kind: str, units: str, force: bool) -> None:
    """Write a commented starter recipe to FILE; fill in your own tubes and component."""

    def text(name: str) -> str:
        from clampwright.recipe.starter import starter

        return starter(kind, name, units)

    target = write_starter(file, text, force)
    click.echo(f"Wrote {target}. Fill in your tubes, then: clampwright check {target}")
