"""Bushings cut long: whatever the gap turns out to be within its ±, there is enough left to trim."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from sheets.cut_layouts import Cutting, cutting
from sheets.sheet_plates import plate

from clampwright.layout.cut_long import as_marked, as_sawn, gap_known, left_long, longer_at
from clampwright.layout.known_to import KnownTo
from clampwright.layout.plate_bushings import plate_cuts
from clampwright.layout.shims_ready import ready
from clampwright.trade.tables import rule

SPARE, NOTHING, FACING = (rule(f).value for f in ("bushing-trim", "gap-nothing", "bushing-facing"))


def sure(*gaps_mm: float) -> tuple[KnownTo, ...]:
    """± of the gaps of A1, A2 ..."""
    return tuple(KnownTo(f"A{n}", 1.5, 0.2, mm, True) for n, mm in enumerate(gaps_mm, 1))


def known(gaps: list[float], unsure: list[float], units: str = "mm") -> Cutting:
    return replace(cutting(gaps, units=units), known_to=sure(*unsure))


def test_by_hand_in_steps_of_a_tenth() -> None:
    """12.70 + 2.12 + 0.50 to spare = 15.32, in tenths 15.4: 2.7 longer than the 12.7 that fills 12.70."""
    made = known([12.7], [2.12])
    (part,) = made.bushings
    longer = left_long(part, made.known_to, "mm")
    assert longer.long == ("A1",)
    assert longer.longer_mm == pytest.approx(2.7)


def test_a_gap_known_to_nothing_to_fill_is_cut_to_length() -> None:
    """Below `gap-nothing` either way no packing is asked for."""
    for unsure, long in ((NOTHING, ()), (NOTHING + 0.01, ("A1",))):
        made = known([12.7], [unsure])
        assert left_long(made.bushings[0], made.known_to, "mm").long == long


def test_nothing_known_changes_nothing() -> None:
    made = cutting([12.7, 20.0])
    assert all(left_long(part, (), "mm").longer_mm == 0.0 for part in made.bushings)
    assert as_sawn(made, made.cuts) is made.cuts  # type: ignore[arg-type]


@given(
    st.lists(st.tuples(st.floats(4.0, 60.0), st.floats(0.0, 4.0)), min_size=1, max_size=5),
    st.sampled_from(["mm", "in"]),
    st.floats(-1.0, 1.0),
)
@settings(deadline=None, max_examples=60)
def test_what_is_sawn_fills_any_gap_within_its_plus_minus(
    asked: list[tuple[float, float]], units: str, share: float
) -> None:
    """The gap found is gap + share * ±: the bushing under its washers must reach across it."""
    made = known([gap for gap, _ in asked], [unsure for _, unsure in asked], units)
    step = rule(f"bushing-step-{'metric' if units == 'mm' else 'inch'}").value
    for part in made.bushings:
        longer = left_long(part, made.known_to, units)
        assert sorted(longer.long + longer.to_length) == sorted(fill.where for fill in part.fills)
        for fill in part.fills:
            unsure = made.known_to[int(fill.where[1:]) - 1].gap_mm
            found = fill.gap_mm + share * unsure - sum(thick for _, thick in fill.washers)
            if fill.where in longer.long:
                assert part.length_mm + longer.longer_mm >= found + SPARE - 1e-6
            else:
                assert abs(fill.gap_mm + share * unsure - fill.gap_mm) <= NOTHING + 1e-9
        if longer.long:
            cut = part.length_mm + longer.longer_mm
            assert cut / step == pytest.approx(round(cut / step), abs=1e-6)


def test_the_cut_plan_has_every_piece_as_long_as_it_is_sawn() -> None:
    made = known([12.7, 12.7, 20.0], [0.0, 2.12, 1.0])
    sawn = as_sawn(made, made.cuts)  # type: ignore[arg-type]
    pieces = sorted((cut.mark, round(cut.length_mm, 6)) for bar in sawn.bars for cut in bar.cuts)
    assert pieces == [("S1", 12.7 + FACING), ("S1L", 15.4 + FACING), ("S2", 21.5 + FACING)]
    assert sawn.needed_mm[0][1] > made.cuts.needed_mm[0][1]
    assert {bar.kerf_mm for bar in sawn.bars} == {bar.kerf_mm for bar in made.cuts.bars}


def test_of_one_length_those_cut_longer_have_a_mark_of_their_own() -> None:
    """A1 is sure, A2 is not; both of A3 and A4 are unsure: no mix-up there, and no mark."""
    made = known([12.7, 12.7, 20.0, 20.0], [0.0, 2.12, 1.0, 1.5])
    told = [(part.mark, part.quantity, [fill.where for fill in part.fills]) for part in as_marked(made)]
    assert told == [("S1", 1, ["A1"]), ("S1L", 1, ["A2"]), ("S2", 2, ["A3", "A4"])]
    assert [part.mark for part in made.bushings] == ["S1", "S2"]
    assert {part.length_mm for part in as_marked(made)} == {part.length_mm for part in made.bushings}


@given(
    st.lists(st.tuples(st.floats(4.0, 60.0), st.sampled_from([0.0, 1.0, 2.0])), min_size=1, max_size=6),
    st.sampled_from(["mm", "in"]),
)
@settings(deadline=None, max_examples=40)
def test_no_mark_stands_for_two_lengths_as_sawn(asked: list[tuple[float, float]], units: str) -> None:
    made = known([gap for gap, _ in asked], [unsure for _, unsure in asked], units)
    sawn = as_sawn(made, made.cuts)  # type: ignore[arg-type]
    lengths: dict[str, set[float]] = {}
    for bar in sawn.bars:
        for cut in bar.cuts:
            lengths.setdefault(cut.mark, set()).add(round(cut.length_mm, 6))
    assert {len(each) for each in lengths.values()} <= {1}
    assert set(lengths) == {part.mark for part in as_marked(made)}
    for part in as_marked(made):
        own = left_long(part, made.known_to, units)
        assert not (own.long and own.to_length)
        whole = next(p for p in made.bushings if p.mark == part.mark.removesuffix("L"))
        assert own.longer_mm in (0.0, left_long(whole, made.known_to, units).longer_mm)
        for fill in part.fills:
            assert longer_at(fill.where, made.bushings, made.known_to, units) == own.longer_mm


def test_a_bar_too_short_for_what_is_cut_long_becomes_longer() -> None:
    made = known([30.0], [280.0])
    sawn = as_sawn(made, made.cuts)  # type: ignore[arg-type]
    assert made.cuts.bars[0].length_mm == 305.0
    assert sawn.bars[0].length_mm == 610.0


def test_a_joint_is_as_unsure_as_its_worse_clamp() -> None:
    one, other = KnownTo("A1", 1.0, 0.0, 0.5, True), KnownTo("B1", 1.0, 0.0, 0.7, False)
    assert gap_known("A1+B1", (one, other)) is other
    assert gap_known("B1", (one, other)) is other
    assert gap_known("B10", (one, other)) is None
    assert gap_known("A1+B1", ()) is None


def test_the_fit_up_plan_says_the_same_length() -> None:
    """Its "bushing cut ... long and trimmed" is this one, where the ± is the plan's own."""
    layout = plate()
    layout = replace(layout, known_to=(KnownTo("B2", 1.5, 0.2, 2.12, False),))
    shim = next(s for s in ready(layout.clamps, layout.known_to, "mm") if s.clamp == "B2")
    (part,) = layout.bushings
    cut = part.length_mm + left_long(part, layout.known_to, "mm").longer_mm
    assert f"a bushing cut {cut:.2f} mm long and trimmed to the gap found" in shim.advice
    longest = max(c.length_mm for bar in as_sawn(layout, plate_cuts(layout)).bars for c in bar.cuts)
    assert longest == pytest.approx(cut + FACING)
