"""Hidden folders beside the output, who owns them, and clearing away those whose owner was killed.

A hidden folder is owned as long as a lock on it is held; the system drops the lock with the process.
Where the system has no such locks nothing is cleared away.
"""

from __future__ import annotations

import os
import re
import secrets
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

try:
    import fcntl
except ImportError:  # pragma: no cover
    fcntl = None  # type: ignore[assignment]

NEW, OLD = "new", "old"
_HIDDEN = re.compile(r"\.clampwright-(new|old)-(.+)-[0-9a-f]{8}")


@dataclass(slots=True)
class Hidden:
    """A hidden folder that this process owns."""

    path: Path
    _lock: int | None

    @classmethod
    def make(cls, out: Path, name: str) -> Hidden:
        """A new, empty one for a target of this name."""
        path = hidden_name(out, NEW, name)
        path.mkdir()
        return cls(path, _try_lock(path))

    def release(self) -> None:
        """Give it up."""
        if self._lock is not None:
            os.close(self._lock)
            self._lock = None


def hidden_name(out: Path, kind: str, name: str) -> Path:
    """A name that no other process takes."""
    return out / f".clampwright-{kind}-{name}-{secrets.token_hex(4)}"


@contextmanager
def locked(out: Path) -> Iterator[None]:
    """One process at a time among those that write to this output folder."""
    lock = _open(out)
    try:
        if lock is not None:
            _flock(lock, wait=True)
        yield
    finally:
        if lock is not None:
            os.close(lock)


def clear_leftovers(out: Path) -> None:
    """Remove drafts of killed builds; put back a folder that a killed build had moved aside.

    To be called within `locked`.
    """
    for path in sorted(out.glob(".clampwright-*")):
        found = _HIDDEN.fullmatch(path.name)
        if found is None or path.is_symlink() or not path.is_dir():
            continue
        kind, name = found.groups()
        lock = _try_lock(path)
        if lock is None:
            continue
        try:
            if kind == OLD and not os.path.lexists(out / name):
                path.rename(out / name)
            else:
                shutil.rmtree(path, ignore_errors=True)
        finally:
            os.close(lock)


def _try_lock(path: Path) -> int | None:
    """A lock on a folder, or None where another process holds it, it has just gone, or there are no locks."""
    try:
        lock = _open(path)
    except FileNotFoundError:
        return None
    if lock is None or _flock(lock, wait=False):
        return lock
    os.close(lock)
    return None


def _open(path: Path) -> int | None:
    return os.open(path, os.O_RDONLY) if fcntl is not None else None


def _flock(lock: int, wait: bool) -> bool:
    try:
        fcntl.flock(lock, fcntl.LOCK_EX | (0 if wait else fcntl.LOCK_NB))
    except OSError:
        return False
    return True
