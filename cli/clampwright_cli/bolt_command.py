"""`clampwright bolt`: lengths of a bolt, or the one for a stack."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from clampwright_cli import leave
from clampwright_cli.table import table

if TYPE_CHECKING:
    from clampwright.trade.bolts import BoltLength


@click.command("bolt")
@click.argument("name")
@click.option("--stack", help='What lies between head and nut without washers, such as "0.55 in" or "14 mm".')
@click.option("--temperature", default="200 degF", show_default=True, help="Of the zone: decides the nut.")
def command(name: str, stack: str | None, temperature: str) -> None:
    """Lengths and grips of bolt NAME, or with --stack the length that fits, and the dash below and above.

    \b
    clampwright bolt AN3
    clampwright bolt AN3-6A
    clampwright bolt AN3 --stack "0.55 in"
    """
    from clampwright.quantities import NotAQuantity

    try:
        click.echo(_lengths(name) if stack is None else _for_stack(name, stack, temperature))
    except (LookupError, NotAQuantity) as wrong:
        click.echo(str(wrong.args[0]), err=True)
        raise SystemExit(leave.USAGE) from None


def _lengths(name: str) -> str:
    from clampwright.quantities import show_length
    from clampwright.trade.bolts import bolt, bolt_lengths
    from clampwright.trade.sources import source

    one = _one_length(name)
    size = bolt(one.bolt if one else name)
    unit = "mm" if size.metric else "in"
    rows = [
        [
            each.part,
            show_length(each.grip_mm, unit),
            show_length(each.length_mm, unit),
            source(each.source).status,
        ]
        for each in ((one,) if one else bolt_lengths(size.name))
    ]
    if not rows:
        return f"{size.name}: no document at hand gives its lengths; measure the bolt you have."
    return table(["part", "grip", "length", "status"], rows, indent="")


def _one_length(name: str) -> BoltLength | None:
    """The length that a whole part number names; NoSuchBolt says why a dash does not exist."""
    from clampwright.trade.bolts import bolt_by_part, bolt_names

    whole = "-" in name or "x" in name.lower()
    return bolt_by_part(name) if whole and name.upper() not in bolt_names() else None


def _for_stack(name: str, stack: str, temperature: str) -> str:
    from clampwright.layout.placed import StackItem
    from clampwright.layout.stacks import build_stack, plain_items
    from clampwright.quantities import length_mm, temperature_c
    from clampwright.trade.bolts import bolt
    from clampwright.trade.hardware import nut_for

    size = bolt(name)
    unit = "mm" if size.metric else "in"
    middle = StackItem("parts", "", length_mm(stack, unit))
    nut = nut_for(size.name, temperature_c(temperature))
    made = build_stack(size.name, plain_items((middle,), size.name), nut)
    from clampwright_cli.stack_text import stack_text

    return stack_text(made, unit)
