"""Clearing away what killed builds left, while other builds come and go."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from clampwright.files import leftovers


def test_a_draft_that_goes_while_it_is_looked_at_is_nobodys_fault(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another build ends between the listing and the lock: its draft is gone, the rest is cleared."""
    ending, left = (leftovers.hidden_name(tmp_path, leftovers.NEW, name) for name in ("ending", "left"))
    for draft in (ending, left):
        draft.mkdir()
    opened = leftovers._open

    def gone(path: Path) -> int | None:
        if path == ending:
            shutil.rmtree(path)
        return opened(path)

    monkeypatch.setattr(leftovers, "_open", gone)
    leftovers.clear_leftovers(tmp_path)
    assert list(tmp_path.iterdir()) == []
