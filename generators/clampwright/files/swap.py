"""Putting a new folder in the place of an old one."""

from __future__ import annotations

import ctypes
import os
import sys
from pathlib import Path

from clampwright.files.leftovers import OLD, hidden_name

_HERE = -100
_EXCHANGE = 2


def replace_folder(new: Path, target: Path) -> None:
    """Put `new` where `target` is; afterwards `new` holds the old folder, or is gone where there was none.

    On Linux the two change places in one step. Elsewhere the old one is moved aside first: a process killed
    between the two moves leaves no target, and the next build puts the old one back.
    """
    if not target.exists() or not any(target.iterdir()):
        _move_to_free_place(new, target)
    elif not exchange(new, target):
        move_aside_and_replace(new, target)


def exchange(a: Path, b: Path) -> bool:
    """Let two folders change places in one step; False where the system cannot."""
    if not sys.platform.startswith("linux"):
        return False
    call = getattr(ctypes.CDLL(None, use_errno=True), "renameat2", None)
    if call is None:
        return False
    return bool(call(_HERE, os.fsencode(a), _HERE, os.fsencode(b), _EXCHANGE) == 0)


def move_aside_and_replace(new: Path, target: Path) -> None:
    """The same in two moves; the old folder ends up at `new`."""
    aside = hidden_name(target.parent, OLD, target.name)
    target.rename(aside)
    try:
        new.rename(target)
    except OSError:
        aside.rename(target)
        raise
    aside.rename(new)


def _move_to_free_place(new: Path, target: Path) -> None:
    if target.exists():
        target.rmdir()
    new.rename(target)
