"""`clampwright drill`: a drill by size, or the drills about a diameter."""

from __future__ import annotations

import click

from clampwright_cli import leave
from clampwright_cli.table import table


@click.command("drill")
@click.argument("size")
def command(size: str) -> None:
    """A drill by its SIZE ("#11", "F", "3/16"), the drills about a diameter, or the hole for a bolt.

    \b
    clampwright drill "#11"
    clampwright drill "0.193 in"
    clampwright drill AN3
    """
    from clampwright.quantities import NotAQuantity

    try:
        click.echo(_answer(size))
    except (LookupError, NotAQuantity) as wrong:
        click.echo(str(wrong.args[0]), err=True)
        raise SystemExit(leave.USAGE) from None


def _answer(size: str) -> str:
    from clampwright.trade.bolts import bolt_names

    return _for_bolt(size) if size.upper() in bolt_names() else _about(_diameter(size))


def _for_bolt(name: str) -> str:
    from clampwright.quantities import show_length
    from clampwright.trade.holes import hole_window, pilot_drill
    from clampwright.trade.sources import source

    window = hole_window(name.upper())
    unit = "mm" if name.upper().startswith("M") else "in"
    cited = source(window.source)
    return (
        f"{window.fastener}: hole {show_length(window.low_mm, unit)} to {show_length(window.high_mm, unit)}; "
        f"drill {window.drill.size}, pilot {pilot_drill(window.drill.diameter_mm).size}\n"
        f"source: {cited.title} [{cited.status}]"
    )


def _diameter(size: str) -> float:
    from clampwright.quantities import length_mm
    from clampwright.trade.holes import drill

    plain = size.strip()
    if plain.isdecimal():
        raise LookupError(
            f'{plain} could be a number drill or a length: write "#{plain}", "{plain} mm" or "{plain} in"'
        )
    try:
        return drill(size).diameter_mm
    except LookupError:
        if size.lstrip().startswith("#") or size.strip().isalpha():
            raise
        return length_mm(size, "in")


def _about(diameter_mm: float) -> str:
    from clampwright.quantities import show_length
    from clampwright.trade.holes import drills

    near = sorted(
        sorted(drills(), key=lambda d: abs(d.diameter_mm - diameter_mm))[:7], key=lambda d: d.diameter_mm
    )
    rows = [
        [
            each.size,
            show_length(each.diameter_mm, "in"),
            show_length(each.diameter_mm, "mm"),
            _mark(each.diameter_mm, diameter_mm),
        ]
        for each in near
    ]
    return table(["drill", "inch", "mm", ""], rows, indent="")


def _mark(drill_mm: float, asked_mm: float) -> str:
    return "<- this" if abs(drill_mm - asked_mm) < 1e-6 else ""
