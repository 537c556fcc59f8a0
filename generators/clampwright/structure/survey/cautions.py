"""What a person has to know of a survey that can be used: what disagrees, what hardly anything checks."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.structure.survey.blunders import Snooped, refusing_limit
from clampwright.structure.survey.fit import Fit
from clampwright.structure.survey.model import Survey
from clampwright.structure.survey.solved import Judged
from clampwright.structure.survey.trouble import along_the_tube
from clampwright.structure.survey.wording import counted, listed, shown
from clampwright.trade.tables import rule

_NAMED = 6
"""So many measurements are named one by one."""


def cautions(
    survey: Survey, snooped: Snooped, judged: tuple[Judged, ...], scale: float, most: float
) -> tuple[str, ...]:
    """Sentences on a rigid figure: ± scaled up, readings to look at again, readings hardly checked."""
    left_out = set(snooped.left_out)
    in_use = [each for number, each in enumerate(judged) if number not in left_out]
    wider = max(snooped.limit / refusing_limit(snooped.fit.equations), scale if scale > most else 1.0)
    return (
        *_scaled(scale, most),
        *_again(survey, in_use, wider),
        *_unchecked(survey, snooped.fit, in_use),
        *along_the_tube(survey, snooped.fit.figure),
        *_ends_at_rings(survey),
    )


def _scaled(scale: float, most: float) -> Iterator[str]:
    if scale > most:
        digits = next(n for n in range(2, 9) if f"{scale:.{n}f}" != f"{most:.{n}f}" or n == 8)
        yield (
            f"The measurements disagree {scale:.{digits}f} times as much as their stated ± allows for "
            f"(chance alone: up to {most:.{digits}f} times), and no single one is to blame: every ± here is "
            f"{scale:.{digits}f} times as large."
        )


def _again(survey: Survey, judged: list[Judged], wider: float) -> Iterator[str]:
    """Readings that 1 good one in 1000 is as far off as: not refused, but worth another look."""
    limit = rule("survey-blunder-limit").value * wider
    for each in judged:
        if each.score is not None and each.score > limit:
            off = shown(abs(each.residual), each.measurement, survey.units)
            yield (
                f"{each.name} is {off} off what all measurements together give, as 1 good reading in 1000 "
                f"is: look at it again."
            )


def _unchecked(survey: Survey, found: Fit, judged: list[Judged]) -> Iterator[str]:
    nothing = [each.name for each in judged if each.hides is None]
    least = rule("survey-checked-least").value
    hardly = [each for each in judged if each.hides is not None and each.redundancy < least]
    if nothing and found.redundancy <= 0:
        yield "Nothing was measured more than is needed: a slip in any measurement would go unseen."
    elif nothing:
        few = listed(nothing) if len(nothing) <= _NAMED else counted(len(nothing), "measurement")
        yield f"Nothing checks {few}: a slip there would go unseen."
    if hardly and found.redundancy > 0:
        hardly.sort(key=lambda each: each.redundancy)
        told = [f"{e.name} (under {shown(e.hides or 0.0, e.measurement, survey.units)})" for e in hardly]
        more = [counted(len(told) - _NAMED, "other measurement")] if len(told) > _NAMED else []
        yield f"Hardly checked, so that a slip would go unseen: {listed([*told[:_NAMED], *more])}."


def _ends_at_rings(survey: Survey) -> Iterator[str]:
    """Tubes taken to end at rings round them alone, without a word on what follows."""
    short = [(t, [p for p in (t.start, t.end) if len(survey.point(p).axis_of) < 2]) for t in survey.tubes]
    short = [(tube, rings) for tube, rings in short if rings and tube.beyond_mm is None]
    if not short:
        return
    names, (_, rings) = listed([tube.name for tube, _ in short]), short[0]
    if len(short) > 1:
        where = "end at their rings"
    else:
        where = f"ends at its {'ring' if len(rings) == 1 else 'rings'} {' and '.join(rings)}"
    yield (
        f"{names} {where}: metal beyond is not seen by clash and weld checks. Write beyond under each: how "
        "far it runs on, 0 where it ends there."
    )
