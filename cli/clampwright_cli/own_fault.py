"""A fault of the program itself, said so that it can be reported; never a traceback."""

from __future__ import annotations

import os
from pathlib import Path


def wants_trace() -> bool:
    """Whether the whole trace is asked for: CLAMPWRIGHT_TRACE=1."""
    return bool(os.environ.get("CLAMPWRIGHT_TRACE"))


def own_fault(fault: Exception) -> str:
    """What failed and where in the program, and what to do with it."""
    trace = fault.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    where = f" ({Path(trace.tb_frame.f_code.co_filename).name}:{trace.tb_lineno})" if trace else ""
    return (
        f"clampwright failed at its own work{where}: {type(fault).__name__}: {fault}\n"
        "This is a fault of the program, not of the recipe; nothing was left half-written. "
        "Please report it with the recipe. CLAMPWRIGHT_TRACE=1 shows the whole trace."
    )
