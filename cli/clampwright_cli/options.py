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


def detail(command: F) -> F:
    """`--all`: passes too; `--brief`: a line a finding. As "all", "brief" or "usual"."""
    every = click.option("--all", "detail", flag_value="all", help="List the checks that pass, too.")
    brief = click.option("--brief", "detail", flag_value="brief", help="A line for each finding, no more.")
    return click.option("--usual", "detail", flag_value="usual", default="usual", hidden=True)(
        every(brief(command))
    )


def folder(_context: click.Context, _option: click.Parameter, value: str) -> Path:
    """An output folder; an empty text, such as an unset variable gives, is no folder."""
    if not value.strip():
        raise click.BadParameter("it is empty; name a folder, or leave --out away for out/")
    return Path(value)


def out(command: F) -> F:
    """`--out`: the folder that gets one folder a survey or file."""
    return click.option(
        "--out",
        callback=folder,
        default="out",
        show_default=True,
        help="Folder that gets one folder for this.",
    )(command)


Say = Callable[[str], None]
"""Called with a few words before each stage that takes time."""
