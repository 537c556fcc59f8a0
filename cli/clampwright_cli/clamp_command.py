"""`clampwright clamp`: the loop clamp for a diameter, with the dimensions to measure."""

from __future__ import annotations

import click

from clampwright_cli import leave


@click.command("clamp")
@click.argument("diameter")
@click.option("--code", help="Band and cushion, such as CH; left out: by temperature and fluids.")
@click.option("--temperature", default="200 degF", show_default=True, help="Of the zone.")
@click.option("--fluid", multiple=True, help="What can wet it: fuel, oil, ...; may be given several times.")
def command(diameter: str, code: str | None, temperature: str, fluid: tuple[str, ...]) -> None:
    """The cushioned loop clamp for a tube of DIAMETER ("3/4 in"), and its default dimensions.

    Measure reach, seat and feet on your own clamp, closed on the tube: makes differ.
    """
    from clampwright.quantities import NotAQuantity

    try:
        click.echo(_answer(diameter, code, temperature, fluid))
    except (LookupError, NotAQuantity) as wrong:
        click.echo(str(wrong.args[0]), err=True)
        raise SystemExit(leave.USAGE) from None


def _answer(diameter: str, code: str | None, temperature: str, fluids: tuple[str, ...]) -> str:
    from clampwright.quantities import length_mm, show_length, show_temperature, temperature_c
    from clampwright.trade.clamps import clamp_code_for, cushion_objections, loop_clamp
    from clampwright.trade.sources import source

    taken = code or clamp_code_for(temperature_c(temperature), fluids)
    clamp = loop_clamp(length_mm(diameter, "in"), taken)
    cited = source(clamp.source)
    lines = [
        f"{clamp.part}: {clamp.band} band, {clamp.cushion} cushion, up to "
        f"{show_temperature(clamp.max_temperature_c, 'degF')}",
        f"  loop   {show_length(clamp.loop_mm, 'in')}",
        f"  reach  {show_length(clamp.reach_mm, 'in')}  tube axis to bolt axis",
        f"  seat   {show_length(clamp.seat_mm, 'in')}  tube axis to the outer face of the foot",
        f"  feet   {show_length(clamp.feet_mm, 'in')}  both feet squeezed together",
        f"  source of the three: {cited.title} [{cited.status}]; defaults, not measured on your clamp",
    ]
    lines += [f"  against it: {objection}" for objection in cushion_objections(taken, fluids)]
    return "\n".join(lines)
