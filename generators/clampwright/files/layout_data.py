"""Every layout as data for programs, by its kind. A kind is a line here."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from clampwright.files.joined_json import bushing_as_json, stand_off_as_json
from clampwright.files.json_text import Json
from clampwright.files.layout_json import layout_as_json
from clampwright.layout.joined import Joined

LAYOUT_DATA: dict[str, Callable[[Any], Json]] = {
    "accessory plate": layout_as_json,
    "component bushings": bushing_as_json,
    "stand-off": stand_off_as_json,
}
"""What puts each kind of layout into plain values."""


def layout_as_data(layout: Joined) -> Json:
    """Every place and size of a layout, in plain values; keys are described in `files/keys.csv`."""
    return LAYOUT_DATA[layout.recipe.kind](layout)
