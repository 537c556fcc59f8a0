"""Invented values for a starter recipe of a stand-off."""

from __future__ import annotations

from clampwright.recipe.starter_lines import Written

_TUBE = {
    "mm": {"start": "[0, 0, 150]", "end": "[500, 30, 150]", "od": '"20 mm"'},
    "in": {"start": "[0, 0, 6]", "end": "[20, 1, 6]", "od": '"3/4 in"'},
}
_LINE = {
    "mm": {"od": '"20 mm"', "point": "[250, -100, 193]", "to": "[270, 100, 193]"},
    "in": {"od": '"0.77 in"', "point": "[10, -4, 7.75]", "to": "[10.75, 4, 7.75]"},
}


def starter(units: str) -> Written:
    """What the starter recipe writes out, as TOML by key; every other key stands in it as a comment."""
    return {
        "about": '"What this stand-off is for"',
        "structure": {"tubes": {"upper": _TUBE[units]}},
        "zone": {"temperature": '"200 degF"' if units == "in" else '"95 degC"'},
        "support": {"tube": '"upper"'},
        "line": {"name": '"oil hose"', "what": '"hose"'} | _LINE[units],
    }
