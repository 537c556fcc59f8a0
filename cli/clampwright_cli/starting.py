"""Writing a starter file where there is none yet."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import click

from clampwright_cli import leave


def write_starter(file: Path, text: Callable[[str], str], force: bool) -> Path:
    """Write `text`(name) to a .toml file; says what is wrong and leaves the process where it cannot."""
    from clampwright.recipe.faults import RecipeFaults

    target = file if file.suffix == ".toml" else file.with_name(file.name + ".toml")
    try:
        starter = text(target.stem)
    except RecipeFaults as faults:
        click.echo("\n".join(fault.text() for fault in faults.faults), err=True)
        raise SystemExit(leave.USAGE) from None
    try:
        with target.open("w" if force else "x", encoding="utf-8") as stream:
            stream.write(starter)
    except FileExistsError:
        click.echo(f"{target} is there already; choose another name, or give --force.", err=True)
        raise SystemExit(leave.NOT_WRITTEN) from None
    except OSError as error:
        click.echo(f"{target}: not written: {error.strerror}.", err=True)
        raise SystemExit(leave.NOT_WRITTEN) from None
    return target
