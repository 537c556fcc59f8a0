"""What a folder of ours holds that is not ours, and keeping it when the folder is replaced."""

from __future__ import annotations

import hashlib
import json
import os
import shutil
from itertools import count
from pathlib import Path
from typing import Any

from clampwright.files.maker import MAKER, MANIFEST


def made_by_us(folder: Path) -> bool:
    """Whether a folder has a manifest of ours."""
    return _manifest(folder) is not None


def carry_over(old: Path, new: Path) -> tuple[str, ...]:
    """Bring into `new` all that `old` holds beside the files of its manifest; the names it has there.

    A listed file that was changed since is no longer the file that was listed: it is kept too. Where its
    name is taken it is called ``name.kept-1.ext``. Raises OSError for what can be neither linked nor copied.
    """
    manifest = _manifest(old) if old.is_dir() else None
    if manifest is None:
        return ()
    ours = {entry["name"]: entry["sha256"] for entry in manifest["files"]}
    strange = [entry for entry in sorted(old.iterdir()) if not _is_ours(entry, ours)]
    return tuple(_keep(entry, new) for entry in strange)


def _manifest(folder: Path) -> dict[str, Any] | None:
    """The manifest, where it is one of ours and lists files as it should."""
    path = folder / MANIFEST
    try:
        found = json.loads(path.read_bytes())
        ours = found["made_by"] == MAKER and all(
            isinstance(e["name"], str) and isinstance(e["sha256"], str) for e in found["files"]
        )
    except (OSError, ValueError, KeyError, TypeError):
        return None
    return found if ours and not path.is_symlink() else None


def _is_ours(entry: Path, ours: dict[str, str]) -> bool:
    if entry.is_symlink() or not entry.is_file():
        return False
    if entry.name == MANIFEST:
        return True
    return ours.get(entry.name) == hashlib.sha256(entry.read_bytes()).hexdigest()


def _keep(entry: Path, new: Path) -> str:
    name = _free_name(entry, new)
    if entry.is_symlink():
        (new / name).symlink_to(entry.readlink())
    elif entry.is_dir():
        shutil.copytree(entry, new / name, symlinks=True, copy_function=_link)
    else:
        _link(entry, new / name)
    return name


def _free_name(entry: Path, new: Path) -> str:
    if not os.path.lexists(new / entry.name):
        return entry.name
    names = (f"{entry.stem}.kept-{k}{entry.suffix}" for k in count(1))
    return next(name for name in names if not os.path.lexists(new / name))


def _link(old: str | Path, new: str | Path) -> None:
    try:
        os.link(old, new)
    except OSError:
        if not Path(old).is_file():
            raise  # a pipe or a socket cannot be copied: better no new folder than to lose it
        shutil.copy2(old, new)
