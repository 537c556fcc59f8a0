"""What a check hands back."""

from __future__ import annotations

from dataclasses import dataclass

VERDICTS = ("fail", "unknown", "caution", "pass")
"""Worst first."""


@dataclass(frozen=True, slots=True)
class Finding:
    """One check of one thing. Never raised: a failed check is a value like any other."""

    code: str
    """Stable code, family and number: "HOLE-1", "EDGE-1"."""
    what: str
    """The check in a few words: "hole size", "edge distance"."""
    where: str
    """Label of the hole, clamp, component or part."""
    verdict: str
    """"pass", "caution", "fail", or "unknown" where the value rests on a default nobody measured."""
    value: float | None
    limit: float | None
    unit: str
    """Unit of value and limit ("mm", "deg", "e/D", "")."""
    says: str
    """One sentence with the numbers, for a person."""
    change: str
    """What to change to pass, with the number; "" on a pass."""
    sources: tuple[str, ...]
    """Keys in sources.toml that the limit rests on."""
    plus_minus: float | None = None
    """± (95 %) of the value, in its unit, from how the tubes were measured; None where none is worked out."""
