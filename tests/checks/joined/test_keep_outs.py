"""KEEP-1 by hand, and against a general minimiser over every body that the layout adds."""

from __future__ import annotations

from dataclasses import replace

import joined_recipes as given
import pytest
from checks.findings_of import of
from checks.joined.hand_layouts import BUSHED, HELD_OFF, LUG_Z, within
from general_minimiser import apart

from clampwright.checks.added import added, keep_out_body
from clampwright.checks.keep_outs import distance_kept
from clampwright.structure.surroundings import KeepOut
from clampwright.trade.tables import rule

pytestmark = pytest.mark.usefixtures("as_measured")

EXHAUST = given.EXHAUST
CASE = KeepOut("engine case", (100.0, -50.0, 150.0), (400.0, 250.0, 400.0), None, 12.0, "engine", "other")
ROD = KeepOut("throttle rod", (330.0, -60.0, 55.0), (450.0, 90.0, 25.0), 6.35, 12.7, "mount", "control")


def test_the_component_under_a_hot_pipe():
    """Pipe's underside at 200 - 22.225, the separator's top at 27.1318 + 90: 60.643 mm, 50 asked."""
    (found,) = distance_kept(BUSHED)
    assert found.value == pytest.approx(200.0 - 22.225 - LUG_Z - 90.0)
    assert (found.verdict, found.where, found.limit) == ("pass", "exhaust", 50.0)
    assert "separator" in found.says
    assert "60.64 mm" in found.says


@pytest.mark.parametrize(("distance", "verdict"), [(60.6, "pass"), (60.7, "fail"), (0.0, "pass")])
def test_the_distance_asked_decides(distance, verdict):
    """At 60.6432 mm; what is lacking is what the change says, rounded up."""
    (found,) = distance_kept(within(BUSHED, keep_outs=(replace(EXHAUST, distance_mm=distance),)))
    assert found.verdict == verdict
    if verdict == "fail":
        assert "0.06 mm farther" in found.change


def test_running_into_each_other_fails_whatever_is_asked():
    low = replace(EXHAUST, start=(0.0, 75.0, 130.0), end=(500.0, 75.0, 130.0), distance_mm=0.0)
    (found,) = distance_kept(within(BUSHED, keep_outs=(low,)))
    assert (found.verdict, found.value) == ("fail", 0.0)
    assert "run into each other" in found.says


def test_every_keep_out_that_is_too_near_is_told_least_first():
    close = (replace(EXHAUST, distance_mm=70.0), replace(CASE, distance_mm=40.0))
    found = distance_kept(within(BUSHED, keep_outs=(*close, ROD)))
    assert [(f.where, f.verdict) for f in found] == [("engine case", "fail"), ("exhaust", "fail")]
    assert of(found, "engine case").value == pytest.approx(150.0 - LUG_Z - 90.0)


@pytest.mark.parametrize("layout", [BUSHED, HELD_OFF], ids=["component", "pair"])
@pytest.mark.parametrize("keep_out", [EXHAUST, CASE, ROD], ids=lambda k: k.name)
def test_against_a_general_minimiser(layout, keep_out):
    """Every body of the layout, one by one, by scipy."""
    (found,) = distance_kept(within(layout, keep_outs=(keep_out,)))
    by_body = {b.what: apart(b.body, keep_out_body(keep_out)) for b in added(layout)}
    assert found.value == pytest.approx(min(by_body.values()), abs=2e-3)
    named = [what for what in by_body if what.lower() in found.says.lower()]
    assert min(by_body[what] for what in named) == pytest.approx(found.value, abs=2e-3)


def test_nothing_to_keep_away_from_is_no_pass():
    """The recipe may just not say: hot pipes (2 in is common practice), controls and fuel lines."""
    (found,) = distance_kept(within(BUSHED, keep_outs=()))
    assert found.verdict == "caution"
    assert f"{rule('keep-out-hot').value:.2f} mm" in found.change


def test_what_a_layout_adds():
    """Two bodies a clamp, head and nut a bolt, one a bushing, the component; the line of a pair."""
    assert len(added(BUSHED)) == 3 * 2 + 3 * 3 + 1
    assert len(added(HELD_OFF)) == 2 * 2 + 3 + 1
    assert [b.what for b in added(HELD_OFF)][-1] == "oil hose"
