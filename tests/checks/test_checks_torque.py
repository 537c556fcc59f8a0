"""Torque: AC 43.13-1B table 7-1 gives 20 to 25 in lb for 10-32 and tension nuts."""

from __future__ import annotations

from dataclasses import replace

import pytest
from checks.example_plate import LAYOUT, NUT

from clampwright.checks.torque import torque_known
from clampwright.layout.placed import PlateLayout
from clampwright.trade.hardware import torque


def test_one_finding_a_kind_of_bolt_and_nut(layout: PlateLayout):
    (found,) = torque_known(layout)
    assert (found.where, found.verdict) == ("AN3/MS21044N3", "pass")


def test_ac_43_13_1b_table_7_1_in_both_units():
    """20 to 25 in lb are 2.26 to 2.82 N m (1 in lb = 0.11298 N m)."""
    window = torque("AN3", NUT)
    assert window is not None
    clamps = tuple(replace(c, stack=replace(c.stack, torque=window)) for c in LAYOUT.clamps)
    found = torque_known(replace(LAYOUT, clamps=clamps))[0]
    assert "2.3 to 2.8 N m (20 to 25 in-lb)" in found.says
    assert found.value == pytest.approx(25 * 0.112985, abs=0.006)


def test_no_torque_known_is_unknown():
    clamps = tuple(replace(c, stack=replace(c.stack, torque=None)) for c in LAYOUT.clamps)
    found = torque_known(replace(LAYOUT, clamps=clamps))[0]
    assert found.verdict == "unknown"
    assert "MS21044N3" in found.change
