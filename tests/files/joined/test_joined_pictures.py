"""Pictures of joined layouts: what is drawn, that bolts are seen, from which side a panel is looked at."""

from __future__ import annotations

import numpy as np
import pytest
from solids.joined.hand_component import hand_component
from solids.joined.pairs import stand_off

from clampwright.files.pictures import pictures
from clampwright.layout.joined import Joined
from clampwright.solids.joined_assembly import joined_assembly
from clampwright.solids.joint_look import joint_look
from clampwright.solids.views import draw

LAYOUTS: dict[str, Joined] = {
    "component": hand_component(),
    "component with ears": hand_component(body=(60.0, 80.0, 70.0)),
    "skew": stand_off("skew"),
    "parallel": stand_off("parallel"),
    "panel": stand_off("panel"),
}


@pytest.mark.parametrize("name", LAYOUTS)
def test_one_picture_the_same_each_time(name: str) -> None:
    layout = LAYOUTS[name]
    bodies = joined_assembly(layout)
    (first,), (second,) = pictures(layout, bodies), pictures(layout, bodies)
    assert first.name == "by-hand-assembly.svg"
    assert first.data == second.data
    assert first.data.startswith(b"<svg") or b"<svg" in first.data[:200]


@pytest.mark.parametrize("name", LAYOUTS)
def test_up_in_the_world_is_up_in_the_picture(name: str) -> None:
    look = joint_look(LAYOUTS[name])
    assert look.y[2] > 0.5
    assert abs(look.x[2]) < 1e-9


@pytest.mark.parametrize("name", LAYOUTS)
def test_bushings_and_bolts_are_seen(name: str) -> None:
    """Hidden-line removal leaves edges of most bushings and of all but a few bolts or nuts."""
    layout = LAYOUTS[name]
    drawn = {d.body: d for d in draw(joined_assembly(layout), joint_look(layout))}
    joints = [joint.label for joint in layout.joints]
    bushings = [any(drawn[f"bushing {label}"].seen) for label in joints]
    ends = [any(drawn[f"bolt {label}"].seen) or any(drawn[f"nut {label}"].seen) for label in joints]
    assert sum(bushings) >= len(joints) / 2
    assert sum(ends) >= len(joints) / 2 or name == "component"


def test_a_panel_is_looked_at_from_the_side_of_the_line() -> None:
    layout = stand_off("panel")
    assert layout.panel is not None
    assert float(np.dot(joint_look(layout).z, layout.panel.normal)) > 0
