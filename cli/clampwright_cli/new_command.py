"""`clampwright new`: a commented starter recipe."""

from __future__ import annotations

from pathlib import Path

import click

from clampwright_cli import leave


@click.command("new")
@click.argument("file", type=click.Path(path_type=Path))
@click.option("--kind", default="accessory plate", show_default=True, help="Kind of recipe.")
@click.option("--units", type=click.Choice(["in", "mm"]), default="in", show_default=True)
@click.option("--force", is_flag=True, help="Overwrite the file if it is there.")
def command(file: Path, kind: str, units: str, force: bool) -> None:
    """Write a commented starter recipe to FILE; fill in your own tubes and component."""
    from clampwright.recipe.faults import RecipeFaults
    from clampwright.recipe.starter import starter

    target = file if file.suffix == ".toml" else file.with_name(file.name + ".toml")
    try:
        text = starter(kind, target.stem, units)
    except RecipeFaults as faults:
        click.echo("\n".join(fault.text() for fault in faults.faults), err=True)
        raise SystemExit(leave.USAGE) from None
    try:
        with target.open("w" if force else "x", encoding="utf-8") as stream:
            stream.write(text)
    except FileExistsError:
        click.echo(f"{target} is there already; choose another name, or give --force.", err=True)
        raise SystemExit(leave.NOT_WRITTEN) from None
    except OSError as error:
        click.echo(f"{target}: not written: {error.strerror}.", err=True)
        raise SystemExit(leave.NOT_WRITTEN) from None
    click.echo(f"Wrote {target}. Fill in your tubes, then: clampwright check {target}")
