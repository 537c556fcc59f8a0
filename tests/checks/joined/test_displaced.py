"""KEEP-2 and KEEP-3: the engine moved and a clamp slid, by hand and against a general minimiser."""

from __future__ import annotations

from dataclasses import replace

import joined_recipes as given
import pytest
from checks.joined.hand_layouts import BUSHED, HELD_OFF, LUG_Z, asking, within
from general_minimiser import apart

from clampwright.checks.added import added, keep_out_body
from clampwright.checks.displaced import clamp_slid, engine_moved
from clampwright.layout.moved_bodies import shifted
from clampwright.structure.surroundings import KeepOut

pytestmark = pytest.mark.usefixtures("as_measured")

EXHAUST = given.EXHAUST
CLEAR = 200.0 - 22.225 - LUG_Z - 90.0
POST = KeepOut("post", (300.0, 75.0, 40.0), (300.0, 75.0, 120.0), 10.0, 10.0, "mount", "other")
"""25 mm beyond the separator's end at x = 270."""


def riding(layout, what):
    """The component, or the line's far end, rides on it."""
    job = layout.recipe.job
    if hasattr(job, "component"):
        return asking(layout, component=replace(job.component, rides_on=what))
    return asking(layout, carried=replace(job.carried, rides_on=what))


@pytest.mark.parametrize(("moves", "verdict"), [(8.0, "pass"), (15.0, "caution"), (61.0, "fail")])
def test_the_exhaust_moves_with_the_engine(moves, verdict):
    """60.643 at rest, less what the engine moves; 50 asked at rest, touching fails."""
    (found,) = engine_moved(within(BUSHED, engine_moves_mm=moves))
    assert (found.verdict, found.where) == (verdict, "exhaust")
    assert found.value == pytest.approx(max(0.0, CLEAR - moves))
    assert f"{moves:.2f} mm" in found.says


def test_both_on_the_engine_or_neither_stay_as_they_are():
    assert engine_moved(riding(BUSHED, "engine")) == ()
    assert engine_moved(within(BUSHED, keep_outs=(replace(EXHAUST, rides_on="mount"),))) == ()
    assert engine_moved(within(BUSHED, keep_outs=())) == ()


def test_a_component_on_the_engine_moves_against_what_is_on_the_mount():
    fixed = within(riding(BUSHED, "engine"), keep_outs=(replace(EXHAUST, rides_on="cowl"), EXHAUST))
    (found,) = engine_moved(fixed)
    assert found.value == pytest.approx(CLEAR - 8.0)


def test_a_line_to_the_engine_moves_against_both_sides():
    """The hose passes the exhaust at 200 - 22.225 - 60 - 9.525 = 108.25; its clamps stay where they are."""
    for keep_out in (EXHAUST, replace(EXHAUST, rides_on="mount")):
        (found,) = engine_moved(riding(within(HELD_OFF, keep_outs=(keep_out,)), "engine"))
        assert found.value == pytest.approx(108.25 - 8.0)
        assert "oil hose" in found.says


def test_the_movement_has_to_be_known():
    (found,) = engine_moved(within(BUSHED, engine_moves_mm=None))
    assert (found.verdict, found.value) == ("unknown", None)
    assert "12.70 mm" in found.change
    assert engine_moved(within(BUSHED, engine_moves_mm=None, keep_outs=(POST,))) == ()


@pytest.mark.parametrize(
    ("x", "kind", "verdict", "clear"),
    [
        (300.0, "other", "pass", 12.3),
        (297.0, "other", "caution", 9.3),
        (287.0, "other", "caution", 0.0),
        (287.0, "control", "fail", 0.0),
        (180.0, "other", "pass", 12.3),
    ],
)
def test_a_clamp_slid_half_an_inch(x, kind, verdict, clear):
    """The separator ends at x = 210 and 270; a post of 10 mm at x, 12.7 slid towards it, 10 asked."""
    post = replace(POST, start=(x, 75.0, 40.0), end=(x, 75.0, 120.0), kind=kind)
    (found,) = clamp_slid(within(BUSHED, keep_outs=(post,)))
    assert (found.verdict, found.where) == (verdict, "post")
    assert found.value == pytest.approx(clear, abs=1e-6)
    way = "start" if x < 240 else "end"
    assert f"Slid 12.70 mm along low towards its {way} (A1), separator" in found.says


@pytest.mark.parametrize("layout", [BUSHED, HELD_OFF], ids=["component", "pair"])
def test_slid_against_a_general_minimiser(layout):
    """All bodies shifted 12.7 mm either way along x, the direction of both tubes, by scipy."""
    rod = KeepOut("rod", (345.0, -60.0, 55.0), (450.0, 90.0, 25.0), 6.35, 12.7, "mount", "control")
    (found,) = clamp_slid(within(layout, keep_outs=(rod,)))
    every = [
        apart(shifted(b.body, (step, 0.0, 0.0)), keep_out_body(rod))
        for b in added(layout)
        for step in (12.7, -12.7)
    ]
    assert found.value == pytest.approx(min(every), abs=2e-3)


def test_a_line_held_on_a_panel_has_no_clamp_that_slides_along_a_tube():
    on_panel = replace(HELD_OFF, loops=HELD_OFF.loops[1:])
    assert clamp_slid(on_panel) == ()
