"""Bare numbers far beyond any limit, also where the other unit would make them larger still."""

from __future__ import annotations

import pytest

from clampwright.recipe.faults import RecipeFaults
from clampwright.recipe.read import read_text

TEXT = """kind = "accessory plate"
name = "large"
units = "{units}"
[structure.tubes]
left = {{ start = [0, 0, 0], end = [{end}, 0, 0], od = "3/4 in" }}
right = {{ start = [0, "140 mm", 0], end = ["500 mm", "140 mm", 0], od = "3/4 in" }}
[clamps]
reach = {reach}
[plate]
thickness = {thickness}
margin = {margin}
stand_off = {stand_off}
[[carries]]
name = "relay"
mass = "1 lb"
holes = [[0, 0]]
"""
RIGHT = {
    "end": '"500 mm"',
    "reach": '"20 mm"',
    "thickness": '"2 mm"',
    "margin": '"12 mm"',
    "stand_off": 0,
}


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("number", [3.95e3, 20200, 1e5, 1e9, 1e300, -1e9])
@pytest.mark.parametrize("key", list(RIGHT))
def test_one_fault_with_its_line(key: str, number: float, units: str) -> None:
    text = TEXT.format(**{**RIGHT, key: number}, units=units)
    if (key, units) == ("end", "mm") and number == 3.95e3:
        return  # a tube of four metres is allowed
    with pytest.raises(RecipeFaults) as faulty:
        read_text(text)
    line = 1 + next(i for i, row in enumerate(text.splitlines()) if f"{number}" in row)
    assert [fault.line for fault in faulty.value.faults] == [line]
