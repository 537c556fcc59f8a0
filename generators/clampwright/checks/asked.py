"""A check as data: its code, what it computes, what it rests on, and the function that runs it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from math import inf

from clampwright.checks.finding import Finding
from clampwright.trade.tables import rule

SAME_MM = 1e-6
"""Lengths nearer than this are equal but for the rounding of the arithmetic."""


def telling(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Of findings about room, those that do not pass, least first; where all pass, the one with least room.

    >>> room = [Finding("X-1", "room", w, v, mm, 3.0, "mm", "", "", ()) for w, v, mm in
    ...     (("A1", "pass", 9.0), ("A2", "pass", 4.0), ("B1", "caution", 2.0))]
    >>> [f.where for f in telling(room)], [f.where for f in telling(room[:2])]
    (['B1'], ['A2'])
    """
    ordered = sorted(findings, key=lambda f: inf if f.value is None else f.value)
    return tuple(f for f in ordered if f.verdict != "pass") or tuple(ordered[:1])


@dataclass(frozen=True, slots=True)
class CheckInfo:
    """One line of the catalogue: what a code means and what its limits rest on."""

    code: str
    what: str
    computes: str
    """What is measured and against what, in a sentence."""
    sources: tuple[str, ...]
    """Keys in sources.toml of the rules and documents the check reads."""
    rules: tuple[str, ...]
    """Keys in rules.csv that the check reads."""


@dataclass(frozen=True, slots=True)
class Check:
    """One check: `run` hands back its findings, never raises for a failed one."""

    code: str
    what: str
    computes: str
    run: Callable[..., tuple[Finding, ...]]
    """Takes a layout: of any kind (`Joined`), or of the one kind that its family is registered for."""
    rules: tuple[str, ...] = ()
    sources: tuple[str, ...] = ()
    """Sources beside those of its rules (documents behind table rows that it reads)."""

    def info(self) -> CheckInfo:
        """The check's line in the catalogue, with the sources of its rules looked up."""
        named = (*(rule(key).source for key in self.rules), *self.sources)
        return CheckInfo(self.code, self.what, self.computes, tuple(dict.fromkeys(named)), self.rules)
