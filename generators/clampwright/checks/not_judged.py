"""What no check of this version looks at, in words for every place that shows a verdict."""

from __future__ import annotations

NOT_JUDGED = (
    "Strength and vibration are not judged: no check works out loads, fatigue or what resonates with the "
    "engine. Have someone competent look at parts, clamps and tubes under the maker's load cases."
)
"""For people, beside the verdict: a pass says nothing about this."""
