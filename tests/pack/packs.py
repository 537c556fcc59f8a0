"""Packs of the example recipes, made in processes of their own and unpacked by Python's zipfile."""

from __future__ import annotations

import os
import subprocess
import sys
import zipfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

RECIPES = Path(__file__).parents[2] / "recipes"
THREE = ("coil-plate", "separator-bushings", "oil-hose-stand-off")
TOO_NARROW = "coil-plate-too-narrow"
SCRIPT = """
import sys
from pathlib import Path
from clampwright.pack import pack_recipes
to, anyway, *recipes = sys.argv[1:]
pack_recipes([Path(recipe) for recipe in recipes], Path(to), anyway == "anyway")
"""


@dataclass(frozen=True, slots=True)
class Unpacked:
    """A pack: its bytes, its top folder, and its files by path below that."""

    data: bytes
    top: str
    files: dict[str, bytes]

    def text(self, path: str) -> str:
        """A text file of it."""
        return self.files[path].decode("utf-8")


def packed(
    to: Path, names: Sequence[str], *, anyway: bool = False, cwd: Path | None = None, **env: str
) -> Unpacked:
    """Pack example recipes in a new process."""
    recipes = [str(RECIPES / f"{name}.toml") for name in names]
    command = [sys.executable, "-c", SCRIPT, str(to), "anyway" if anyway else "-", *recipes]
    subprocess.run(command, check=True, cwd=cwd, env={**os.environ, **env})
    return unpacked(to)


def unpacked(path: Path) -> Unpacked:
    """A pack as Python's own zipfile finds it."""
    with zipfile.ZipFile(path) as archive:
        assert archive.testzip() is None
        names = archive.namelist()
        tops = {name.split("/")[0] for name in names}
        assert len(tops) == 1, tops
        top = tops.pop()
        files = {name.removeprefix(f"{top}/"): archive.read(name) for name in names}
    return Unpacked(path.read_bytes(), top, files)
