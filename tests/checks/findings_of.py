"""Looking up findings in tests."""

from __future__ import annotations

from collections.abc import Iterable

from clampwright.checks.finding import Finding


def of(findings: Iterable[Finding], where: str) -> Finding:
    """The one finding about a place."""
    (found,) = (f for f in findings if f.where == where)
    return found


def verdicts(findings: Iterable[Finding]) -> set[str]:
    """The verdicts among findings."""
    return {f.verdict for f in findings}
