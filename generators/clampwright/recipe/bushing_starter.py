"""Invented values for a starter recipe of a component on bushings."""

from __future__ import annotations

from clampwright.recipe.starter_lines import Written

_TUBES = {
    "mm": (
        ("upper", "[0, 0, 166]", "[500, 0, 136]", '"20 mm"'),
        ("lower", "[0, 0, 0]", "[500, 0, 0]", '"20 mm"'),
    ),
    "in": (
        ("upper", "[0, 0, 6.6]", "[20, 0, 5.4]", '"3/4 in"'),
        ("lower", "[0, 0, 0]", "[20, 0, 0]", '"3/4 in"'),
    ),
}
_COMPONENT = {
    "mm": {
        "mass": '"0.5 kg"',
        "holes": "[[-40, -55], [40, -55], [0, 55]]",
        "lug": "3",
        "body": "[100, 90, 60]",
    },
    "in": {
        "mass": '"1.1 lb"',
        "holes": "[[-1.5, -2.2], [1.5, -2.2], [0, 2.2]]",
        "lug": "0.125",
        "body": "[4, 3.5, 2.5]",
    },
}
_POSE = {
    "mm": {"at": "[250, -20, 75]", "stand_off": '"6 mm"'},
    "in": {"at": "[10, -1, 3]", "stand_off": '"1/4 in"'},
}


def starter(units: str) -> Written:
    """What the starter recipe writes out, as TOML by key; every other key stands in it as a comment."""
    tubes = {name: {"start": start, "end": end, "od": od} for name, start, end, od in _TUBES[units]}
    directions = {"up": "[0, -1, 0]", "along": "[1, 0, 0]"}
    return {
        "about": '"What this component is for"',
        "structure": {"tubes": tubes},
        "zone": {"temperature": '"200 degF"' if units == "in" else '"95 degC"'},
        "component": {"name": '"separator"'} | _COMPONENT[units],
        "pose": _POSE[units] | directions,
        "clamps": {"on": '["upper", "lower"]'},
    }
