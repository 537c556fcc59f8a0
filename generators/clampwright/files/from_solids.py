"""What comes of the solids of a layout: files, and findings that only solids could show."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.checks.finding import Finding
from clampwright.files.written import Written


@dataclass(frozen=True, slots=True)
class FromSolids:
    """Files made from solids, and what measuring the solids found."""

    files: tuple[Written, ...]
    findings: tuple[Finding, ...] = ()
