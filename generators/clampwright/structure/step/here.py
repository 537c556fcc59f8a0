"""The tubes in a STEP file, read in this process."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from pathlib import Path

from clampwright.quantities import Vec3
from clampwright.structure.found import Found, FoundTube
from clampwright.structure.not_readable import NotReadable
from clampwright.structure.step.axes import lines_of
from clampwright.structure.step.copes import cope_depths
from clampwright.structure.step.doubts import doubts_of
from clampwright.structure.step.judged import Refused, Taken, judged
from clampwright.structure.step.left_out import left_out
from clampwright.structure.step.naming import names_for
from clampwright.structure.step.opened import Opened, opened
from clampwright.structure.step.pieces import Whole, wholes_of
from clampwright.structure.step.skins import Faces, faces_of
from clampwright.structure.tubes import Tube


def tubes_here(path: Path, units: str = "mm") -> Found:
    """Every straight round tube in a STEP file, as `read.tubes_in_step` says it; lengths are said in `units`.

    The kernel can break down on a broken file, and takes the process with it.

    Raises
    ------
    NotReadable
        No such file, no STEP file, broken, nothing solid in it, or a mesh.
    """
    file = opened(path)
    faces = faces_of(file.parts)
    if faces.looked_at and faces.triangles == faces.looked_at:
        change = "export the model that it was made from, or save it as STL and look for tubes as in a scan"
        raise NotReadable("its bodies are made of flat triangles: a mesh saved as STEP", change)
    wholes = wholes_of(lines_of([skin for skin in faces.skins if skin.outer]))
    bores = lines_of([skin for skin in faces.skins if not skin.outer])
    verdicts = [judged(whole, bores) for whole in wholes]
    taken = sorted((one for one in verdicts if isinstance(one, Taken)), key=_rank)
    refused = [one for one in verdicts if isinstance(one, Refused)]
    return _found(path.name, file, faces, taken, refused, wholes, units)


def _rank(taken: Taken) -> tuple[float, ...]:
    whole = taken.whole
    start = whole.line.at(whole.low_mm)
    return (-round(whole.length_mm, 3), -round(whole.od_mm, 3), *(round(float(v), 3) for v in start))


def _found(
    source: str,
    file: Opened,
    faces: Faces,
    taken: Sequence[Taken],
    refused: Sequence[Refused],
    wholes: Sequence[Whole],
    units: str,
) -> Found:
    names = names_for([_part_of(one.whole) for one in taken])
    tubes = tuple(
        _tube(number, name, one, doubts_of(one, wholes, file.unit, units))
        for number, (name, one) in enumerate(zip(names, taken, strict=True), 1)
    )
    loose = sum(part.loose_faces for part in file.parts)
    not_taken = left_out(faces, refused, loose, file.unit, units)
    return Found(source, file.unit, file.unit_how, tubes, not_taken, file.size_mm, faces.looked_at)


def _part_of(whole: Whole) -> str:
    """The part that most of its skin belongs to."""
    shares: Counter[str] = Counter()
    for face in whole.faces:
        shares[face.skin.part] += round(1000 * (face.high_mm - face.low_mm) * face.wide_rad)
    return max(shares, key=lambda part: (shares[part], part))


def _tube(number: int, name: str, taken: Taken, doubts: tuple[str, ...]) -> FoundTube:
    from clampwright.structure.stock_sizes import stock_size
    from clampwright.trade.tables import rule

    whole = taken.whole
    od = _even(whole.od_mm)
    stock = stock_size(od, rule("step-same-within").value)
    return FoundTube(
        number,
        Tube(name, _point(whole, whole.low_mm), _point(whole, whole.high_mm), od),
        od_found_mm=od,
        od_plus_minus_mm=0.0,
        stock=stock[0] if stock else "",
        bore_mm=None if taken.bore_mm is None else _even(taken.bore_mm),
        coverage_rad=taken.coverage_rad,
        ends_plus_minus_mm=0.0,
        angle_plus_minus_rad=0.0,
        residual_mm=0.0,
        points=len(whole.faces),
        spread_mm=(),
        doubts=doubts,
        gaps_mm=tuple((_even(g.low_mm - whole.low_mm), _even(g.high_mm - whole.low_mm)) for g in whole.gaps),
        copes_mm=_copes(whole),
    )


def _copes(whole: Whole) -> tuple[float, float]:
    low, high = cope_depths(whole.faces)
    return _even(low), _even(high)


def _point(whole: Whole, height_mm: float) -> Vec3:
    x, y, z = whole.line.at(height_mm)
    return _even(x), _even(y), _even(z)


def _even(mm: float) -> float:
    """Without the last digits that a change of units leaves behind, and without -0."""
    return round(float(mm), 9) + 0.0
