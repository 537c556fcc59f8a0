"""Building one recipe here, or many side by side."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from clampwright.make import Built, Step
from clampwright_cli import leave
from clampwright_cli.outcome import Outcome, attempt, status_of
from clampwright_cli.status_line import status_line


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is wanted of each build, beside its files."""

    out: Path
    detail: str
    """How much of the findings: "brief", "usual" or "all"."""
    strict: bool
    as_json: bool


def build_all(recipes: Sequence[Path], wanted: Wanted, jobs: int | None) -> list[Outcome]:
    """Build each recipe; outcomes in the order given.

    A file named twice is built once. Two recipes of one name are refused, both named.
    """
    once = list({path.resolve(): path for path in reversed(recipes)}.values())[::-1]
    clashes = _clashes(once)
    if clashes:
        return clashes
    workers = min(jobs or os.cpu_count() or 1, len(once))
    if workers == 1:
        return _in_turn(once, wanted)
    from clampwright_cli.side_by_side import side_by_side

    return side_by_side(once, partial(build_one, wanted=wanted), workers)


def build_one(path: Path, wanted: Wanted, step: Step = lambda _: None) -> Outcome:
    """One recipe's outcome; runs in a worker or here."""

    def work() -> Outcome:
        from clampwright.make import build_recipe

        return _outcome(path, build_recipe(path, wanted.out, step), wanted)

    return attempt(path, work)


def _outcome(path: Path, built: Built, wanted: Wanted) -> Outcome:
    """The text or the data, whichever is wanted: each takes a while."""
    from clampwright_cli.outcome import data_of
    from clampwright_cli.report import report

    status = status_of(built.checked.verdict, wanted.strict)
    if wanted.as_json:
        data = data_of(built.checked) | {"folder": str(built.folder), "files": list(built.files)}
        data |= {"no_part_because": list(built.no_part_because)}
        return Outcome(str(path), status, "", data)
    written = f"\n\nWritten to {built.folder}\n  " + "\n  ".join(built.files)
    if built.no_part_because:
        written += f"\nNo STEP, STL or DXF, because no part can be made: {'; '.join(built.no_part_because)}."
    return Outcome(str(path), status, report(built.checked, wanted.detail) + written, {})


def _clashes(recipes: Sequence[Path]) -> list[Outcome]:
    """Recipes that would write the same folder: found before anything is written."""
    if len(recipes) < 2:
        return []
    from clampwright.recipe.faults import RecipeFaults
    from clampwright.recipe.read import read

    owners: dict[str, list[Path]] = {}
    for path in recipes:
        try:
            owners.setdefault(read(path).name.casefold(), []).append(path)
        except RecipeFaults:
            continue
    return [
        Outcome(
            str(path),
            leave.BAD_RECIPE,
            f"{path}: nothing was built: the name {name!r} is also that of "
            + ", ".join(str(other) for other in paths if other is not path)
            + ". Give each recipe a name of its own: it names the output folder.",
            {"same_name": {"name": name, "files": [str(p) for p in paths]}},
        )
        for name, paths in owners.items()
        if len(paths) > 1
        for path in paths
    ]


def _in_turn(recipes: Sequence[Path], wanted: Wanted) -> list[Outcome]:
    with status_line() as say:
        return [build_one(path, wanted, partial(say, path.name)) for path in recipes]
