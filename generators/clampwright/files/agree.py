"""Whether a drawing says what the solid has. Everything of the solid is measured on the solid.

A drawing's side of the comparison is what it tells: outline, thickness, holes, bends, lengths, diameters,
mass, and the value and words of every dimension. Each difference is a sentence; nothing should be kept then.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from clampwright.files.agree_dimensions import dimensions_differing
from clampwright.layout.shop.told import Bend, FlatPart, ToldHole, TurnedGroup
from clampwright.sheets.drawing import Dimension, Sheet
from clampwright.solids.measure import box_mm, volume_mm3
from clampwright.solids.round_faces import RoundFace, open_holes, round_faces
from clampwright.solids.shapes import Shape
from clampwright.trade.tube_stock import bushing_material

SAME_MM = 1e-6
"""Lengths agree within this."""
SAME_SHARE = 1e-6
"""Volumes and masses agree within this share."""
BENT_SHARE = 1e-3
"""Volumes of bent parts: ends of bends are not cut square everywhere, reliefs are told in the flat."""
_M3 = 1e-9

Told = FlatPart | TurnedGroup | Sheet


@dataclass(frozen=True, slots=True)
class _Measured:
    """What is measured on the solid, once."""

    size: tuple[float, float, float]
    low: tuple[float, float, float]
    volume_mm3: float
    rounds: tuple[RoundFace, ...]
    holes: tuple[RoundFace, ...]
    """Whole and hollow."""
    blind: int


def disagreements(told: Told, shape: Shape, dimensions: Sequence[Dimension] = ()) -> tuple[str, ...]:
    """Everything in which what is told of a part differs from its solid; nothing where they agree.

    Parameters
    ----------
    told : FlatPart | TurnedGroup | Sheet
        What the drawing was made from; of a sheet only its dimensions are looked at.
    shape : Shape
        The solid in the part's own frame: a plate with its datum corner at the origin and its near face at
        z = 0 (a bent part as it is bent), a bushing with its bore along z.
    dimensions : Sequence[Dimension]
        Of the drawing, as they stand on its pages.

    Notes
    -----
    A flat part holds V = (A - sum of pi d²/4) t. A bend of angle b, inside radius r and length w holds
    b (r + t/2) t w, where its flat is told as allowance times t times w: the two agree only where the
    allowance is taken at mid thickness, so the difference is added for every bend.

    Examples
    --------
    >>> from clampwright.sheets.drawing import Sheet
    >>> from clampwright.solids.shapes import ring
    >>> disagreements(Sheet("a", "a", (), False), ring(11.0, 5.0, 12.5))
    ()
    """
    return tuple(_differing(told, shape, dimensions))


def _differing(told: Told, shape: Shape, dimensions: Sequence[Dimension]) -> Iterator[str]:
    if isinstance(told, Sheet):
        dimensions = [each for page in told.pages for each in page.dimensions] + list(dimensions)
    else:
        solid = _measured(shape)
        if len(shape.Solids()) != 1:
            yield f"the solid is {len(shape.Solids())} bodies, not one"
        yield from _flat(told, solid) if isinstance(told, FlatPart) else _turned(told, solid)
    yield from dimensions_differing(dimensions, shape)


def _measured(shape: Shape) -> _Measured:
    low, high = box_mm(shape)
    rounds = round_faces(shape)
    holes = tuple(each for each in rounds if each.hollow and each.whole)
    x, y, z = (b - a for a, b in zip(low, high, strict=True))
    blind = open_holes(shape, holes).count(False)
    return _Measured((x, y, z), low, volume_mm3(shape), rounds, holes, blind)


def _flat(part: FlatPart, solid: _Measured) -> Iterator[str]:
    left, bottom, right, top = part.outline.box()
    if not part.bends:
        yield from _lengths("length along x", right - left, solid.size[0])
        yield from _lengths("length along y", top - bottom, solid.size[1])
        yield from _lengths("left edge", left, solid.low[0])
        yield from _lengths("lower edge", bottom, solid.low[1])
        yield from _lengths("thickness", part.thickness_mm, solid.size[2])
    yield from _holes(part, solid)
    for bend in part.bends:
        yield from _bend(bend, part.thickness_mm, solid)
    share = BENT_SHARE if part.bends else SAME_SHARE
    yield from _shares("volume", _flat_volume(part), solid.volume_mm3, share, "mm3")
    mass = part.material.density_kg_m3 * solid.volume_mm3 * _M3
    yield from _shares("mass", part.mass_kg, mass, share, "kg")


def _flat_volume(part: FlatPart) -> float:
    area = part.outline.area_mm2() - math.fsum(math.pi * hole.diameter_mm**2 / 4 for hole in part.holes)
    t = part.thickness_mm
    bent = (
        (b.angle_rad * (b.inside_radius_mm + t / 2) - b.allowance_mm) * math.dist(b.start, b.end)
        for b in part.bends
    )
    return t * (area + math.fsum(bent))


def _holes(part: FlatPart, solid: _Measured) -> Iterator[str]:
    left = list(solid.holes)
    for told in part.holes:
        found = next((hole for hole in left if _is(told, hole, part)), None)
        if found is None:
            size = f"{told.diameter_mm:.6g} mm"
            yield f"hole {told.label}: the solid has none of {size} at {_place(told, part)}"
            continue
        left.remove(found)
        yield from _lengths(f"thickness at hole {told.label}", part.thickness_mm, found.length_mm)
    for hole in left:
        yield f"the solid has a hole of {hole.diameter_mm:.6g} mm at {_shown(hole.start)} that is not told"
    if solid.blind:
        yield f"{solid.blind} holes of the solid do not go through"


def _is(told: ToldHole, hole: RoundFace, part: FlatPart) -> bool:
    """Whether a hole of the solid is the one that is told; of bent parts only its size can be seen."""
    if abs(told.diameter_mm - hole.diameter_mm) > SAME_MM:
        return False
    ends = (hole.start, hole.end)
    return bool(part.bends) or all(math.dist(told.at, end[:2]) <= SAME_MM for end in ends)


def _bend(bend: Bend, t: float, solid: _Measured) -> Iterator[str]:
    inner = [r for r in solid.rounds if r.hollow and not r.whole and _same(r, 2 * bend.inside_radius_mm)]
    outer = [r for r in solid.rounds if not r.hollow and _same(r, 2 * (bend.inside_radius_mm + t))]
    if not any(_coaxial(a, b) for a in inner for b in outer):
        yield (
            f"bend {bend.label}: the solid has none of inside radius {bend.inside_radius_mm:.6g} mm "
            f"and thickness {t:.6g} mm"
        )


def _turned(group: TurnedGroup, solid: _Measured) -> Iterator[str]:
    yield from _lengths("length", group.length_mm, solid.size[2])
    for k, axis in enumerate("xy"):
        yield from _lengths(f"outside diameter along {axis}", group.od_mm, solid.size[k])
    outsides = [each for each in solid.rounds if not each.hollow]
    if len(solid.holes) != 1 or len(outsides) != 1 or solid.blind:
        yield (
            f"the solid has {len(solid.holes)} bores ({solid.blind} blind) and {len(outsides)} outside rounds"
        )
        return
    (bore,), (outside,) = solid.holes, outsides
    yield from _lengths("bore", group.bore_mm, bore.diameter_mm)
    yield from _lengths("outside diameter", group.od_mm, outside.diameter_mm)
    if not _coaxial(bore, outside):
        yield "bore and outside of the solid are not on one axis"
    straight = group.length_mm - 2 * group.chamfer_mm
    for what, each in (("bore", bore), ("outside", outside)):
        yield from _lengths(f"length of the {what} between its chamfers", straight, each.length_mm)
    yield from _turned_worth(group, solid)


def _turned_worth(group: TurnedGroup, solid: _Measured) -> Iterator[str]:
    """Volume with chamfers at 45 degrees; the mass that is told is that of the piece before chamfering."""
    outer, inner, c = group.od_mm / 2, group.bore_mm / 2, group.chamfer_mm
    chamfers = 2 * math.pi * c**2 * (outer + inner)
    whole = math.pi * (outer**2 - inner**2) * group.length_mm
    yield from _shares("volume", whole - chamfers, solid.volume_mm3, SAME_SHARE, "mm3")
    mass = bushing_material(group.material).density_kg_m3 * (solid.volume_mm3 + chamfers) * _M3
    yield from _shares("mass before chamfering", group.mass_each_kg, mass, SAME_SHARE, "kg")


def _lengths(what: str, told: float, found: float) -> Iterator[str]:
    if abs(told - found) > SAME_MM:
        yield f"{what}: {told:.6f} mm is told, the solid has {found:.6f} mm"


def _shares(what: str, told: float, found: float, share: float, unit: str) -> Iterator[str]:
    if not math.isclose(told, found, rel_tol=share):
        yield f"{what}: {told:.9g} {unit} is told, the solid has {found:.9g} {unit}"


def _same(face: RoundFace, diameter: float) -> bool:
    return abs(face.diameter_mm - diameter) <= SAME_MM


def _coaxial(a: RoundFace, b: RoundFace) -> bool:
    """Whether both ends of one axis lie on the other."""
    ahead = [q - p for p, q in zip(a.start, a.end, strict=True)]
    square = sum(d * d for d in ahead)
    for point in (b.start, b.end):
        away = [q - p for p, q in zip(a.start, point, strict=True)]
        share = sum(d * w for d, w in zip(ahead, away, strict=True)) / square
        if math.dist(away, [share * d for d in ahead]) > SAME_MM:
            return False
    return True


def _place(told: ToldHole, part: FlatPart) -> str:
    return "any place" if part.bends else _shown(told.at)


def _shown(at: Sequence[float]) -> str:
    return "(" + ", ".join(f"{each + 0.0:.6g}" for each in at) + ")"
