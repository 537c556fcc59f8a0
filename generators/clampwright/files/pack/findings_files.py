"""What the checks found, for the pack: JSON of each recipe, and a short text of all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from textwrap import wrap

from clampwright.checks.all_checks import grouped
from clampwright.checks.finding import Finding
from clampwright.checks.not_judged import NOT_JUDGED
from clampwright.files.findings_json import findings_json
from clampwright.files.pack.bay import Bay, Job
from clampwright.files.written import Written

NAME = "findings.txt"
WIDTH = 100
_TITLES = (
    ("fail", "FAILS: DO NOT MAKE it as it is"),
    ("unknown", "Not verified: rests on something nobody measured"),
    ("caution", "Cautions"),
)


def findings_files(bay: Bay) -> Iterator[Written]:
    """A JSON file a recipe, and the text."""
    for job in bay.jobs:
        yield findings_json(job.recipe, job.findings)
    text = "\n".join(_lines(bay)) + "\n"
    about = "What the checks found that is no pass, and what to change, in words"
    yield Written(NAME, text.replace("\n", "\r\n").encode("utf-8"), about)


def _lines(bay: Bay) -> Iterator[str]:
    yield f"What the checks found on {bay.name}."
    yield "What passes stands in the JSON files beside this one, with every limit and its source."
    yield ""
    yield from wrap(NOT_JUDGED, WIDTH)
    for job in bay.jobs:
        yield from _of(job)


def _of(job: Job) -> Iterator[str]:
    title = f"{job.recipe.name}, revision {job.recipe.digest}: {len(job.findings)} checks"
    yield from ("", "", title, "=" * len(title))
    for verdict, words in _TITLES:
        yield from _with_verdict(words, grouped(f for f in job.findings if f.verdict == verdict))
    if all(finding.verdict == "pass" for finding in job.findings):
        yield from ("", "Every check passes.")


def _with_verdict(words: str, findings: Iterable[Finding]) -> Iterator[str]:
    for number, finding in enumerate(findings):
        yield from ("", words, "-" * len(words)) if number == 0 else ()
        yield from finding_text(finding)


def finding_text(finding: Finding) -> Iterator[str]:
    """A finding in lines: code and place, what it says, what to change."""
    head = f"{finding.code} {finding.what}: {finding.where}"
    yield from wrap(head, WIDTH, subsequent_indent="  ")
    yield from wrap(finding.says, WIDTH, initial_indent="  ", subsequent_indent="  ")
    if finding.change:
        yield from wrap(f"Do: {finding.change}", WIDTH, initial_indent="  ", subsequent_indent="  ")
