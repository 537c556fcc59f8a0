"""Where a pack is written: as a whole or not at all, and never over a file that is not a pack of ours."""

from __future__ import annotations

import errno
import json
import os
import shutil
import zipfile
from contextlib import suppress
from pathlib import Path

from clampwright.files.leftovers import Hidden, clear_leftovers, locked
from clampwright.files.maker import MAKER, MANIFEST
from clampwright.files.safe_names import plain_name

ENDING = ".zip"
_LARGEST_MANIFEST = 10_000_000


class NotOurZip(OSError):  # noqa: N818
    """The place where a pack should go holds something else, or has no name for a zip."""


def refuse_strange(to: Path) -> None:
    """Raise `NotOurZip` or another OSError where a pack cannot go to this place; nothing is touched.

    A name must end in .zip. What stands there already must be a pack that this program wrote. One folder may
    be missing: it will be made.
    """
    if to.suffix.lower() != ENDING:
        raise NotOurZip(f"{to} is no name for a zip: let it end in {ENDING}")
    if to.parent.exists() and not to.parent.is_dir():
        raise NotOurZip(f"{to.parent} is not a folder")
    if os.path.lexists(to) and not made_by_us(to):
        raise NotOurZip(f"{to} was not made by clampwright; it is left alone: move it or choose another name")
    folder = to.parent if to.parent.exists() else to.parent.parent
    _refuse_unwritable(folder)
    _refuse_long(folder / to.name)


def _refuse_unwritable(folder: Path) -> None:
    """Seconds of work would be lost; said again by the system itself when it comes to writing."""
    if not folder.exists():
        raise FileNotFoundError(errno.ENOENT, os.strerror(errno.ENOENT), str(folder))
    if not os.access(folder, os.W_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES), str(folder))


def _refuse_long(path: Path) -> None:
    """A name that the system takes for no file at all raises its own OSError."""
    with suppress(FileNotFoundError):
        path.lstat()


def made_by_us(path: Path) -> bool:
    """Whether a file is a zip with one top folder and a manifest of ours in it."""
    if path.is_symlink() or not path.is_file():
        return False
    try:
        with zipfile.ZipFile(path) as archive:
            tops = {name.split("/")[0] for name in archive.namelist()}
            info = archive.getinfo(f"{tops.pop()}/{MANIFEST}") if len(tops) == 1 else None
            if info is None or info.file_size > _LARGEST_MANIFEST:
                return False
            return bool(json.loads(archive.read(info))["made_by"] == MAKER)
    except (OSError, ValueError, KeyError, TypeError, zipfile.BadZipFile, NotImplementedError, RuntimeError):
        return False


def write_pack(data: bytes, to: Path) -> None:
    """Put the zip in its place in one step; the folder is made where only it is missing.

    It is written to a hidden folder beside the target first: a pack that fails or is killed leaves the old
    file as it was, and what it left behind goes at the next start.

    Raises
    ------
    NotOurZip
        As `refuse_strange`.
    OSError
        The place cannot be written.
    """
    refuse_strange(to)
    out = to.parent
    out.mkdir(exist_ok=True)
    with locked(out):
        clear_leftovers(out)
        hidden = Hidden.make(out, plain_name(to.stem))
    try:
        new = hidden.path / "new"
        with new.open("wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        with locked(out):
            refuse_strange(to)
            new.replace(to)
    finally:
        hidden.release()
        shutil.rmtree(hidden.path, ignore_errors=True)
