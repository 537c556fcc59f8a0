"""Reading a STEP file in a process of its own, so that a kernel that breaks down takes nobody with it."""

from __future__ import annotations

import os
import pickle
import subprocess
import sys
from pathlib import Path

from clampwright.structure.found import Found
from clampwright.structure.not_readable import NotReadable

_ASK = (
    "import sys; sys.path[:] = {path!r}; from clampwright.structure.step.own_process import answer; answer()"
)
_PYTHON_ERROR = 1


def asked_apart(path: Path, units: str = "mm") -> Found:
    """What `here.tubes_here` finds, asked of another process.

    Raises
    ------
    NotReadable
        As that says, or the kernel broke down.
    RuntimeError
        A fault of this program.
    """
    ask = [sys.executable, "-c", _ASK.format(path=sys.path), str(path), units]
    run = subprocess.run(ask, capture_output=True, check=False)
    if run.returncode == _PYTHON_ERROR:
        raise RuntimeError(f"reading {path} failed:\n{run.stderr.decode('utf-8', 'replace')}")
    if run.returncode != 0:
        change = "export it again from the CAD program, or save it there under another STEP version"
        raise NotReadable("it is broken in a way that the CAD kernel breaks down on", change)
    said: Found | tuple[str, str] = pickle.loads(run.stdout)
    if isinstance(said, tuple):
        raise NotReadable(*said)
    return said


def answer() -> None:
    """In the other process: read the file named on the command line, and write what was found.

    The units that lengths are said in follow the file's name there. Standard output carries the answer
    alone, whatever the kernel has to say; and the process leaves at once, because taking the kernel down
    again costs time.
    """
    answers = os.dup(1)
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
    from clampwright.structure.step.here import tubes_here

    said: Found | tuple[str, str]
    try:
        said = tubes_here(Path(sys.argv[1]), sys.argv[2])
    except NotReadable as no:
        said = (no.why, no.change)
    with os.fdopen(answers, "wb") as out:
        out.write(pickle.dumps(said))
    os._exit(0)
