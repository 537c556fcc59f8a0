"""Invented values for a starter recipe of an accessory plate."""

from __future__ import annotations

from clampwright.recipe.starter_lines import Written

_TUBES = {
    "mm": (
        ("upper", "[0, 0, 200]", "[500, 30, 170]", '"20 mm"'),
        ("lower", "[0, -20, 60]", "[500, 10, 80]", '"20 mm"'),
    ),
    "in": (
        ("upper", "[0, 0, 8]", "[20, 1, 7]", '"3/4 in"'),
        ("lower", "[0, -1, 2.5]", "[20, 0.5, 3]", '"3/4 in"'),
    ),
}
_COMPONENT = {
    "mm": {
        "mass": '"0.5 kg"',
        "holes": "[[-30, -20], [30, -20], [30, 20], [-30, 20]]",
        "lug": "3",
        "body": "[75, 55, 50]",
    },
    "in": {"mass": '"1.1 lb"', "holes": "[[-1.25, -0.75], [1.25, -0.75], [1.25, 0.75], [-1.25, 0.75]]"}
    | {"lug": "0.125", "body": "[3, 2, 2]"},
}


def starter(units: str) -> Written:
    """What the starter recipe writes out, as TOML by key; every other key stands in it as a comment."""
    tubes = {name: {"start": start, "end": end, "od": od} for name, start, end, od in _TUBES[units]}
    component = {"name": '"coil pack"'} | _COMPONENT[units] | {"bolt": '"AN3"'}
    return {
        "about": '"What this plate is for"',
        "structure": {"tubes": tubes},
        "zone": {"temperature": '"200 degF"' if units == "in" else '"95 degC"'},
        "clamps": {"on": '["upper", "lower"]'},
        "plate": {"material": '"6061-T6"', "toward": "[0, -1, 0]"},
        "carries": [component],
    }
