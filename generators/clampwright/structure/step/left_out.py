"""What was round in a STEP file and was not taken for a tube, alike things in one line."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

import numpy as np

from clampwright.quantities import show_length
from clampwright.structure.found import NotTaken
from clampwright.structure.step.judged import Refused
from clampwright.structure.step.sizes import odd_size
from clampwright.structure.step.skins import Bend, Faces
from clampwright.trade.tables import rule


def left_out(faces: Faces, refused: Sequence[Refused], loose: int, unit: str) -> tuple[NotTaken, ...]:
    """Everything that was left out, bends first."""
    return (*_bends(faces.bends), *_refused(refused, unit), *_others(faces, loose))


def _bends(bends: Sequence[Bend]) -> Iterator[NotTaken]:
    """Torus faces by their bend: those whose skin goes nearly all round are bent tubes, others fillets."""
    together: dict[tuple[float, ...], list[Bend]] = {}
    for bend in bends:
        sizes = (bend.bend_radius_mm, bend.tube_radius_mm)
        key = tuple(round(float(v), 4) + 0.0 for v in (*bend.centre, *sizes))
        together.setdefault(key, []).append(bend)
    sizes_of = Counter(key[3:] for key, some in together.items() if _is_round(some))
    for (bend_radius, tube_radius), count in sorted(sizes_of.items()):
        od, radius = show_length(2 * tube_radius, "mm"), show_length(bend_radius, "mm")
        what = f"{_times(count, 'bend')} of a tube, OD {od}, radius {radius} to its axis"
        yield NotTaken(what, "not straight: a clamp belongs on the straight tube beside it")


def _is_round(bends: Sequence[Bend]) -> bool:
    swept = max(bend.swept_rad for bend in bends)
    covered = sum(bend.swept_rad * bend.round_rad for bend in bends) / swept
    return bool(covered >= np.radians(rule("step-round-least").value))


def _refused(refused: Sequence[Refused], unit: str) -> Iterator[NotTaken]:
    alike = Counter((round(one.whole.od_mm, 4), _why(one, unit)) for one in refused)
    for (od, why), count in sorted(alike.items(), key=lambda item: (-item[0][0], item[0][1])):
        yield NotTaken(f"{count} × outside diameter {show_length(od, 'mm')}", why)


def _why(refused: Refused, unit: str) -> str:
    """A thin one, long for its thickness and too short for a clamp, may be a tube in another unit."""
    whole = refused.whole
    if not refused.short or whole.length_mm < whole.od_mm or whole.od_mm > rule("tube-length-least").value:
        return refused.why
    return ". ".join((refused.why, *odd_size(whole.od_mm, unit))).removesuffix(".")


def _others(faces: Faces, loose: int) -> Iterator[NotTaken]:
    inner = sum(not skin.outer for skin in faces.skins)
    if inner:
        yield NotTaken(_times(inner, "cylinder") + " seen from inside", "bores, holes and copes")
    if faces.free_form:
        within = show_length(rule("step-recognised-within").value, "mm")
        yield NotTaken(_times(faces.free_form, "free-form face"), f"no cylinder comes within {within}")
    if loose:
        yield NotTaken(
            _times(loose, "loose surface"), "not part of a solid body: outside cannot be told from inside"
        )
    if faces.broken:
        yield NotTaken(_times(faces.broken, "face"), "the CAD kernel cannot work with its geometry")


def _times(count: int, what: str) -> str:
    return f"{count} {what}" + ("s" if count != 1 else "")
