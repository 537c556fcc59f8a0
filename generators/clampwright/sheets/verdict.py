"""What the findings mean for a sheet: whether to drill from it, and the words that say so."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from clampwright.checks.finding import VERDICTS, Finding

DO_NOT_DRILL = "DO NOT DRILL"
_LONGEST = 230
"""Letters of codes and places that a band or a line of a sheet has room for."""
NOT_VERIFIED = "NOT VERIFIED: measure the bars"

_WORDS = {"fail": "fail", "unknown": "not known", "caution": "caution", "pass": "pass"}

CAUTIONS = (
    "For experimental, amateur-built aircraft. The aircraft kit maker's instructions come first, then the "
    "regulations and licensed practice; this sheet replaces none of them.",
    "No hole goes into a tube of the engine mount. Have the finished part inspected before flight.",
    "Values marked as assumed were measured by nobody: measure them on your own parts.",
)


def failing(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """The findings that forbid drilling."""
    return tuple(finding for finding in findings if finding.verdict == "fail")


def counts(findings: Iterable[Finding]) -> str:
    """The worst verdict, and how many findings there are of each.

    Examples
    --------
    >>> counts(())
    'no checks were run'
    """
    number = Counter(finding.verdict for finding in findings)
    said = [f"{number[verdict]} {_WORDS[verdict]}" for verdict in VERDICTS if number[verdict]]
    worst = next((verdict for verdict in VERDICTS if number[verdict]), None)
    return f"{_WORDS[worst].upper()}: {', '.join(said)}" if worst else "no checks were run"


def by_code(findings: Iterable[Finding]) -> str:
    """Codes and places in one line: "EDGE-1 at A1, A2; BOLT-1 at B1".

    Examples
    --------
    >>> found = Finding("EDGE-1", "edge distance", "A1", "fail", 1.2, 1.5, "e/D", "", "", ())
    >>> by_code([found])
    'EDGE-1 at A1'
    """
    places: dict[str, dict[str, None]] = {}
    for finding in findings:
        where = places.setdefault(finding.code, {})
        where |= {finding.where: None} if finding.where else {}
    return "; ".join(code + (f" at {', '.join(where)}" if where else "") for code, where in places.items())


def in_short(findings: Iterable[Finding]) -> str:
    """As `by_code`, of as many as a sheet has room for, and how many more there are.

    Examples
    --------
    >>> from dataclasses import replace
    >>> one = Finding("EDGE-1", "edge distance", "A1", "fail", 1.2, 1.5, "e/D", "", "", ())
    >>> said = in_short(replace(one, where=f"A{number}") for number in range(999))
    >>> said[:16], said[-37:]
    ('EDGE-1 at A0, A1', ', A45; and 953 more, see the findings')
    """
    found = list({(finding.code, finding.where): finding for finding in findings}.values())
    count = next((n for n in range(1, len(found)) if len(by_code(found[: n + 1])) > _LONGEST), len(found))
    more = len(found) - count
    return by_code(found[:count]) + (f"; and {more} more, see the findings" if more else "")
