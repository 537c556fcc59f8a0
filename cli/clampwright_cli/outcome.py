"""Running one recipe, and what is left to print of it. Faults become text here, not tracebacks."""

from __future__ import annotations

import os
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from clampwright_cli import leave
from clampwright_cli.own_fault import own_fault, wants_trace

if TYPE_CHECKING:
    from clampwright.make import Checked


@dataclass(frozen=True, slots=True)
class Outcome:
    """One recipe's result as plain data, so that it can come back from a worker process."""

    recipe: str
    status: int
    text: str
    """For people, on standard output; the fault's message where it could not be done."""
    data: dict[str, Any]
    """For programs."""

    @property
    def done(self) -> bool:
        """Whether there is a result to print (failed checks or not)."""
        return self.status in (leave.DONE, leave.CHECK_FAILED)


def status_of(verdict: str, strict: bool) -> int:
    """Exit status for a worst verdict."""
    bad = {"fail", "unknown", "caution"} if strict else {"fail"}
    return leave.CHECK_FAILED if verdict in bad else leave.DONE


def data_of(checked: Checked) -> dict[str, Any]:
    """A recipe's result for programs: the documents that a build writes as files."""
    from clampwright.files.findings_json import findings_as_json
    from clampwright.files.layout_data import layout_as_data

    layout = checked.layout
    return {
        "verdict": checked.verdict,
        "layout": layout_as_data(layout),
        "findings": findings_as_json(layout.recipe, checked.findings),
    }


def attempt(path: Path, work: Callable[[], Outcome]) -> Outcome:
    """Run `work`; every expected kind of failure becomes an outcome that says what to do."""
    from clampwright.layout.cannot import CannotLayOut
    from clampwright.recipe.faults import RecipeFaults

    try:
        return work()
    except RecipeFaults as faults:
        lines = [fault.text() for fault in faults.faults]
        return Outcome(
            str(path), leave.BAD_RECIPE, "\n".join(lines), {"faults": [fault_data(f) for f in faults.faults]}
        )
    except CannotLayOut as no:
        where = f"{path}:{no.line}" if no.line else str(path)
        data = {"no_layout": {"file": str(path), "line": no.line, "why": no.why, "change": no.change}}
        return Outcome(str(path), leave.BAD_RECIPE, f"{where}: no layout: {no.why}. Do: {no.change}.", data)
    except OSError as error:
        return _not_written(path, error)
    except Exception as fault:
        if wants_trace():
            raise
        return own_fault_of(path, fault)


def own_fault_of(path: Path, fault: Exception) -> Outcome:
    """What there is to say where the program itself failed at `path`."""
    text = own_fault(fault)
    return Outcome(str(path), leave.OWN_FAULT, f"{path}: {text}", {"own_fault": text})


def _not_written(path: Path, error: OSError) -> Outcome:
    """The system's own words where it has some, and the file that it names."""
    reason = error.strerror or str(error)
    what = os.fsdecode(error.filename) if error.filename else ""
    named = f"{what}: {reason}" if what else reason
    text = f"{path}: nothing was written: {named}. Free the place or choose another with --out."
    return Outcome(str(path), leave.NOT_WRITTEN, text, {"not_written": {"file": what, "why": reason}})


def fault_data(fault: Any) -> dict[str, Any]:
    """A fault of a recipe for programs."""
    keys = ("file", "line", "column", "key", "expected", "found", "hint")
    return {key: getattr(fault, key) for key in keys}
