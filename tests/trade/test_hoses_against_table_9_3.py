"""Hoses against AC 43.13-1B, table 9-3, page 9-22: hose of MIL-H-8794."""

from __future__ import annotations

from itertools import pairwise

import pytest

from clampwright.trade.hoses import hose, hoses
from clampwright.trade.sources import source
from clampwright.trade.tables import load

TABLE_9_3 = {
    # dash: tube O.D., hose I.D., hose O.D., bend radius (all in), highest temperature (°F)
    3: (3 / 16, 1 / 8, 0.45, 3.00, 250),
    6: (3 / 8, 5 / 16, 0.67, 4.00, 250),
    8: (1 / 2, 13 / 32, 0.77, 4.63, 250),
    12: (3 / 4, 5 / 8, 1.08, 6.50, 250),
    16: (1.0, 7 / 8, 1.23, 7.38, 275),
    32: (2.0, 1 + 13 / 16, 2.22, 13.25, 275),
}


@pytest.mark.parametrize(("dash", "cells"), TABLE_9_3.items())
def test_rows_retyped(dash: int, cells: tuple[float, ...]) -> None:
    tube_od, bore, od, bend, fahrenheit = cells
    found = hose(dash)
    assert found.id_mm == pytest.approx(bore * 25.4)
    assert found.od_mm == pytest.approx(od * 25.4)
    assert found.bend_radius_mm == pytest.approx(bend * 25.4)
    assert found.max_temperature_c == pytest.approx((fahrenheit - 32) / 1.8)
    row = next(row for row in load("hoses").rows if row.whole("dash") == dash)
    assert row.number("tube_od") == pytest.approx(tube_od * 25.4)
    assert source(found.source).status == "regulation"


def test_the_dash_is_the_tube_in_sixteenths() -> None:
    for row in load("hoses").rows:
        assert row.number("tube_od") == pytest.approx(row.whole("dash") * 25.4 / 16)


def test_sizes_grow_together() -> None:
    found = list(hoses().values())
    for one, next_one in pairwise(found):
        assert one.dash < next_one.dash
        assert one.od_mm < next_one.od_mm
        assert one.id_mm < next_one.id_mm
        assert one.bend_radius_mm <= next_one.bend_radius_mm
    assert all(each.id_mm < each.od_mm < each.bend_radius_mm for each in found)


def test_an_unknown_dash() -> None:
    with pytest.raises(LookupError, match="no hose -7: the sizes are -3, -4, -5, -6, -8"):
        hose(7)
