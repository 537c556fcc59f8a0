"""Two packs for all tests: one that may be made, one that may not."""

from __future__ import annotations

import pytest
from pack.packs import THREE, TOO_NARROW, Unpacked, packed


@pytest.fixture(scope="session")
def three(tmp_path_factory: pytest.TempPathFactory) -> Unpacked:
    """A plate, bushings and a stand-off of one bay."""
    return packed(tmp_path_factory.mktemp("three") / "bay.zip", THREE, PYTHONHASHSEED="1", TZ="UTC")


@pytest.fixture(scope="session")
def failing(tmp_path_factory: pytest.TempPathFactory) -> Unpacked:
    """A plate that is too narrow, packed all the same."""
    return packed(tmp_path_factory.mktemp("failing") / "bay.zip", [TOO_NARROW], anyway=True)
