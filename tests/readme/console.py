"""The README's console blocks: each `$ clampwright ...` line with the output that the README shows.

Run as a script it rewrites the outputs in README.md: `python tests/readme/console.py`. A line `[...]` stands
for any number of lines and is kept.
"""

from __future__ import annotations

import re
import shlex
import shutil
import subprocess
import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

TOP = Path(__file__).parents[2]
BLOCK = re.compile(r"^```console\n(.*?)^```$", re.MULTILINE | re.DOTALL)


@dataclass(frozen=True, slots=True)
class Shown:
    """One command and the lines that the README shows after it."""

    command: str
    lines: tuple[str, ...]


def shown(text: str) -> tuple[Shown, ...]:
    """Every command of every console block, in order."""
    found = []
    for block in BLOCK.findall(text):
        for part in re.split(r"^\$ ", block, flags=re.MULTILINE)[1:]:
            command, *lines = part.rstrip("\n").split("\n")
            found.append(Shown(command, tuple(lines)))
    return tuple(found)


def output(command: str, folder: Path) -> tuple[str, ...]:
    """What a command prints, both streams, run in `folder`."""
    program, *words = shlex.split(command)
    assert program == "clampwright", command
    run = subprocess.run(
        [sys.executable, "-m", "clampwright_cli", *words],
        cwd=folder,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        check=False,
    )
    return tuple(run.stdout.rstrip("\n").split("\n"))


def agrees(expected: tuple[str, ...], found: tuple[str, ...]) -> bool:
    """Whether an output is what the README shows, `[...]` standing for any lines."""
    pattern = "\n".join(".*?" if line == "[...]" else re.escape(line) for line in expected)
    return re.fullmatch(pattern, "\n".join(found), re.DOTALL) is not None


def workplace(folder: Path) -> Path:
    """A folder with the recipes, as in a fresh clone."""
    shutil.copytree(TOP / "recipes", folder / "recipes")
    return folder


def _refreshed(text: str, folder: Path) -> str:
    for item in shown(text):
        found = output(item.command, folder)
        if agrees(item.lines, found):
            continue
        old = "\n".join((f"$ {item.command}", *item.lines))
        text = text.replace(old, "\n".join((f"$ {item.command}", *found)), 1)
    return text


def main() -> None:
    """Rewrite the outputs in README.md."""
    readme = TOP / "README.md"
    with tempfile.TemporaryDirectory() as folder:
        text = _refreshed(readme.read_text(encoding="utf-8"), workplace(Path(folder)))
    readme.write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
