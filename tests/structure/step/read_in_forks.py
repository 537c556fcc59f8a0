"""What comes of reading many STEP files, each in a fork of one process that has the kernel loaded.

Run as a program: paths come in line by line, a line goes out for each.
"""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Sequence
from pathlib import Path

EXPECTED = ("found", "not readable", "kernel died")
_CODES = {0: "found", 2: "not readable"}
_LONGEST_S = 60


def outcomes(paths: Sequence[Path]) -> list[str]:
    """For each file one of `EXPECTED`, or what else came of it."""
    told = "".join(f"{path}\n" for path in paths)
    run = subprocess.run(
        [sys.executable, __file__], input=told, text=True, check=True, stdout=subprocess.PIPE
    )
    return run.stdout.splitlines()


def _came_of(path: Path) -> str:
    child = os.fork()
    if child == 0:
        os._exit(_read(path))
    status = os.waitpid(child, 0)[1]
    if not os.WIFSIGNALED(status):
        return _CODES.get(os.WEXITSTATUS(status), "an error of ours")
    return "took for ever" if os.WTERMSIG(status) == signal.SIGALRM else "kernel died"


def _read(path: Path) -> int:
    from clampwright.structure.not_readable import NotReadable
    from clampwright.structure.step.here import tubes_here

    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
    signal.alarm(_LONGEST_S)
    try:
        tubes_here(path)
    except NotReadable:
        return 2
    except BaseException:
        import traceback

        traceback.print_exc()
        return 1
    return 0


if __name__ == "__main__":
    import OCP.STEPCAFControl

    assert OCP.STEPCAFControl
    for line in sys.stdin:
        print(_came_of(Path(line.rstrip("\n"))), flush=True)
