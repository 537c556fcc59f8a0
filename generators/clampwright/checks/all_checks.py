"""Every check in order, the verdict of a whole layout, and the catalogue of codes."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from clampwright.checks import (
    access,
    bay,
    bearing,
    bolts,
    bushing_heat,
    bushings,
    clamps,
    clash,
    clash_joined,
    closing,
    cutting,
    displaced,
    drill_room,
    edges,
    exact,
    fit,
    fluids,
    holes,
    keep_outs,
    long_spacers,
    misfit,
    missing_clamp,
    packing,
    pitch,
    sheet,
    sockets,
    spacer,
    supports,
    surroundings,
    temperature,
    template,
    torque,
    turning,
    welds,
)
from clampwright.checks.asked import Check, CheckInfo
from clampwright.checks.finding import VERDICTS, Finding
from clampwright.layout.joined import Joined

Families = tuple[tuple[Check, ...], ...]

BUSHED: Families = (bushings.CHECKS, long_spacers.CHECKS, bushing_heat.CHECKS)
"""What is looked at wherever there is a bushing."""

SURROUNDED: Families = (keep_outs.CHECKS, displaced.CHECKS, missing_clamp.CHECKS)
"""What is looked at wherever there is something to keep away from, as laid out and displaced."""

PLATE: Families = (
    holes.CHECKS,
    edges.CHECKS,
    pitch.CHECKS,
    bearing.CHECKS,
    clamps.CHECKS,
    clash.CHECKS,
    surroundings.CHECKS,
    access.CHECKS,
    bolts.CHECKS,
    packing.CHECKS,
    supports.CHECKS,
    welds.CHECKS,
    temperature.CHECKS,
    fluids.CHECKS,
    torque.CHECKS,
    sheet.CHECKS,
    cutting.CHECKS,
    template.CHECKS,
    fit.CHECKS,
    *BUSHED,
    *SURROUNDED,
)
"""The families of an accessory plate, in the order in which their findings are shown."""

HELD: Families = (
    turning.CHECKS,
    closing.CHECKS,
    drill_room.CHECKS,
    sockets.CHECKS,
    welds.CHECKS,
    temperature.CHECKS,
    fluids.CHECKS,
    torque.CHECKS,
    *BUSHED,
    *SURROUNDED,
)
"""What is looked at where there is no plate, after what is the kind's own."""

BUSHINGS: Families = (
    misfit.CHECKS,
    clamps.CHECKS,
    clash.CLAMPS,
    clash_joined.CHECKS,
    bolts.CHECKS,
    packing.GAPS,
    *HELD,
)
"""The families of a component on bushings."""

STAND_OFF: Families = (
    spacer.CHECKS,
    clamps.CHECKS,
    clash_joined.CHECKS,
    bolts.CHECKS,
    *HELD,
)
"""The families of a stand-off."""

FAMILIES: dict[str, Families] = {
    "accessory plate": PLATE,
    "component bushings": BUSHINGS,
    "stand-off": STAND_OFF,
}
"""The families of each kind."""


def checks() -> tuple[Check, ...]:
    """Every check of every kind, each once, in order."""
    every = (one for families in FAMILIES.values() for family in families for one in family)
    return tuple({one.code: one for one in every}.values())


def check(layout: Joined) -> tuple[Finding, ...]:
    """Every finding of a layout, in the order of its kind's checks and of the layout's own parts.

    Never raises for a failed check: a failure is a finding whose verdict says so.
    """
    families = FAMILIES[layout.recipe.kind]
    return tuple(finding for family in families for one in family for finding in one.run(layout))


def worst(findings: Iterable[Finding]) -> str:
    """The verdict of the whole: the worst of all findings, "pass" for none.

    >>> from clampwright.checks.finding import Finding
    >>> def found(verdict):
    ...     return Finding("X-1", "example", "plate", verdict, None, None, "", "", "", ())
    >>> worst([found("pass"), found("unknown"), found("caution")])
    'unknown'
    >>> worst([])
    'pass'
    """
    return min((f.verdict for f in findings), key=VERDICTS.index, default="pass")


def catalogue() -> tuple[CheckInfo, ...]:
    """Every code with what it computes and what its limits rest on, in the order of the findings.

    The last are found by `build` alone, on the solids, by `pack` alone, on recipes against each other, and by
    `verify` alone, on finished parts.
    """
    from clampwright.checks.as_made import CHECKS as FINISHED

    more = (one.info() for family in (bay.CHECKS, FINISHED) for one in family)
    return (*(one.info() for one in checks()), exact.INFO, *more)


def grouped(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings that say the same of several places as one, their places joined; for lists that people read.

    >>> from clampwright.checks.finding import Finding
    >>> def found(where):
    ...     return Finding("X-1", "example", where, "pass", 1.0, 2.0, "mm", "It fits.", "", ())
    >>> [f.where for f in grouped([found("A1"), found("A2"), found("B1")])]
    ['A1, A2, B1']
    """
    places: dict[Finding, list[str]] = {}
    for finding in findings:
        value = None if finding.value is None else round(finding.value, 6)
        places.setdefault(replace(finding, where="", value=value), []).append(finding.where)
    return tuple(replace(same, where=", ".join(where)) for same, where in places.items())
