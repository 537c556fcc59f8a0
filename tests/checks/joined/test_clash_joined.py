"""CLASH-6 to CLASH-8 and ACCESS-3: by hand, and against a general minimiser."""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.findings_of import verdicts
from checks.joined.hand_layouts import BODY, BOLT, BUSHED, HELD_OFF, HOSE, LUG_Z, REACH, within
from general_minimiser import apart

from clampwright.checks.clash_joined import bushings_clear, ends_clear, held_clear
from clampwright.checks.sockets import both_sockets
from clampwright.layout.clash_bodies import tube_body
from clampwright.layout.joined import Named
from clampwright.layout.joint_solids import head_body, head_socket
from clampwright.structure.tubes import Tube

pytestmark = pytest.mark.usefixtures("as_measured")

LOW, HIGH = BUSHED.recipe.structure.tubes


def boxed(**changes):
    """The separator in another box."""
    return replace(BUSHED, component=Named("separator", "separator", replace(BODY, **changes)))


def braced(layout, start, end, od=19.05):
    """The layout with a third tube."""
    return within(layout, tubes=(LOW, HIGH, Tube("brace", start, end, od)))


def test_the_hand_layouts_are_clear():
    for layout in (BUSHED, HELD_OFF):
        for check in (ends_clear, bushings_clear, held_clear, both_sockets):
            assert verdicts(check(layout)) == {"pass"}


@pytest.mark.parametrize("layout", [BUSHED, HELD_OFF], ids=["component", "pair"])
def test_heads_against_a_general_minimiser(layout):
    """Head and washer to the component or hose that they hold."""
    held = layout.parts[0].body if layout.parts else tube_body(layout.lines[0])
    least = min(apart(head_body(joint), held) for joint in layout.joints)
    (found,) = ends_clear(layout)
    assert found.value == pytest.approx(least, abs=2e-3)


@pytest.mark.parametrize(
    ("half", "verdict", "clear"), [(46.0, "pass", 3.6254), (48.0, "caution", 1.6254), (50.0, "fail", 0.0)]
)
def test_a_head_beside_the_body_that_it_holds(half, verdict, clear):
    """B1's bolt is 55.188 from the middle of the separator, its head's washer 5.5626 in radius."""
    found = ends_clear(boxed(half=(30.0, half, 45.0)))[0]
    assert (found.where, found.verdict) == ("B1", verdict)
    assert found.value == pytest.approx(clear, abs=1e-4)


def test_a_box_over_its_own_bolts_says_nothing():
    found = ends_clear(boxed(half=(30.0, 65.0, 45.0)))
    assert ("B1", "unknown") in {(f.where, f.verdict) for f in found}
    assert "covers this bolt" in next(f for f in found if f.where == "B1").says


@pytest.mark.parametrize(("top", "verdict"), [(-4.0, "pass"), (-3.0, "caution"), (-0.5, "fail")])
def test_a_tube_under_a_nut(top, verdict):
    """The pair's bolt ends at z = -0.69965; a brace across below it, its upper side at `top`."""
    z = top - 9.525
    found = ends_clear(braced(HELD_OFF, (BOLT[0], 15.0, z), (BOLT[0], 140.0, z)))[0]
    assert (found.where, found.verdict) == ("A1+B1", verdict)
    assert found.value == pytest.approx(max(0.0, -0.69965 - top), abs=1e-4)
    assert "brace" in found.says


def test_a_tube_beside_a_bushing():
    """A brace along x at the height of the pair's spacer: its skin 2 mm from a bushing of 11.1125."""
    y = REACH + 5.55625 + 2.0 + 9.525
    found = bushings_clear(braced(HELD_OFF, (250.0, y, 30.0), (400.0, y, 30.0)))
    assert (found[0].verdict, found[0].value) == ("caution", pytest.approx(2.0, abs=1e-6))
    assert "1.00 mm away from the tube brace" in found[0].change


@pytest.mark.parametrize(("low", "verdict"), [(0.0, "pass"), (-5.0, "pass"), (-14.5, "fail")])
def test_a_body_that_hangs_down_over_its_own_loops(low, verdict):
    """A box widened to y = 0 hangs over A1's loop, whose top is at 13.1318, 14 under the lugs."""
    centre = (240.0, 62.5, LUG_Z + (90.0 + low) / 2)
    layout = boxed(centre=centre, half=(60.0, 62.5, (90.0 - low) / 2))
    found = held_clear(layout)
    assert ("fail" in verdicts(found)) is (verdict == "fail"), found
    if verdict == "fail":
        assert any("reaches into" in f.says for f in found)


@pytest.mark.parametrize(("clear", "verdict"), [(4.0, "pass"), (1.0, "caution"), (-1.0, "fail")])
def test_a_component_beside_a_tube(clear, verdict):
    """A brace along y over the separator's end at x = 270."""
    x = 270.0 + clear + 9.525
    found = held_clear(braced(BUSHED, (x, 40.0, 100.0), (x, 110.0, 100.0)))[0]
    assert (found.where, found.verdict) == ("separator", verdict)
    assert found.value == pytest.approx(max(0.0, clear), abs=1e-6)


@pytest.mark.parametrize(("z", "verdict"), [(22.5, "pass"), (21.0, "caution"), (19.0, "fail")])
def test_a_hose_over_a_tube(z, verdict):
    """Hose and tube of 19.05 that cross, their axes z apart; 3 mm asked between their skins."""
    line = replace(HOSE, start=(300.0, -150.0, z), end=(300.0, 100.0, z))
    found = held_clear(replace(HELD_OFF, line=line))[0]
    assert (found.where, found.verdict) == ("oil hose", verdict)
    assert found.value == pytest.approx(max(0.0, z - 19.05), abs=1e-4)
    assert "low" in found.says


def test_sockets_against_a_general_minimiser():
    """Socket of 0.53 in on B1's head beside the separator: 55.188 - 40 - 6.731 = 8.457."""
    found = both_sockets(BUSHED)
    assert found[0].value == pytest.approx(8.457, abs=1e-3)
    least = min(apart(head_socket(j), BODY) for j in BUSHED.joints)
    assert found[0].value == pytest.approx(least, abs=2e-3)


@pytest.mark.parametrize(("half", "verdict"), [(46.9, "pass"), (47.1, "caution")])
def test_a_socket_beside_the_body(half, verdict):
    """55.188 - 6.731 - 1.5 = 46.957."""
    found = both_sockets(boxed(half=(30.0, half, 45.0)))
    assert found[0].verdict == verdict
