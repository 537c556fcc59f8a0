"""Cut lists by hand: pieces, saw cuts and what is left of a bar."""

from __future__ import annotations

from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.layout.bushing_cuts import cut_list, used_mm
from clampwright.layout.bushing_making import made_part
from clampwright.layout.bushing_parts import BushingPart, CutList, MadeUp
from clampwright.layout.bushing_stock import choose_stock
from clampwright.layout.cannot import CannotLayOut
from clampwright.recipe.bushing_model import BushingStock

CHOSEN = choose_stock("AN3", BushingStock(None, None, None, 1.5, 305.0), 90.0, "mm")


def part(mark: str, length: float, count: int) -> BushingPart:
    return made_part(mark, length, CHOSEN, [MadeUp(f"{mark}{n}", length, (), 0.0) for n in range(count)])


def pieces(cuts: CutList) -> list[list[tuple[str, float]]]:
    return [[(cut.mark, cut.length_mm) for cut in bar.cuts] for bar in cuts.bars]


def test_three_pieces_and_three_saw_cuts() -> None:
    """Finished 20, 20 and 10, each 0.5 longer for facing: 51.5 and 3 cuts of 2 leave 100 - 57.5."""
    cuts = cut_list([part("S1", 10.0, 1), part("S2", 20.0, 2)], 2.0, 100.0, "mm")
    assert pieces(cuts) == [[("S2", 20.5), ("S2", 20.5), ("S1", 10.5)]]
    assert cuts.bars[0].left_mm == pytest.approx(42.5)
    assert cuts.needed_mm == ((CHOSEN.says, pytest.approx(55.5)),)


def test_the_last_piece_needs_no_cut_where_the_bar_ends_with_it() -> None:
    """Two pieces of 49 with a cut of 2 are just 100: nothing left. With a cut of 2.1 they are two bars."""
    exact = cut_list([part("S1", 48.5, 2)], 2.0, 100.0, "mm")
    assert len(exact.bars) == 1
    assert exact.bars[0].left_mm == 0.0
    over = cut_list([part("S1", 48.5, 2)], 2.1, 100.0, "mm")
    assert [bar.left_mm for bar in over.bars] == [pytest.approx(48.9)] * 2
    assert over.needed_mm[0][1] == pytest.approx(98.0)


def test_less_than_a_saw_cut_left_is_nothing_left() -> None:
    assert cut_list([part("S1", 98.5, 1)], 2.0, 100.0, "mm").bars[0].left_mm == 0.0


def test_better_than_longest_first() -> None:
    """6, 5, 5, 4, 4, 4, 4 (less facing, no kerf) in bars of 16: longest first takes three, two are enough."""
    lengths = [6.0, 5.0, 5.0, 4.0, 4.0, 4.0, 4.0]
    parts = [part(f"S{n}", 10 * length - 0.5, 1) for n, length in enumerate(lengths)]
    assert sum(lengths) == 32.0
    cuts = cut_list(parts, 0.0, 160.0, "mm")
    assert [sum(length for _, length in bar) for bar in pieces(cuts)] == [pytest.approx(160.0)] * 2


def test_a_piece_longer_than_the_bar_says_what_would_do() -> None:
    with pytest.raises(CannotLayOut, match=r"300\.00 mm") as refused:
        cut_list([part("S1", 299.5, 1)], 1.5, 250.0, "mm")
    assert "bushings.stock_length = 300.00 mm or more" in refused.value.change
    assert "S1" in refused.value.why


def test_nothing_to_cut() -> None:
    assert cut_list([], 1.5, 305.0, "mm") == CutList((), ())


@given(
    st.lists(st.tuples(st.floats(3.0, 90.0), st.integers(1, 4)), min_size=1, max_size=6), st.floats(0.0, 3.0)
)
@settings(deadline=None, max_examples=60)
def test_every_piece_once_and_every_bar_adds_up(made: list[tuple[float, int]], kerf: float) -> None:
    parts = [part(f"S{n}", length, count) for n, (length, count) in enumerate(made)]
    cuts = cut_list(parts, kerf, 200.0, "mm")
    wanted = sorted((p.mark, p.length_mm + 0.5) for p in parts for _ in range(p.quantity))
    assert sorted(each for bar in pieces(cuts) for each in bar) == wanted
    for bar in cuts.bars:
        used = sum(cut.length_mm for cut in bar.cuts) + kerf * (len(bar.cuts) - 1)
        assert used == pytest.approx(used_mm(bar.cuts, kerf))
        assert used <= 200.0 + 1e-5
        assert bar.left_mm == pytest.approx(max(0.0, 200.0 - used - kerf))
    material = sum(length for _, length in wanted)
    assert len(cuts.bars) >= material / 200.0 - 1e-9
    for one, other in combinations(cuts.bars, 2):
        assert used_mm((*one.cuts, *other.cuts), kerf) > 200.0
