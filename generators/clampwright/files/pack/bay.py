"""Some recipes packed together: their layouts, their findings, and what all of them have in common."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass, replace

from clampwright.checks.finding import Finding
from clampwright.files.everything import with_no_part
from clampwright.files.findings_json import summary
from clampwright.layout.kinds import Layout
from clampwright.recipe.model import Recipe

Findings = tuple[Finding, ...]
_LONGEST = 48
_DIGITS = 16


@dataclass(frozen=True, slots=True)
class Job:
    """One recipe of a pack. Its findings include what it and another recipe do to each other."""

    layout: Layout
    findings: Findings
    no_part_because: tuple[str, ...] = ()

    @property
    def recipe(self) -> Recipe:
        """Its recipe."""
        return self.layout.recipe

    @property
    def verdict(self) -> str:
        """The worst of its findings."""
        return worst_of(self.findings)

    @property
    def failing(self) -> Findings:
        """The findings that forbid making it."""
        return tuple(finding for finding in self.findings if finding.verdict == "fail")

    def without_part(self, *reasons: str, own_fault: bool = False) -> Job:
        """The same recipe, of which no part can be made: its findings say so."""
        findings = with_no_part(self.findings, reasons, own_fault)
        return replace(self, findings=findings, no_part_because=reasons)


@dataclass(frozen=True, slots=True)
class Bay:
    """All recipes of a pack, in the order of their names."""

    jobs: tuple[Job, ...]
    between: Findings = ()
    """Of recipes against each other; each stands with its two jobs too."""

    @property
    def name(self) -> str:
        """What the pack is called inside: the recipes' names, cut short where they are many."""
        return bay_name([job.recipe.name for job in self.jobs])

    @property
    def units(self) -> str:
        """Inches where every recipe is in inches."""
        return "in" if all(job.recipe.units == "in" for job in self.jobs) else "mm"

    @property
    def digest(self) -> str:
        """The revision of the whole: that of the one recipe, or SHA-256 over all, 16 hex digits."""
        digests = [job.recipe.digest for job in self.jobs]
        if len(digests) == 1:
            return digests[0]
        return hashlib.sha256("\n".join(digests).encode("ascii")).hexdigest()[:_DIGITS]

    @property
    def findings(self) -> Findings:
        """Every finding once."""
        return tuple(dict.fromkeys(finding for job in self.jobs for finding in job.findings))

    @property
    def verdict(self) -> str:
        """The worst of all."""
        return worst_of(self.findings)

    @property
    def failing(self) -> tuple[Job, ...]:
        """The recipes that are not to be made."""
        return tuple(job for job in self.jobs if job.failing)

    def without_parts_of(self, recipes: Sequence[str], why: str, own_fault: bool = False) -> Bay:
        """The bay, where of some recipes no part can be made."""
        jobs = (
            job.without_part(why, own_fault=own_fault) if job.recipe.name in recipes else job
            for job in self.jobs
        )
        return replace(self, jobs=tuple(jobs))


def worst_of(findings: Sequence[Finding]) -> str:
    """The worst verdict; "pass" for none."""
    return str(summary(findings)["verdict"])


def bay_name(names: Sequence[str]) -> str:
    """A plain word for some recipes.

    >>> bay_name(["coil-plate"]), bay_name(["coil", "hose"])
    ('coil-plate', 'coil+hose')
    >>> bay_name(["air-oil-separator", "coil-and-relay-plate", "oil-cooler-hose"])
    'air-oil-separator-and-2-more'
    >>> bay_name(["p" * 60]) == "p" * 60
    True
    """
    joined = "+".join(names)
    return joined if len(names) == 1 or len(joined) <= _LONGEST else f"{names[0]}-and-{len(names) - 1}-more"


def sets_said(quantity: int) -> str:
    """How many sets, in words.

    >>> sets_said(1), sets_said(3)
    ('1 set', '3 sets')
    """
    return "1 set" if quantity == 1 else f"{quantity} sets"
