"""Many recipes at once, one process a core."""

from __future__ import annotations

import multiprocessing
import signal
import sys
from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import ProcessPoolExecutor, as_completed
from concurrent.futures.process import BrokenProcessPool
from pathlib import Path

import click

from clampwright_cli import leave
from clampwright_cli.outcome import Outcome

Work = Callable[[Path], Outcome]


def side_by_side(recipes: Sequence[Path], work: Work, workers: int) -> list[Outcome]:
    """Run `work` on each recipe; outcomes in the order given.

    Where a worker dies, what it left undone is run again, each recipe in a process of its own, so that
    only the one that kills its worker fails.
    """
    outcomes: dict[Path, Outcome] = {}
    hidden = not sys.stderr.isatty()
    with click.progressbar(length=len(recipes), label="building", file=sys.stderr, hidden=hidden) as bar:

        def done(path: Path, outcome: Outcome) -> None:
            outcomes[path] = outcome
            bar.update(1)

        def stopped() -> str:
            _end(multiprocessing.active_children())
            return f"Stopped: {len(outcomes)} of {len(recipes)} recipes were built."

        leave.on_stop_key(stopped)
        _run(recipes, work, workers, done)
        for path in [path for path in recipes if path not in outcomes]:
            _run([path], work, 1, done)
            if path not in outcomes:
                done(path, _died(path))
    return [outcomes[path] for path in recipes]


def _run(recipes: Sequence[Path], work: Work, workers: int, done: Callable[[Path, Outcome], None]) -> None:
    """Hand each outcome to `done` as it comes; silent about what a dead worker leaves undone."""
    context = multiprocessing.get_context("spawn")
    pool = ProcessPoolExecutor(workers, mp_context=context, initializer=_deaf)
    waiting = {pool.submit(work, path): path for path in recipes}
    try:
        for future in as_completed(waiting):
            done(waiting[future], future.result())
    except BrokenProcessPool:
        pass
    finally:
        _end(multiprocessing.active_children())


def _end(processes: Iterable[multiprocessing.process.BaseProcess]) -> None:
    """All results are in: leaving by itself costs each worker 0.4 s."""
    for process in processes:
        process.kill()


def _deaf() -> None:
    """A worker leaves the stop key to its parent."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)


def _died(path: Path) -> Outcome:
    text = f"{path}: nothing was written: the process that built it died twice. Please report it."
    return Outcome(str(path), leave.OWN_FAULT, text, {"own_fault": text})
