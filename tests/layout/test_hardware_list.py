"""The order list against a count by hand; torque against AC 43.13-1B table 7-1."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest
from layout.hand_clamps import component, component_hole, four, place
from layout.plate_recipes import PARALLEL, recipe

from clampwright.layout.hardware_list import KINDS, hardware
from clampwright.layout.lay_out import lay_out
from clampwright.layout.packing import pack
from clampwright.layout.placed import HardwareLine
from clampwright.layout.stacks import build_stack, clamp_items
from clampwright.recipe.model import Component
from clampwright.trade.hardware import nut
from clampwright.trade.sources import source

POUND_INCH = 0.112984829  # N·m


def by_part(lines: tuple[HardwareLine, ...]) -> dict[str, HardwareLine]:
    assert len({line.part for line in lines}) == len(lines)
    return {line.part: line for line in lines}


def test_four_clamps_and_a_component_counted_by_hand() -> None:
    """Each clamp: an AN3-5A, a nut, two thin washers (.032 + .090 + .1025 + .032 = .2565 in).

    Each of two lugs: .032 + .125 + .090 + .032 = .279 in, again an AN3-5A, a nut, two thin washers.
    """
    clamps, _ = four()
    lines = by_part(hardware(clamps, (component("coil", ("C1", "C2")),)))
    counted = {part: line.quantity for part, line in lines.items()}
    assert counted == {"MS21919WCH12": 4, "AN3-5A": 6, "MS21044N3": 6, "AN960-10L": 12}
    assert lines["AN3-5A"].where == "A1, A2, B1, B2, C1, C2"
    assert lines["MS21919WCH12"].where == "A1, A2, B1, B2"


def test_torque_of_a_tension_nut_on_10_32() -> None:
    """AC 43.13-1B table 7-1: 10-32, tension nuts, 20 to 25 lbf·in."""
    clamps, _ = four()
    nuts = by_part(hardware(clamps, ()))["MS21044N3"]
    assert nuts.torque_nm == pytest.approx((20 * POUND_INCH, 25 * POUND_INCH), rel=1e-6)


def test_packing_is_on_the_list() -> None:
    """Gaps of 12.7 mm twice and 0.3 mm once: two equal bushings, one shim."""
    gaps = {"B1": 12.7, "B2": 12.7, "A2": 0.3}
    clamps = tuple(
        place(label, "t", (0, 0), gap_mm=gap, packing=pack(gap, "AN3", 90, "in"))
        for label, gap in gaps.items()
    )
    lines = hardware(clamps, ())
    made = {line.what: (line.quantity, line.where) for line in lines if line.what in ("shim", "bushing")}
    assert made == {"shim": (1, "A2"), "bushing": (2, "B1, B2")}


def test_the_same_list_whatever_the_order_of_the_input() -> None:
    clamps, _ = four()
    parts = [component("coil", ("C1", "C2")), component("relay", ("D1",), lug_in=0.5)]
    expected = hardware(clamps, parts)
    shuffled = list(clamps)
    random.Random(7).shuffle(shuffled)
    assert hardware(shuffled, parts[::-1]) == expected


def test_dashes_stand_in_order_of_length() -> None:
    parts = [component("long", ("D1",), lug_in=0.7), component("short", ("C1",))]
    bolts = [line.part for line in hardware((), parts) if line.what == "bolt"]
    assert bolts == ["AN3-5A", "AN3-12A"]


def test_kinds_stand_in_order_and_every_line_has_a_source_and_a_place() -> None:
    clamps, _ = four()
    bushed = place("E1", "t", (0, 0), gap_mm=9.0, packing=pack(9.0, "AN3", 90, "mm"))
    lines = hardware((*clamps, bushed), (component("coil", ("C1",)),))
    kinds = [next(k for k in KINDS if k in line.what) for line in lines]
    assert kinds == sorted(kinds, key=KINDS.index)
    for line in lines:
        assert source(line.source).title
        assert line.where
        assert line.quantity > 0
        assert line.mass_each_kg is not None
        assert 0 < line.mass_each_kg < 0.1


def test_a_bolt_without_lengths_is_listed_as_not_known() -> None:
    long = place("A1", "t", (0, 0))
    stack = build_stack("AN7", clamp_items(3.0, (), 3.0, "AN7"), nut("MS21044", "AN7"))
    lines = by_part(hardware((replace(long, stack=stack),), ()))
    assert lines["AN7"].what == "bolt, length not known"
    assert lines["AN7"].mass_each_kg is None
    assert source(lines["AN7"].source).title


def test_screws_of_a_component_without_stacks() -> None:
    relay = replace(component("relay", ("D1", "D2")), stacks=())
    holes = [component_hole(label, "relay", fastener="#8") for label in ("D1", "D2")]
    assert hardware((), (relay,)) == ()
    (line,) = hardware((), (relay,), holes)
    assert (line.part, line.quantity, line.where) == ("#8", 2, "D1, D2")
    assert source(line.source).title


def test_screws_without_lengths_still_get_their_nuts_and_washers() -> None:
    """Two #8 screws: a lock nut and one washer each, under the nut; only the length is for the builder."""
    relay = Component("relay", 0.1, None, 0.0, ((0.0, -9.0), (0.0, 9.0)), "#8", None, 1.5, None, None, 0)
    given = recipe(PARALLEL, carries=(relay,))
    layout = lay_out(given)
    lines = {line.part: line for line in layout.hardware if "C1" in line.where}
    assert {part: line.quantity for part, line in lines.items()} == {"#8": 2, "MS21044N08": 2, "AN960-8": 2}
    assert lines["#8"].what == "screw, length not known"
    assert all(line.where == "C1, C2" for line in lines.values())
    (placed,) = layout.components
    assert placed.stacks == ()
    assert [item.name for item in placed.screw_stacks[0].items] == ["component lug", "plate", "washer"]
