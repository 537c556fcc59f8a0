"""A folder written as a whole or not at all.

Files go to a hidden folder beside the target; when all are there the two change places in one step. A
build that fails or is killed leaves the old folder as it was; what it left behind goes at the next start.
Whatever somebody else put into the folder, or changed in it, is kept.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from clampwright.files.kept import carry_over, made_by_us
from clampwright.files.leftovers import Hidden, clear_leftovers, locked
from clampwright.files.maker import MANIFEST
from clampwright.files.safe_names import safe_name
from clampwright.files.swap import replace_folder
from clampwright.files.written import Written


class NotOurFolder(OSError):  # noqa: N818
    """The place where a folder should go holds something that this program did not make."""


class Draft:
    """The folder being written. `files` so far, and after the end `kept`: files of others carried over."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.files: list[Written] = []
        self.kept: tuple[str, ...] = ()

    def write(self, file: Written) -> None:
        """Add a file. Raises `UnsafeName` for a name that is a path, ValueError for one twice."""
        if any(file.name.casefold() == other.name.casefold() for other in self.files):
            raise ValueError(f"{file.name} is written twice")
        (self.path / safe_name(file.name)).write_bytes(file.data)
        self.files.append(file)


@contextmanager
def folder(out: Path, name: str) -> Iterator[Draft]:
    """A draft that becomes `out`/`name` where the block ends well, and vanishes where it does not.

    Parameters
    ----------
    out : Path
        Made where it is missing.
    name : str
        One plain word.

    Raises
    ------
    UnsafeName
        For a name that could lead elsewhere.
    NotOurFolder
        Where a file, a link or a folder without a manifest of ours stands there: nothing is touched.
    """
    target = out / safe_name(name)
    _refuse_strange(out, target)
    out.mkdir(parents=True, exist_ok=True)
    with locked(out):
        clear_leftovers(out)
        hidden = Hidden.make(out, name)
    draft = Draft(hidden.path)
    try:
        yield draft
        _check_manifest(draft)
        with locked(out):
            _refuse_strange(out, target)
            draft.kept = carry_over(target, hidden.path)
            replace_folder(hidden.path, target)
    finally:
        hidden.release()
        shutil.rmtree(hidden.path, ignore_errors=True)


def _check_manifest(draft: Draft) -> None:
    if not any(file.name == MANIFEST for file in draft.files):
        raise ValueError("a folder without a manifest would never be replaced again")


def _refuse_strange(out: Path, target: Path) -> None:
    if out.exists() and not out.is_dir():
        raise NotOurFolder(f"{out} is not a folder")
    if target.is_symlink() or (target.exists() and not target.is_dir()):
        raise NotOurFolder(
            f"{target} is a file or a link; it is left alone: move it or choose another output"
        )
    if target.exists() and any(target.iterdir()) and not made_by_us(target):
        raise NotOurFolder(
            f"{target} was not made by clampwright; it is left alone: move it or choose another output"
        )
