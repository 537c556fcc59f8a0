"""`clampwright codes`: every check, what it computes and on what it rests."""

from __future__ import annotations

import click

from clampwright_cli.table import table


@click.command("codes")
def command() -> None:
    """List every check: its code, what it computes, and its sources."""
    from clampwright.checks.all_checks import catalogue

    rows = [[info.code, info.what, ", ".join(info.sources)] for info in catalogue()]
    click.echo(table(["code", "what", "sources (see: clampwright explain KEY)"], rows, indent=""))
