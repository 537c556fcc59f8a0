"""`clampwright pack`: one zip that a shop can quote and make the parts from."""

from __future__ import annotations

from pathlib import Path

import click

from clampwright_cli import options


@click.command("pack")
@options.recipes
@click.option(
    "--to",
    type=click.Path(path_type=Path),
    default=Path("out/shop.zip"),
    show_default=True,
    help="The zip to write.",
)
@click.option(
    "--anyway",
    is_flag=True,
    help="Pack parts whose checks fail, too; every sheet and file then says not to make them.",
)
@options.as_json
def command(recipes: tuple[Path, ...], to: Path, anyway: bool, as_json: bool) -> None:
    """Pack one recipe or a whole bay for a shop: drawings, STEP, DXF, nested sheets, lists, read-me.

    One file to hand over. Nothing is packed where a check fails, unless --anyway is given. The same recipes
    give the same bytes.
    """
    from clampwright_cli.packing import pack
    from clampwright_cli.show import show

    show([pack(recipes, to, anyway)], as_json)
