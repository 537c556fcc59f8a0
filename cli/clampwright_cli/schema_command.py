"""`clampwright schema`: the JSON Schema of a recipe, for editors."""

from __future__ import annotations

import json

import click

from clampwright_cli import leave


@click.command("schema")
@click.argument("kind", default="accessory plate")
def command(kind: str) -> None:
    """Print the JSON Schema of a recipe KIND, of a "structure" file or of a "survey", for your editor."""
    from clampwright.recipe.schema import json_schema, structure_schema, survey_schema

    others = {"structure": structure_schema, "survey": survey_schema}
    try:
        schema = others[kind]() if kind in others else json_schema(kind)
    except LookupError as wrong:
        click.echo(str(wrong.args[0]), err=True)
        raise SystemExit(leave.USAGE) from None
    click.echo(json.dumps(schema, indent=2))
