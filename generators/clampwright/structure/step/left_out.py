"""What was round in a STEP file and was not taken for a tube, alike things in one line."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

import numpy as np

from clampwright.quantities import show_length
from clampwright.structure.found import NotTaken
from clampwright.structure.step.judged import Refused, shortest_mm
from clampwright.structure.step.pieces import Whole
from clampwright.structure.step.sizes import odd_size
from clampwright.structure.step.skins import Bend, Faces
from clampwright.structure.wording import counted, show_small, stretch
from clampwright.trade.tables import rule


def left_out(
    faces: Faces, refused: Sequence[Refused], loose: int, unit: str, units: str
) -> tuple[NotTaken, ...]:
    """Everything that was left out, bends first. `unit` is the file's, `units` what lengths are said in."""
    return (*_bends(faces.bends, units), *_refused(refused, unit, units), *_others(faces, loose, units))


def _bends(bends: Sequence[Bend], units: str) -> Iterator[NotTaken]:
    """Torus faces by their bend: those whose skin goes nearly all round are bent tubes, others fillets."""
    together: dict[tuple[float, ...], list[Bend]] = {}
    for bend in bends:
        sizes = (bend.bend_radius_mm, bend.tube_radius_mm)
        key = tuple(round(float(v), 4) + 0.0 for v in (*bend.centre, *sizes))
        together.setdefault(key, []).append(bend)
    sizes_of = Counter(key[3:] for key, some in together.items() if _is_round(some))
    for (bend_radius, tube_radius), count in sorted(sizes_of.items()):
        od, radius = show_length(2 * tube_radius, units), show_length(bend_radius, units)
        what = f"{counted(count, 'bend')} of a tube, OD {od}, radius {radius} to its axis"
        yield NotTaken(what, "not straight: a clamp belongs on the straight tube beside it")


def _is_round(bends: Sequence[Bend]) -> bool:
    swept = max(bend.swept_rad for bend in bends)
    covered = sum(bend.swept_rad * bend.round_rad for bend in bends) / swept
    return bool(covered >= np.radians(rule("step-round-least").value))


def _refused(refused: Sequence[Refused], unit: str, units: str) -> Iterator[NotTaken]:
    alike: dict[tuple[float, str, str], list[float]] = {}
    for one in refused:
        od = round(one.whole.od_mm, 4)
        asked = "" if one.why else _unit_asked(one.whole, unit, units)
        alike.setdefault((-od, one.why, asked), []).append(one.whole.length_mm)
    for (minus_od, why, asked), lengths in sorted(alike.items()):
        what = f"{len(lengths)} × outside diameter {show_length(-minus_od, units)}"
        yield NotTaken(what, why or _too_short(-minus_od, lengths, units) + asked)


def _too_short(od_mm: float, lengths: Sequence[float], units: str) -> str:
    """How long they are, and how long a tube has to be.

    >>> _too_short(80.0, (30.0, 50.0), "mm")
    'too short for a clamp to sit on: 30.00 to 50.00 mm long, and a tube this thick is at least 80.00 mm long'
    """
    least, most = min(lengths), max(lengths)
    same = show_length(least, units) == show_length(most, units)
    long = show_length(most, units) if same else stretch(least, most, units)
    asked = show_length(shortest_mm(od_mm), units)
    return f"too short for a clamp to sit on: {long} long, and a tube this thick is at least {asked} long"


def _unit_asked(whole: Whole, unit: str, units: str) -> str:
    """A thin one, long for its thickness and too short for a clamp, may be a tube in another unit."""
    if whole.length_mm < whole.od_mm or whole.od_mm > rule("tube-length-least").value:
        return ""
    return "".join(f". {said.removesuffix('.')}" for said in odd_size(whole.od_mm, unit, units))


def _others(faces: Faces, loose: int, units: str) -> Iterator[NotTaken]:
    inner = sum(not skin.outer for skin in faces.skins)
    if inner:
        yield NotTaken(counted(inner, "cylinder") + " seen from inside", "bores, holes and copes")
    if faces.free_form:
        within = show_small(rule("step-recognised-within").value, units)
        yield NotTaken(counted(faces.free_form, "free-form face"), f"no cylinder comes within {within}")
    if loose:
        yield NotTaken(
            counted(loose, "loose surface"), "not part of a solid body: outside cannot be told from inside"
        )
    if faces.broken:
        yield NotTaken(counted(faces.broken, "face"), "the CAD kernel cannot work with its geometry")
