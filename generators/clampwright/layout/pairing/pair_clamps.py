"""Both clamps: their size, cushion and measured dimensions, and the wrap under the line's."""

from __future__ import annotations

from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.stand_off_placed import Wrap
from clampwright.quantities import show_length
from clampwright.recipe.model import Zone
from clampwright.recipe.stand_off_model import PairClamp
from clampwright.trade.clamps import LoopClamp, clamp_code_for, loop_clamp
from clampwright.trade.tables import Row, load, rule


def pair_clamp(asked: PairClamp, od_mm: float, zone: Zone, on: str, line: int = 0) -> LoopClamp:
    """The clamp for a tube or line of this diameter: its own size, else the next one up.

    Raises
    ------
    CannotLayOut
        No loop clamp is made for it.

    >>> from clampwright.recipe.model import Measured
    >>> any_clamp = PairClamp(None, Measured(), None)
    >>> pair_clamp(any_clamp, 20.0, Zone(90.0, True, ("oil",)), "oil hose").part
    'MS21919WCJ13'
    """
    own = asked.measured
    try:
        return loop_clamp(
            od_mm,
            asked.code or clamp_code_for(zone.temperature_c, zone.fluids),
            dash=asked.dash,
            reach_mm=own.reach_mm,
            seat_mm=own.seat_mm,
            feet_mm=own.feet_mm,
        )
    except LookupError as none:
        raise CannotLayOut(
            f"{on} of {od_mm:.1f} mm: {none}", "another size of line, or two lines", line
        ) from none


def _tape() -> Row:
    """The usual tape."""
    return load("wrap_tapes").rows[0]


def wrap_words(wrap: Wrap, fluids: tuple[str, ...], units: str) -> str:
    """The wrap for people: how thick, of what, and what the tape does not stand.

    >>> wrap_words(Wrap(0.508, 1.0, "silicone-tape"), (), "in")
    '0.020 in all round under the clamp, 1.0 layers of self-fusing silicone rubber tape'
    """
    tape = _tape()
    words = (
        f"{show_length(wrap.thickness_mm, units)} all round under the clamp, {wrap.turns:.1f} layers of "
        f"{tape.text('name')}"
    )
    harmful = tape.text("fluid")
    return f"{words}; not where {harmful} can wet it" if harmful in fluids else words


def wrap_for(clamp: LoopClamp, od_mm: float) -> Wrap | None:
    """Tape between a line and a loop that is larger than it, (loop − line)/2 on the radius.

    None where the loop's own tolerance takes it up (rule `clamp-loop-under-most`), and where there is more
    than tape is to fill (rule `clamp-loop-over-most`): a check then says so.

    >>> clamp = loop_clamp(20.0, "CJ")
    >>> wrap = wrap_for(clamp, 20.0)
    >>> wrap is not None and round(wrap.thickness_mm, 3)
    0.319
    """
    over = clamp.loop_mm - od_mm
    if not rule("clamp-loop-under-most").value < over <= rule("clamp-loop-over-most").value:
        return None
    tape = _tape()
    return Wrap(over / 2, over / 2 / tape.number("thickness"), tape.source())
