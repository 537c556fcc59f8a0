"""`clampwright explain`: any value with its source and status."""

from __future__ import annotations

import dataclasses
import json
from typing import TYPE_CHECKING

import click

from clampwright_cli import leave, options

if TYPE_CHECKING:
    from clampwright.trade.explain import Explained
    from clampwright.trade.sources import Source


@click.command("explain")
@click.argument("words", nargs=-1, required=True)
@options.as_json
def command(words: tuple[str, ...], as_json: bool) -> None:
    """Show what the tables say of WORDS, with source and status.

    \b
    clampwright explain AN3              a bolt, in every table that knows it
    clampwright explain AN3-6A           one length
    clampwright explain "#11"            a drill
    clampwright explain CH               a band and cushion
    clampwright explain edge             every rule about edges
    """
    from clampwright.trade.explain import explain

    try:
        rows = explain(" ".join(words))
    except LookupError as nothing:
        click.echo(str(nothing.args[0]), err=True)
        raise SystemExit(leave.CHECK_FAILED) from None
    if as_json:
        click.echo(json.dumps([dataclasses.asdict(row) for row in rows], indent=2, allow_nan=False))
    else:
        click.echo("\n\n".join(_text(row) for row in rows))


def _text(row: Explained) -> str:
    """A row: its values, then its sources; where there are several, each value names its own."""
    several = len(row.sources) > 1
    lines = [f"{click.style(row.label, bold=True)}  ({row.table})"]
    for each in row.values:
        mark = f"   [{each.source.key}]" if several else ""
        lines.append(f"  {each.what}: {' '.join(word for word in (each.value, each.unit) if word)}{mark}")
    lines += [_source(cited, several) for cited in row.sources]
    return "\n".join(lines)


def _source(cited: Source, several: bool) -> str:
    key = f"[{cited.key}] " if several else ""
    note = f" {cited.note}" if cited.note else ""
    return f"  source: {key}{cited.title} [{cited.status}]{note}"
