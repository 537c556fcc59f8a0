"""`clampwright bundle`: how thick a bundle of wires is, and the clamp for it."""

from __future__ import annotations

import re

import click

from clampwright_cli import leave

_WIRES = re.compile(r"(?P<count>\d+)\s*[x*]\s*(?P<size>.+)")


@click.command("bundle")
@click.argument("wires", nargs=-1, required=True)
@click.option("--sleeve", default="0", help="Wall of a sleeve over the bundle.")
def command(wires: tuple[str, ...], sleeve: str) -> None:
    """Outside diameter of a bundle of WIRES, each a count and a gauge or a diameter: 6x18 "2x0.1 in".

    An estimate: measure the bundle once it is tied.
    """
    from clampwright.quantities import NotAQuantity

    try:
        click.echo(_answer(wires, sleeve))
    except (LookupError, NotAQuantity) as wrong:
        click.echo(str(wrong.args[0]), err=True)
        raise SystemExit(leave.USAGE) from None


def _answer(wires: tuple[str, ...], sleeve: str) -> str:
    from clampwright.quantities import length_mm, show_length
    from clampwright.trade.bundles import bundle_circle
    from clampwright.trade.clamps import dash_for
    from clampwright.trade.sources import source

    circle = bundle_circle([_counted(text) for text in wires])
    od = circle.diameter_mm + 2 * length_mm(sleeve, "in")
    dash, cited = dash_for(od), source(circle.source)
    fill = dash * length_mm("1/16 in") - od
    return "\n".join(
        (
            f"{show_length(od, 'in')} ({show_length(od, 'mm')}): {circle.how}",
            f"  clamp  -{dash:02d}, loop {show_length(od + fill, 'in')}"
            + (f", with {show_length(fill / 2, 'in')} of tape all round" if fill > 0 else ""),
            f"  source {cited.title} [{cited.status}]; an estimate: measure the bundle once it is tied",
        )
    )


def _counted(text: str) -> tuple[int, float]:
    """Number and diameter of some equal wires, from a text such as "6x18" or "2x0.1 in".

    Raises
    ------
    LookupError, NotAQuantity
        It cannot be read, or the gauge is not known.
    """
    from clampwright.quantities import length_mm
    from clampwright.trade.bundles import wire_od_mm

    found = _WIRES.fullmatch(text.strip())
    if found is None or int(found["count"]) < 1:
        raise LookupError(f'not a number of wires: "{text}"; write 6x18 for six of gauge 18, or "2x0.1 in"')
    size = found["size"].strip()
    return int(found["count"]), wire_od_mm(int(size)) if size.isdigit() else length_mm(size, "in")
