"""A line on the terminal that says what is being done; nothing in a pipe."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager

import click


@contextmanager
def status_line() -> Iterator[Callable[[str, str], None]]:
    """A function that shows (what is worked on, what is being done); the line goes away at the end."""
    shown = sys.stderr.isatty()

    def say(what: str, words: str) -> None:
        if shown:
            click.echo(f"\r\033[K{what}: {words} ...", nl=False, err=True)

    yield say
    if shown:
        click.echo("\r\033[K", nl=False, err=True)
