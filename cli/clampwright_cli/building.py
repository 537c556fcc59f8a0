"""Building one recipe here, or many side by side."""

from __future__ import annotations

import multiprocessing
import os
import sys
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Future, ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool
from contextlib import contextmanager
from functools import partial
from pathlib import Path

import click

from clampwright.make import Built, Step
from clampwright_cli import leave
from clampwright_cli.outcome import Outcome, attempt, status_of


def build_all(
    recipes: Sequence[Path], out: Path, jobs: int | None, every: bool, strict: bool
) -> list[Outcome]:
    """Build each recipe; outcomes in the order given. Two recipes of one name are refused, both named."""
    clashes = _clashes(recipes)
    if clashes:
        return clashes
    workers = min(jobs or os.cpu_count() or 1, len(recipes))
    if workers == 1:
        return _in_turn(recipes, out, every, strict)
    return _side_by_side(recipes, out, workers, every, strict)


def build_one(path: Path, out: Path, every: bool, strict: bool, step: Step = lambda _: None) -> Outcome:
    """One recipe's outcome; runs in a worker or here."""

    def work() -> Outcome:
        from clampwright.make import build_recipe

        return _outcome(path, build_recipe(path, out, step), every, strict)

    return attempt(path, work)


def _outcome(path: Path, built: Built, every: bool, strict: bool) -> Outcome:
    from clampwright_cli.outcome import data_of
    from clampwright_cli.report import report

    text = report(built.checked, every) + f"\n\nWritten to {built.folder}\n  " + "\n  ".join(built.files)
    data = data_of(built.checked)
    data |= {"folder": str(built.folder), "files": list(built.files)}
    return Outcome(str(path), status_of(built.checked.verdict, strict), text, data)


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


def _in_turn(recipes: Sequence[Path], out: Path, every: bool, strict: bool) -> list[Outcome]:
    with _status_line() as say:
        return [build_one(path, out, every, strict, partial(say, path)) for path in recipes]


def _side_by_side(
    recipes: Sequence[Path], out: Path, workers: int, every: bool, strict: bool
) -> list[Outcome]:
    context = multiprocessing.get_context("spawn")
    pool = ProcessPoolExecutor(workers, mp_context=context)
    waiting: dict[Future[Outcome], Path] = {
        pool.submit(build_one, path, out, every, strict): path for path in recipes
    }
    outcomes: dict[Path, Outcome] = {}
    with click.progressbar(
        length=len(recipes), label="building", file=sys.stderr, hidden=not _terminal()
    ) as bar:
        for future in as_completed(waiting):
            path = waiting[future]
            outcomes[path] = _result(future, path)
            bar.update(1)
    for process in multiprocessing.active_children():
        process.kill()  # all results are in; leaving by itself costs each worker 0.4 s
    return [outcomes[path] for path in recipes]


def _result(future: Future[Outcome], path: Path) -> Outcome:
    try:
        return future.result()
    except BrokenProcessPool:
        text = f"{path}: nothing was written: the worker process died. Build this recipe alone to see why."
        return Outcome(
            str(path), leave.NOT_WRITTEN, text, {"not_written": {"file": str(path), "why": "worker died"}}
        )


def _terminal() -> bool:
    return sys.stderr.isatty()


@contextmanager
def _status_line() -> Iterator[Callable[[Path, str], None]]:
    """A line on the terminal that says what is being done; nothing in a pipe."""
    shown = _terminal()

    def say(path: Path, words: str) -> None:
        if shown:
            click.echo(f"\r\033[K{path.name}: {words} ...", nl=False, err=True)

    yield say
    if shown:
        click.echo("\r\033[K", nl=False, err=True)
