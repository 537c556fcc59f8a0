"""A commented starter recipe: it reads and lays out as it stands, and shows every key there is."""

from __future__ import annotations

import json

from clampwright.recipe.faults import Fault, RecipeFaults, did_you_mean, listed
from clampwright.recipe.kinds import KINDS
from clampwright.recipe.read import read_text
from clampwright.recipe.starter_lines import table_lines

_HEAD = """\
# A starter recipe. The tubes and the component are invented: put your own in their place.
# What begins with # is not read; take the # away to say more than the defaults do.
# A text may carry its unit, such as "3/4 in", "19.05 mm" or "1.4 lb"; bare numbers are in `units`.
"""


def starter(kind: str, name: str, units: str) -> str:
    """The text of a starter recipe of a kind, called `name`, in "mm" or "in".

    Raises
    ------
    RecipeFaults
        There is no such kind, or the name or the units are none.

    Examples
    --------
    >>> print(starter("accessory plate", "coil-plate", "in").split("\\n")[4])
    kind = "accessory plate"                    # What the recipe makes.
    """
    if kind not in KINDS:
        hint = did_you_mean(kind, KINDS)
        raise RecipeFaults(
            (Fault("new", 1, 1, "kind", f"a kind of recipe: {listed(KINDS)}", f'"{kind}"', hint),)
        )
    if units not in ("mm", "in"):
        raise RecipeFaults((Fault("new", 1, 1, "units", '"mm" or "in"', f'"{units}"', ""),))
    chosen = KINDS[kind]
    head = {"kind": f'"{kind}"', "name": json.dumps(name), "units": f'"{units}"'}
    lines = table_lines(chosen.table(), head | dict(chosen.starter(units)), units)
    text = "\n".join((_HEAD, *lines, ""))
    read_text(text)
    return text
