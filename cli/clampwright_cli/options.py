"""Options that several commands share."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click

F = TypeVar("F", bound=Callable[..., Any])


def recipes(command: F) -> F:
    """One or more recipe files."""
    return click.argument("recipes", nargs=-1, required=True, type=click.Path(path_type=Path))(command)


def as_json(command: F) -> F:
    """`--json`: one JSON document on standard output, nothing else there."""
    return click.option("--json", "as_json", is_flag=True, help="Print one JSON document, for programs.")(
        command
    )


def strict(command: F) -> F:
    """`--strict`: anything but a pass counts."""
    return click.option(
        "--strict", is_flag=True, help="Exit with 1 on cautions and unknowns too, not only on failed checks."
    )(command)


def every_finding(command: F) -> F:
    """`--all`: passes too."""
    return click.option("--all", "every", is_flag=True, help="List the checks that pass, too.")(command)


def folder(_context: click.Context, _option: click.Parameter, value: str) -> Path:
    """An output folder; an empty text, such as an unset variable gives, is no folder."""
    if not value.strip():
        raise click.BadParameter("it is empty; name a folder, or leave --out away for out/")
    return Path(value)
