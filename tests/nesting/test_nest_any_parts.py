"""Nests of parts drawn at random, judged by shapely on fine polygons, and by rectpack on boxes."""

from __future__ import annotations

import math
import os
import subprocess
import sys
from collections import Counter
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
import rectpack
from hypothesis import given, settings
from hypothesis import strategies as st
from nesting.cut_parts import angle, disc, fine, hull, part, rounded

from clampwright.nesting import searching
from clampwright.nesting.nest import nest
from clampwright.nesting.nested import Nest

TESTS = Path(__file__).parents[1]
FINE_MM = 2e-6
"""Two proofs of 1 um each way, and the chords of fine polygons."""

sizes = st.floats(20, 140, allow_nan=False).map(lambda v: round(v, 3))
places = st.tuples(st.floats(0, 120), st.floats(0, 90))


@st.composite
def outlines(draw):
    kind = draw(st.sampled_from(["angle", "rounded", "disc", "hull"]))
    if kind == "disc":
        return disc(draw(st.floats(5, 60)))
    if kind == "hull":
        discs = draw(st.lists(st.tuples(places, st.floats(6, 15)), min_size=2, max_size=5))
        grid = [((round(x, -1), round(y, -1)), radius) for (x, y), radius in discs]
        return hull(*dict(zip([place for place, _ in grid], grid, strict=True)).values())
    wide, high = draw(sizes), draw(sizes)
    if kind == "rounded":
        return rounded(wide, high, draw(st.floats(1, 9)))
    leg = draw(st.floats(0.3, 0.6)) * min(wide, high)
    return angle(wide, high, leg, draw(st.sampled_from([0.0, 2.0])))


@st.composite
def jobs(draw):
    shop = {
        "kerf_mm": draw(st.sampled_from([0.2, 1.0, 1.5])),
        "edge_margin_mm": draw(st.sampled_from([0.0, 6.0, 10.0])),
        "stock_sheet_mm": draw(st.sampled_from([(200.0, 300.0), (160.0, 1000.0), (90.0, 90.0)])),
    }
    count = draw(st.integers(1, 4))
    return [
        part(
            f"p{k}",
            draw(outlines()),
            draw(st.integers(1, 3)),
            grain=draw(st.sampled_from(["any", "any", "along", "across"])),
            **shop,
        )
        for k in range(count)
    ]


def quick(job):
    """A nest with less work: what is laid must hold however little was searched."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(searching, "WORK_FEW", 300)
        patch.setattr(searching, "WORK_EACH", 20)
        return nest(job)


@settings(deadline=None, max_examples=40)
@given(jobs())
def test_no_two_parts_nearer_than_the_kerf_and_none_over_the_margin(job):
    for sheet in quick(job).sheets:
        stock = sheet.stock
        shapes = [fine(laid) for laid in sheet.laid]
        for x0, y0, x1, y1 in (each.bounds for each in shapes):
            assert min(x0, y0) >= stock.margin_mm - FINE_MM
            assert x1 <= stock.width_mm - stock.margin_mm + FINE_MM
            assert y1 <= stock.length_mm - stock.margin_mm + FINE_MM
        for one, other in combinations(shapes, 2):
            assert one.distance(other) >= stock.kerf_mm - FINE_MM
        ends = max(each.bounds[3] for each in shapes)
        assert math.isclose(sheet.used_mm2, (ends + stock.margin_mm) * stock.width_mm, rel_tol=1e-6)
        assert math.isclose(sheet.parts_mm2, sum(each.area for each in shapes), rel_tol=1e-5)


@settings(deadline=None, max_examples=40)
@given(jobs())
def test_every_copy_is_laid_once_or_left_out_with_a_reason(job):
    found = quick(job)
    laid = Counter((each.part.number, each.copy) for sheet in found.sheets for each in sheet.laid)
    left = dict(found.left_out)
    asked = [(p.number, copy) for p in job if p.number not in left for copy in range(1, p.quantity + 1)]
    assert laid == Counter(asked)
    assert all(p.number not in left or "would do" in left[p.number] for p in job)
    for p in job:
        x0, y0, x1, y1 = p.outline.box()
        width, length = (side - 2 * p.shop.edge_margin_mm for side in p.shop.stock_sheet_mm)
        upright, across = (x1 - x0, y1 - y0), (y1 - y0, x1 - x0)
        ways = [way for way in (upright, across) if _grain_kept(way, p.shop.grain)]
        assert (p.number in left) == all(w > width + 1e-6 or h > length + 1e-6 for w, h in ways)


@settings(deadline=None, max_examples=40)
@given(jobs())
def test_the_grain_is_kept(job):
    for sheet in quick(job).sheets:
        for laid in sheet.laid:
            x0, y0, x1, y1 = fine(laid).bounds
            assert _grain_kept((x1 - x0, y1 - y0), laid.part.shop.grain)


def _grain_kept(size, grain):
    across, along = size
    if grain == "any" or abs(across - along) < 1e-4:
        return True
    return (along > across) == (grain == "along")


@settings(deadline=None, max_examples=40)
@given(jobs())
def test_never_looser_than_the_boxes(job):
    found = quick(job)
    for words, share, sheets in found.baseline:
        same = [sheet for sheet in found.sheets if sheet.stock.words == words]
        used = sum(sheet.used_mm2 for sheet in same)
        assert len(same) <= sheets
        assert sum(sheet.parts_mm2 for sheet in same) / used >= share - 1e-9 or len(same) < sheets


@settings(deadline=None, max_examples=20)
@given(st.lists(st.tuples(st.integers(20, 120), st.integers(20, 120)), min_size=2, max_size=8))
def test_boxes_are_packed_at_least_as_well_as_rectpack_does_by_itself(boxes):
    """The general library at its defaults, on a sheet that takes them all: its length in use, or less."""
    packer = rectpack.newPacker(rotation=True)
    for number, (wide, high) in enumerate(boxes):
        packer.add_rect(wide, high, number)
    packer.add_bin(240, 1000)
    packer.pack()
    theirs = max(y + high for _, _, y, _, high, _ in packer.rect_list())
    shop = {"kerf_mm": 0.0, "edge_margin_mm": 0.0, "stock_sheet_mm": (240.0, 1000.0)}
    found = nest([part(f"p{k}", rounded(w, h, 2), **shop) for k, (w, h) in enumerate(boxes)])
    assert found.sheets[0].used_mm2 / 240 <= theirs + 1e-5


def two_recipes() -> Nest:
    """A nest that has arcs, angles, a slanted hull and copies."""
    one = part("one", angle(120, 90, 31.7, 3), 3)
    two = part("two", hull(((0.0, 0.0), 12.0), ((95.3, 14.1), 15.0), ((40.0, 66.6), 10.0)), 3)
    return nest([one, two, replace(part("three", disc(21.3)), quantity=4)])


SAID = """
import hashlib, sys
sys.path.insert(0, {tests!r})
from nesting.test_nest_any_parts import two_recipes
found = two_recipes()
places = [(l.part.number, l.copy, l.turn_rad, l.at) for s in found.sheets for l in s.laid]
print(hashlib.sha256(repr((places, found.baseline)).encode()).hexdigest())
"""


def test_the_same_places_in_every_process():
    said = set()
    for seed in ("0", "1", "4242"):
        env = {**os.environ, "PYTHONHASHSEED": seed}
        code = [sys.executable, "-c", SAID.format(tests=str(TESTS))]
        said.add(subprocess.run(code, env=env, check=True, capture_output=True, text=True).stdout)
    assert len(said) == 1
    assert len(said.pop().strip()) == 64
