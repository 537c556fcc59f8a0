"""Hardware left out of a picture: nothing that the exact removal of hidden lines would show is missing."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from solids.hand_layout import hand_layout

from clampwright.layout.lay_out import lay_out
from clampwright.layout.placed import PlateLayout
from clampwright.recipe.read import read
from clampwright.solids.assembly import assembly
from clampwright.solids.hidden import HARDWARE, without_hidden
from clampwright.solids.views import draw, standard_looks

EXAMPLES = Path(__file__).parents[2] / "recipes"
LAYOUTS = {
    "by hand": hand_layout(),
    "coil plate": lay_out(read(EXAMPLES / "coil-plate.toml")),
    "two tubes": lay_out(read(EXAMPLES / "two-tube-minimum.toml")),
}


def left_out(layout: PlateLayout, view: str) -> set[str]:
    """Names of the bodies that a picture goes without."""
    bodies = assembly(layout)
    kept = without_hidden(bodies, layout, standard_looks(layout.frame)[view])
    return {body.name for body in bodies} - {body.name for body in kept}


@pytest.mark.parametrize("name", LAYOUTS)
@pytest.mark.parametrize("view", ["oblique", "far face"])
def test_the_picture_is_the_same_with_and_without(name: str, view: str) -> None:
    layout = LAYOUTS[name]
    bodies, at = assembly(layout), standard_looks(layout.frame)[view]
    missing = left_out(layout, view)
    drawn = {d.body: d for d in draw(bodies, at)}
    assert missing
    assert not any(drawn[body].seen or drawn[body].smooth for body in missing)
    again = draw(without_hidden(bodies, layout, at), at)
    assert [d.body for d in again if d.seen] == [d.body for d in drawn.values() if d.seen]
    for d in again:
        assert len(d.seen) == len(drawn[d.body].seen)


def test_only_hardware_is_left_out_and_only_from_above() -> None:
    layout = LAYOUTS["coil plate"]
    roles = {body.name: body.role for body in assembly(layout)}
    assert {roles[name] for name in left_out(layout, "oblique")} <= set(HARDWARE)
    assert left_out(layout, "near face") == set()
    assert left_out(layout, "edge") == set()


def test_a_component_whose_rooms_break_its_walls_hides_nothing() -> None:
    layout = LAYOUTS["coil plate"]
    coil = layout.components[0]
    heads = {f"bolt {label}" for label in coil.holes}
    assert heads <= left_out(layout, "oblique")
    assert coil.body is not None
    narrow = replace(coil, body=(coil.body[0], 55.0, coil.body[2]))
    assert not heads & left_out(replace(layout, components=(narrow, *layout.components[1:])), "oblique")


def test_a_low_component_does_not_hide_its_bolts() -> None:
    layout = LAYOUTS["coil plate"]
    coil = layout.components[0]
    assert coil.body is not None
    low = replace(coil, body=(*coil.body[:2], 14.0))
    heads = {f"bolt {label}" for label in coil.holes}
    assert not heads & left_out(replace(layout, components=(low, *layout.components[1:])), "oblique")


def test_nothing_is_hidden_behind_an_open_hole() -> None:
    """Without its bolt in it a hole may be looked through."""
    layout = LAYOUTS["coil plate"]
    bodies = assembly(layout)
    at = standard_looks(layout.frame)["far face"]
    label = layout.components[0].holes[0]
    assert f"nut {label}" in left_out(layout, "far face")
    unbolted = [body for body in bodies if body.name != f"bolt {label}"]
    assert f"nut {label}" in {body.name for body in without_hidden(unbolted, layout, at)}
