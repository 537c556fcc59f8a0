"""Printing outcomes, and the exit status of several."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence

import click

from clampwright_cli import leave
from clampwright_cli.outcome import Outcome


def show(outcomes: Sequence[Outcome], as_json: bool) -> None:
    """Print results to standard output and faults to standard error, then exit with the worst status."""
    from clampwright.recipe.written import printable

    if as_json:
        entries = [{"recipe": printable(o.recipe), "status": o.status, **o.data} for o in outcomes]
        click.echo(json.dumps({"results": entries}, indent=2, allow_nan=False))
    else:
        for number, outcome in enumerate(outcomes):
            if outcome.done and number:
                click.echo()
            click.echo(_fit_to_print(outcome.text), err=not outcome.done)
    status = max((outcome.status for outcome in outcomes), default=leave.DONE)
    if "cadquery" in sys.modules:
        leave.at_once(status)
    raise SystemExit(status)


def _fit_to_print(text: str) -> str:
    """File names that are not Unicode written out."""
    return text.encode("utf-8", "backslashreplace").decode()
