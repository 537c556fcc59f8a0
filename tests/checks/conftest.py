"""The example plate, whole and unspoiled; and layouts whose tubes are exactly where they were measured."""

from __future__ import annotations

import pytest
from checks.example_plate import LAYOUT
from checks.still import still

from clampwright.layout.placed import PlateLayout


@pytest.fixture
def layout() -> PlateLayout:
    """A plate that passes every check."""
    return LAYOUT


@pytest.fixture
def as_measured(monkeypatch: pytest.MonkeyPatch) -> None:
    """No ± enters: for tests of the limits themselves."""
    monkeypatch.setattr("clampwright.layout.drifts._worked_out", lambda same: still(same.layout))
