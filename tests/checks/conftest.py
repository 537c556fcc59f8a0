"""The example plate, whole and unspoiled."""

from __future__ import annotations

import pytest
from checks.example_plate import LAYOUT

from clampwright.layout.placed import PlateLayout


@pytest.fixture
def layout() -> PlateLayout:
    """A plate that passes every check."""
    return LAYOUT
