"""Work for a test: it kills its own process for the recipe called "dies"."""

from __future__ import annotations

import os
import signal
from pathlib import Path

from clampwright_cli.outcome import Outcome


def work(path: Path) -> Outcome:
    """An outcome, or the end of the process."""
    if path.name == "dies":
        os.kill(os.getpid(), signal.SIGKILL)
    return Outcome(path.name, 0, "", {})
