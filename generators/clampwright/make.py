"""Runs the stages. The commands and the Python user call this."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from clampwright.checks.all_checks import check, worst
from clampwright.checks.finding import Finding
from clampwright.layout.kinds import Layout, lay_out
from clampwright.recipe.read import read

Step = Callable[[str], None]
"""Called with a few words before each stage that takes time."""


@dataclass(frozen=True, slots=True)
class Checked:
    """A recipe's layout and its findings."""

    layout: Layout
    findings: tuple[Finding, ...]

    @property
    def verdict(self) -> str:
        """The worst verdict of all findings."""
        return worst(self.findings)


@dataclass(frozen=True, slots=True)
class Built:
    """What a build wrote: the folder, and the names of its files in order.

    `no_part_because` says why there is no STEP, STL or DXF, where there is none.
    """

    checked: Checked
    folder: Path
    files: tuple[str, ...]
    no_part_because: tuple[str, ...] = ()


def check_recipe(path: Path) -> Checked:
    """Read a recipe, lay it out and check it; no CAD kernel is loaded.

    Raises
    ------
    RecipeFaults
        Everything that is wrong with the recipe, at once.
    CannotLayOut
        The recipe reads well but geometry forbids any answer.
    """
    layout = lay_out(read(path))
    return Checked(layout, check(layout))


def build_recipe(path: Path, out: Path, step: Step = lambda _: None) -> Built:
    """Check a recipe and write every file to `out`/<recipe name>, as a whole or not at all.

    Failing checks do not stop a build: every sheet then says that it is not to be drilled.

    Raises
    ------
    RecipeFaults, CannotLayOut
        As `check_recipe`.
    OSError
        The folder could not be written; the old one, if any, is untouched.
    """
    step("layout and checks")
    checked = check_recipe(path)
    from clampwright.files.everything import write_everything

    made = write_everything(checked.layout, checked.findings, out, step)
    return Built(Checked(checked.layout, made.findings), made.folder, made.files, made.no_part_because)
