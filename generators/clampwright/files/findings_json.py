"""The findings as JSON. Keys are described in `files/keys.csv`."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from clampwright.checks.finding import VERDICTS, Finding
from clampwright.checks.not_judged import NOT_JUDGED
from clampwright.files.json_text import Json, json_bytes, number
from clampwright.files.written import Written
from clampwright.recipe.model import Recipe
from clampwright.trade.sources import source

FORMAT_VERSION = 1


def findings_json(recipe: Recipe, findings: tuple[Finding, ...]) -> Written:
    """Every finding with the sources of its limit, and the verdict of the whole."""
    data = json_bytes(findings_as_json(recipe, findings))
    return Written(
        f"{recipe.name}-findings.json", data, "Findings of the checks, with the sources of their limits"
    )


def findings_as_json(recipe: Recipe, findings: tuple[Finding, ...]) -> Json:
    """The same before it becomes bytes."""
    return {
        "format": "clampwright findings",
        "format_version": FORMAT_VERSION,
        "recipe": {"name": recipe.name, "digest": recipe.digest},
        **summary(findings),
        "not_judged": NOT_JUDGED,
        "findings": [finding_as_json(finding) for finding in findings],
        "sources": [_source(key) for key in sorted({key for f in findings for key in f.sources})],
    }


def summary(findings: Iterable[Finding]) -> Json:
    """The worst verdict, and how many there are of each.

    >>> summary(())
    {'verdict': 'pass', 'count': {'fail': 0, 'unknown': 0, 'caution': 0, 'pass': 0}}
    """
    count = Counter(finding.verdict for finding in findings)
    worst = next((verdict for verdict in VERDICTS if count[verdict]), "pass")
    return {"verdict": worst, "count": {verdict: count[verdict] for verdict in VERDICTS}}


def finding_as_json(finding: Finding) -> Json:
    """One finding before it becomes bytes."""
    return {
        "code": finding.code,
        "what": finding.what,
        "where": finding.where,
        "verdict": finding.verdict,
        "value": number(finding.value),
        "limit": number(finding.limit),
        "plus_minus_95": number(finding.plus_minus),
        "unit": finding.unit,
        "says": finding.says,
        "change": finding.change,
        "sources": list(finding.sources),
    }


def _source(key: str) -> Json:
    found = source(key)
    return {"key": key, "title": found.title, "status": found.status, "note": found.note}
