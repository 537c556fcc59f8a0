"""`clampwright verify`: does the finished part still fit?"""

from __future__ import annotations

from pathlib import Path

import click

from clampwright_cli import options


@click.command("verify")
@click.argument("recipe", type=click.Path(path_type=Path))
@click.argument("measured", required=False, type=click.Path(path_type=Path))
@click.option(
    "--hole",
    "holes",
    multiple=True,
    metavar="LABEL=X,Y[,DIAMETER]",
    help="A hole's centre from the left and the bottom datum edge, component side up. May be repeated.",
)
@click.option(
    "--bushing",
    "bushings",
    multiple=True,
    metavar="MARK=LENGTH",
    help="A finished bushing's length. May be repeated.",
)
@click.option(
    "--form",
    type=click.Path(path_type=Path),
    help="Write the form to fill in (CSV) with every hole and bushing of the recipe, and stop.",
)
@click.option("--force", is_flag=True, help="Overwrite the form if it is there.")
@options.as_json
@options.detail
@options.strict
def command(
    recipe: Path,
    measured: Path | None,
    holes: tuple[str, ...],
    bushings: tuple[str, ...],
    form: Path | None,
    force: bool,
    as_json: bool,
    detail: str,
    strict: bool,
) -> None:
    """Compare finished parts with RECIPE: do the holes still meet their bolts, where does it pinch?

    Measurements stand in MEASURED (a CSV, as --form writes it) or are typed. Bare numbers are in the
    recipe's units.

    \b
    clampwright verify recipes/coil-plate.toml --form measured.csv
    clampwright verify recipes/coil-plate.toml measured.csv
    clampwright verify recipes/coil-plate.toml --hole A1=5.56,0.44 --bushing S1=0.251
    """
    from clampwright_cli.show import show
    from clampwright_cli.verifying import Typed, verify, write_form

    if form is not None:
        show([write_form(recipe, form, force)], as_json)
    else:
        show([verify(recipe, measured, Typed(holes, bushings), detail, strict, as_json)], as_json)
