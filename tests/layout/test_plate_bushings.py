"""Bushings under a plate as parts: every one that the layout has, none other, and nothing of it changed."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from layout.plate_recipes import PARALLEL, component, plate, recipe
from sheets.sheet_plates import plate as sheet_plate

from clampwright.layout.lay_out import lay_out
from clampwright.layout.plate_bushings import plate_bushings, plate_cuts


def test_a_plate_stood_off_has_one_length_at_every_clamp() -> None:
    """Parallel tubes of one height, stand-off 12 mm: four equal bushings of 12 mm."""
    layout = lay_out(recipe(PARALLEL, carries=(component(),), sheet=plate(stand_off_mm=12.0)))
    (part,) = plate_bushings(layout)
    assert part.quantity == 4
    assert part.length_mm == pytest.approx(12.0)
    assert {fill.where for fill in part.fills} == {clamp.label for clamp in layout.clamps}
    assert [fill.left_mm for fill in part.fills] == [pytest.approx(0.0, abs=1e-6)] * 4
    (item,) = layout.clamps[0].packing
    assert (part.od_mm, part.id_mm) == (pytest.approx(item.od_mm), pytest.approx(item.id_mm))
    assert part.mass_each_kg == pytest.approx(item.mass_kg)
    assert layout.bushings == (part,)
    assert Counter(cut.mark for bar in plate_cuts(layout).bars for cut in bar.cuts) == {"S1": 4}


def test_a_flat_plate_has_none() -> None:
    layout = lay_out(recipe(PARALLEL, carries=(component(),), sheet=plate()))
    assert plate_bushings(layout) == ()
    assert plate_cuts(layout).bars == ()


def test_lengths_are_marked_shortest_first_and_nothing_left_out() -> None:
    layout = sheet_plate(slope=0.06)
    held = [i.thickness_mm for c in layout.clamps for i in c.packing if i.name == "bushing"]
    parts = plate_bushings(layout)
    assert sorted(held) == sorted(part.length_mm for part in parts for _ in range(part.quantity))
    assert [part.mark for part in parts] == [f"S{n}" for n in range(1, len(parts) + 1)]
    assert [part.length_mm for part in parts] == sorted(part.length_mm for part in parts)


def test_stock_grows_with_a_bushing_longer_than_the_usual_length() -> None:
    layout = sheet_plate()
    first = layout.clamps[0]
    bushing = next(i for c in layout.clamps for i in c.packing if i.name == "bushing")
    tall = replace(first, packing=(replace(bushing, thickness_mm=350.0),), gap_mm=350.0)
    cuts = plate_cuts(replace(layout, clamps=(tall, *layout.clamps[1:])))
    assert [bar.length_mm for bar in cuts.bars] == [pytest.approx(2 * 304.8)] * len(cuts.bars)
    assert len(cuts.bars) == 1
