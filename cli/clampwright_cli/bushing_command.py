"""`clampwright bushing`: bushings for gaps that were measured, without a recipe."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import click

from clampwright_cli import leave

if TYPE_CHECKING:
    from clampwright.layout.bushing_making import Filled


@click.command("bushing")
@click.argument("bolt")
@click.argument("gaps", nargs=-1, required=True)
@click.option(
    "--temperature", default="200 degF", show_default=True, help="Of the zone: decides the material."
)
@click.option("--units", type=click.Choice(["in", "mm"]), default="in", show_default=True)
@click.option("--material", help="Such as 6061-T6; left out: by temperature.")
@click.option("--make", type=click.Choice(["tube", "rod"]), help="Cut from tube or turned from rod.")
def command(
    bolt: str, gaps: tuple[str, ...], temperature: str, units: str, material: str | None, make: str | None
) -> None:
    """Bushings for BOLT in as few lengths as fill the measured GAPS, with washers, stock and cuts.

    \b
    clampwright bushing AN3 "0.515 in" "0.560 in" "1 in"
    """
    from clampwright.layout.cannot import CannotLayOut
    from clampwright.quantities import NotAQuantity

    try:
        click.echo(_answer(_filled(bolt, gaps, temperature, units, material, make), gaps, units))
    except CannotLayOut as no:
        click.echo(f"{no.why}. Do: {no.change}.", err=True)
        raise SystemExit(leave.USAGE) from None
    except (LookupError, NotAQuantity) as wrong:
        click.echo(str(wrong.args[0]), err=True)
        raise SystemExit(leave.USAGE) from None


def _filled(
    bolt: str, gaps: tuple[str, ...], temperature: str, units: str, material: str | None, make: str | None
) -> Filled:
    from clampwright.layout.bushing_making import ToFill, fill
    from clampwright.quantities import length_mm, temperature_c
    from clampwright.recipe.bushing_model import BushingStock
    from clampwright.trade.hardware import nut_for
    from clampwright.trade.tables import rule

    celsius = temperature_c(temperature)
    kerf, bar = rule("bushing-kerf-default").value, rule("bushing-stock-length-default").value
    lengths = [length_mm(gap, units) for gap in gaps]
    for written, length in zip(gaps, lengths, strict=True):
        if not math.isfinite(length) or length <= 0:
            raise LookupError(f'no gap to fill: "{written}"; give a length above 0')
    stock = BushingStock(material, make, None, kerf, bar * (1 + max(lengths) // (bar / 2)))
    wanted = [ToFill(f"gap {number}", length, (), ()) for number, length in enumerate(lengths, start=1)]
    return fill(wanted, bolt, nut_for(bolt, celsius), stock, celsius, units)


def _answer(filled: Filled, gaps: tuple[str, ...], units: str) -> str:
    from clampwright_cli.joined_report import bushings_text

    lines = [bushings_text(filled.parts, filled.cuts, units)] if filled.parts else []
    lines += [
        f"gap {number} ({gap}): {', '.join(_pieces(filled, f'gap {number}')) or 'nothing to fill'}"
        for number, gap in enumerate(gaps, start=1)
        if not any(item.name == "bushing" for item in filled.packings[f"gap {number}"])
    ]
    return "\n".join([*lines, "Measure each gap with the feet squeezed together; defer to the kit maker."])


def _pieces(filled: Filled, label: str) -> list[str]:
    return [
        item.part if item.count == 1 else f"{item.count} x {item.part}" for item in filled.packings[label]
    ]
