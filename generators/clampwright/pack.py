"""Packs recipes for a shop: one zip with everything that it needs to quote and make the parts."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from clampwright.checks.bay import bay as bay_findings
from clampwright.checks.bay import recipes_of
from clampwright.checks.finding import Finding
from clampwright.files.pack.bay import Bay, Job
from clampwright.layout.cannot import CannotLayOut
from clampwright.make import Checked, check_recipe
from clampwright.recipe.faults import RecipeFaults

if TYPE_CHECKING:
    from clampwright.files.pack.everything import Made

MOST = 20
"""Findings of one recipe that are told in words."""
Step = Callable[[str], None]
"""Called with a few words before each stage that takes time."""


@dataclass(frozen=True, slots=True)
class Packed:
    """What was packed: the zip, the paths of its files in order, and how the recipes stand."""

    path: Path
    files: tuple[str, ...]
    verdicts: tuple[tuple[str, str], ...]
    """(recipe, worst verdict)."""
    failing: tuple[Failing, ...] = ()
    """What fails and was packed all the same."""
    not_verified: tuple[tuple[str, Finding], ...] = ()
    """(recipe, finding) that rests on something nobody measured."""
    between: tuple[Finding, ...] = ()
    """Findings of recipes against each other."""
    no_part_because: tuple[tuple[str, str], ...] = ()
    """(recipe, why) of each that gives no solid and no cutting file."""
    not_nested: str = ""
    """Why flat parts are not nested on sheets, where they should be; everything else is there."""


@dataclass(frozen=True, slots=True)
class Failing:
    """A recipe that is not to be made, and why: each finding says what to change."""

    recipe: str
    file: Path | None
    findings: tuple[Finding, ...]


@dataclass(frozen=True, slots=True)
class Trouble:
    """A recipe of which there is no layout: `why` is a `RecipeFaults` or a `CannotLayOut`."""

    file: Path
    why: RecipeFaults | CannotLayOut

    def text(self) -> str:
        """Lines for a person: file, line, what is wrong, what to do."""
        if isinstance(self.why, RecipeFaults):
            return "\n".join(fault.text() for fault in self.why.faults)
        where = f"{self.file}:{self.why.line}" if self.why.line else str(self.file)
        return f"{where}: no layout: {self.why.why}. Do: {self.why.change}."


class PackFaults(Exception):  # noqa: N818
    """Recipes that cannot be packed, all of them at once."""

    def __init__(self, troubles: tuple[Trouble, ...]) -> None:
        super().__init__("\n".join(trouble.text() for trouble in troubles))
        self.troubles = troubles


class SameName(Exception):  # noqa: N818
    """Recipes of one name, whose files would stand in each other's place; or none at all."""

    def __init__(self, names: tuple[str, ...], files: tuple[Path, ...]) -> None:
        named = ", ".join(str(file) for file in files)
        called = (
            f"all are called {names[0]!r}"
            if len(names) == 1
            else f"{' and '.join(map(repr, names))} differ in capitals alone: one file on some systems"
        )
        super().__init__(f"{named}: {called}; give each recipe a name of its own")
        self.name = names[0]
        self.files = files


class WillNotPack(Exception):  # noqa: N818
    """Parts with a failing check: nothing was written."""

    def __init__(self, failing: tuple[Failing, ...]) -> None:
        super().__init__("\n".join(_failing_text(each) for each in told_once(failing)))
        self.failing = failing


@dataclass(frozen=True, slots=True)
class Told:
    """What is said of a failing recipe where several are: the first findings that were not said before."""

    recipe: str
    findings: tuple[Finding, ...]
    more: int
    """How many more of its own there are."""
    above: int
    """How many were said of a recipe above: those of two against each other."""

    @property
    def left(self) -> str:
        """What is left unsaid, in words; "" for nothing."""
        said = [f"{self.above} said above"] if self.above else []
        if self.more:
            said.append(f"{self.more} more: `clampwright check` shows a recipe's own, --json all")
        return f"and {'; '.join(said)}" if said else ""


def told_once(failing: Iterable[Failing]) -> tuple[Told, ...]:
    """Each finding under the first recipe that it is of, of each recipe no more than anybody reads."""
    said: dict[Finding, None] = {}
    told: list[Told] = []
    for each in failing:
        new = [finding for finding in each.findings if finding not in said]
        said |= dict.fromkeys(new)
        more, above = max(0, len(new) - MOST), len(each.findings) - len(new)
        told.append(Told(each.recipe, tuple(new[:MOST]), more, above))
    return tuple(told)


def pack_recipes(
    paths: Sequence[Path], to: Path, anyway: bool = False, step: Step = lambda _: None
) -> Packed:
    """Check some recipes and write everything that a shop needs to one zip, as a whole or not at all.

    The same recipes give the same bytes, in whichever order they are named and wherever the zip goes.

    Parameters
    ----------
    paths
        The recipes; one named twice counts once.
    to
        The zip. Its folder is made where only that is missing.
    anyway
        Pack what a check forbids, too; every file that it is made from then says so.
    step
        Told what is being done.

    Raises
    ------
    PackFaults
        Recipes that do not read, or that geometry forbids: all of them, nothing is written.
    SameName
        Two recipes of one name.
    WillNotPack
        A check fails, or the drawing, solid or cutting file of a part cannot be made, and not `anyway`.
    ValueError
        No recipe was named.
    OSError
        The zip cannot be written, or something stands there that is not ours; that is left as it was.
    """
    from clampwright.files.pack.target import refuse_strange, write_pack

    if not paths:
        raise ValueError("no recipe to pack")
    refuse_strange(to)
    made = _made(paths, anyway, step)
    step("writing")
    write_pack(made.data, to)
    return _packed(to, made)


def _made(paths: Sequence[Path], anyway: bool, step: Step) -> Made:
    """The zip before it is written; the CAD kernel is loaded only for recipes that may be packed."""
    step("layout and checks")
    bay = bay_of([each for _, each in _checked(paths)])
    _refuse_failing(bay, anyway)
    from clampwright.files.pack.everything import pack_files

    return pack_files(bay, step, lambda found: _refuse_failing(found, anyway))


def bay_of(checked: Iterable[Checked]) -> Bay:
    """The recipes in the order of their names, each with what it and the others do to each other."""
    ordered = sorted(checked, key=lambda each: (each.layout.recipe.name.casefold(), each.layout.recipe.name))
    between = bay_findings([each.layout for each in ordered])
    jobs = tuple(Job(each.layout, (*each.findings, *_of(each, between))) for each in ordered)
    return Bay(jobs, between)


def _of(checked: Checked, between: Iterable[Finding]) -> Iterable[Finding]:
    name = checked.layout.recipe.name
    return (finding for finding in between if name in recipes_of(finding))


def _checked(paths: Sequence[Path]) -> list[tuple[Path, Checked]]:
    done: list[tuple[Path, Checked]] = []
    troubles: list[Trouble] = []
    for path in {path.resolve(): path for path in reversed(paths)}.values():
        try:
            done.append((path, check_recipe(path)))
        except (RecipeFaults, CannotLayOut) as why:
            troubles.append(Trouble(path, why))
    if troubles:
        raise PackFaults(tuple(reversed(troubles)))
    _refuse_one_name(done[::-1])
    return done[::-1]


def _refuse_one_name(done: Iterable[tuple[Path, Checked]]) -> None:
    """On some systems capitals count for nothing in a file's name."""
    owners: dict[str, list[tuple[str, Path]]] = {}
    for path, checked in done:
        name = checked.layout.recipe.name
        owners.setdefault(name.casefold(), []).append((name, path))
    for alike in owners.values():
        if len(alike) > 1:
            names = dict.fromkeys(name for name, _ in alike)
            raise SameName(tuple(names), tuple(path for _, path in alike))


def _refuse_failing(bay: Bay, anyway: bool) -> None:
    failing = _failing(bay)
    if failing and not anyway:
        raise WillNotPack(failing)


def _failing(bay: Bay) -> tuple[Failing, ...]:
    return tuple(Failing(job.recipe.name, job.recipe.path, job.failing) for job in bay.failing)


def _failing_text(told: Told) -> str:
    lines = [f"{told.recipe}: not to be made as it is:"]
    lines += [f"  {f.code} {f.where}: {f.says} Do: {f.change}" for f in told.findings]
    lines += [f"  {told.left}"] if told.left else []
    return "\n".join(lines)


def _packed(to: Path, made: Made) -> Packed:
    bay = made.bay
    return Packed(
        path=to,
        files=made.files,
        verdicts=tuple((job.recipe.name, job.verdict) for job in bay.jobs),
        failing=_failing(bay),
        not_verified=tuple(
            (job.recipe.name, f) for job in bay.jobs for f in job.findings if f.verdict == "unknown"
        ),
        between=bay.between,
        no_part_because=tuple((job.recipe.name, why) for job in bay.jobs for why in job.no_part_because),
        not_nested=made.not_nested,
    )
