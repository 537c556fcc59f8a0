"""The kinds of recipe. A new kind is a file of its own and a line here."""

from __future__ import annotations

from clampwright.recipe import accessory_plate, component_bushings, stand_off
from clampwright.recipe.faults import did_you_mean, listed
from clampwright.recipe.kind import Kind

KINDS: dict[str, Kind] = {
    kind.name: kind for kind in (accessory_plate.KIND, component_bushings.KIND, stand_off.KIND)
}


def kind(name: str) -> Kind:
    """The kind with this name.

    Raises
    ------
    LookupError
        There is none; the message names the nearest.

    Examples
    --------
    >>> kind("plate")
    Traceback (most recent call last):
    LookupError: no kind of recipe "plate": it is "accessory plate", "component bushings" or "stand-off"
    """
    if name in KINDS:
        return KINDS[name]
    hint = did_you_mean(name, KINDS)
    raise LookupError(f'no kind of recipe "{name}": it is {listed(KINDS)}' + (f" ({hint})" if hint else ""))
