"""Measured holes against their bolts: the clamps' bolts together, and each component's on the part.

The clamps' bolts stand where the layout has them across their tubes, and follow along them: a clamp slides.
A component is rigid, and lies on the plate as its bolts let it: it has a shift and a turn of its own. The
play is that of the fit-up plan (`fit_up.clearance_mm`): plate hole and clamp's foot round the largest shank,
or plate hole alone under a component, whose own holes are not counted.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from clampwright.layout.as_made import Culprit, GroupFit, HoleFit
from clampwright.layout.as_made_moves import NO_MOVE, Meeting, Move, back, best_move, off, spare
from clampwright.layout.fit_up import NOW, clearance_mm
from clampwright.layout.placed import ClampPlace, FitUp, Hole, PlateLayout
from clampwright.layout.station_room import room
from clampwright.quantities import Vec2
from clampwright.recipe.measured_model import MeasuredHole, MeasuredPart
from clampwright.structure.nodes import nodes
from clampwright.trade.holes import drill
from clampwright.trade.tables import rule

CLAMPS = "the clamps"
"""Name of the group of clamp holes."""

_SAME = 1e-6


@dataclass(frozen=True, slots=True)
class _Met:
    """A measured hole, the hole it was drawn as, and how it meets its bolt."""

    drawn: Hole
    found: MeasuredHole
    plan: FitUp
    meeting: Meeting
    play_mm: float
    size_mm: float
    pilot: bool
    clamp: ClampPlace | None


def fit_holes(
    layout: PlateLayout, measured: MeasuredPart
) -> tuple[tuple[HoleFit, ...], tuple[GroupFit, ...]]:
    """Every measured bolt hole, and every group of them with its best shift and turn."""
    found = {hole.label: hole for hole in measured.holes}
    holes: list[HoleFit] = []
    groups: list[GroupFit] = []
    for name, drawn in _groups(layout):
        met = [_met(hole, found[hole.label], layout) for hole in drawn if hole.label in found]
        if met:
            group, move = _group(name, met)
            holes += [_hole(each, name, move, layout) for each in met]
            groups.append(group)
    return tuple(holes), tuple(groups)


def is_pilot(hole: Hole, diameter_mm: float | None) -> bool:
    """Whether a hole of this diameter is still the pilot of a hole: nearer to that than to its final size.

    >>> hole = Hole("B1", "clamp", "B1", (0.0, 0.0), 4.8514, "AN3", "#11", "#40")
    >>> is_pilot(hole, 2.5), is_pilot(hole, 4.7), is_pilot(hole, None)
    (True, False, False)
    """
    if diameter_mm is None or not hole.pilot:
        return False
    try:
        pilot = drill(hole.pilot).diameter_mm
    except LookupError:
        return False
    return abs(diameter_mm - pilot) < abs(diameter_mm - hole.diameter_mm)


def _groups(layout: PlateLayout) -> Iterator[tuple[str, list[Hole]]]:
    yield CLAMPS, [hole for hole in layout.holes if hole.purpose == "clamp"]
    for part in layout.components:
        yield part.name, [hole for hole in layout.holes if hole.label in part.holes]


def _met(hole: Hole, found: MeasuredHole, layout: PlateLayout) -> _Met:
    plan = next((each for each in layout.fit_up.holes if each.hole == hole.label), None)
    plan = plan or FitUp(hole.label, NOW, 0.0, 0.0, "", "")
    clamp = next((each for each in layout.clamps if each.label == hole.owner), None)
    pilot = is_pilot(hole, found.diameter_mm)
    size = found.diameter_mm if found.diameter_mm is not None and not pilot else hole.diameter_mm
    feet = () if clamp is None else (clamp.clamp.foot_hole_mm,)
    play = clearance_mm(hole.fastener, size, *feet)
    allowed = play if plan.way == NOW else play + plan.uncertainty_mm
    along, slide = (None, 0.0) if clamp is None else (_along(clamp, layout), _room(clamp, layout))
    return _Met(
        hole, found, plan, Meeting(found.at, hole.at, allowed, along, slide), play, size, pilot, clamp
    )


def _along(clamp: ClampPlace, layout: PlateLayout) -> Vec2:
    """Its tube's direction in the plane of the part."""
    u, v = (sum(a * b for a, b in zip(clamp.axis, w, strict=True)) for w in (layout.frame.u, layout.frame.v))
    size = math.hypot(u, v)
    return (u / size, v / size)


def _room(clamp: ClampPlace, layout: PlateLayout) -> float:
    """How far its clamp may slide either way: up to a weld or end, and no farther than `made-slide-most`."""
    tube = layout.recipe.structure.tube(clamp.tube)
    stretches = room(tube, nodes(layout.recipe.structure), clamp.clamp.band_width_mm)
    at = clamp.station_mm
    free = max((min(at - low, high - at) for low, high in stretches if low <= at <= high), default=0.0)
    return min(free, rule("made-slide-most").value)


def _hole(met: _Met, group: str, move: Move, layout: PlateLayout) -> HoleFit:
    (dx, dy), slide = off(met.meeting, move)
    far = math.hypot(dx, dy)
    later = met.plan.way != NOW
    return HoleFit(
        label=met.drawn.label,
        planned=met.drawn.at,
        measured=met.found.at,
        off_mm=far,
        way=(dx / far, dy / far) if far > _SAME else (0.0, 0.0),
        allowed_mm=met.meeting.allowed_mm,
        gives=_gives(met, later),
        spare_mm=met.meeting.allowed_mm - far,
        group=group,
        fastener=met.drawn.fastener,
        play_mm=met.play_mm,
        diameter_mm=met.found.diameter_mm or met.drawn.diameter_mm,
        sized=met.found.diameter_mm is not None,
        pilot=met.pilot,
        transferred=later,
        doubt_mm=met.plan.uncertainty_mm,
        slides_mm=_along_tube(slide, met.clamp, layout),
        finished_mm=met.size_mm,
        bolt_off=_turned((-dx, -dy), -move.turn_rad),
        room_mm=None if met.clamp is None else met.meeting.room_mm,
    )


def _turned(way: Vec2, angle: float) -> Vec2:
    cos, sin = math.cos(angle), math.sin(angle)
    return (cos * way[0] - sin * way[1], sin * way[0] + cos * way[1])


def _along_tube(slide: float, clamp: ClampPlace | None, layout: PlateLayout) -> float:
    """A way in the plane of the part as a way along the tube, which may lean to it."""
    if clamp is None:
        return 0.0
    u, v = (sum(a * b for a, b in zip(clamp.axis, w, strict=True)) for w in (layout.frame.u, layout.frame.v))
    return slide / math.hypot(u, v)


def _gives(met: _Met, later: bool) -> str:
    words = ["hole and bolt"]
    if met.clamp is not None:
        words.append("its clamp slides along its tube")
    if later:
        words.append("it is transferred in place")
    return "; ".join(words)


def _group(name: str, met: Sequence[_Met]) -> tuple[GroupFit, Move]:
    """The group, and the move that its holes are looked at with."""
    meetings = [each.meeting for each in met]
    move = best_move(meetings)
    least = spare(meetings, move)
    culprits = _culprits(met) if least < -_SAME else ()
    blamed = _blamed(culprits)
    if blamed:
        move = best_move([each.meeting for each in met if each.drawn.label != blamed])
    told = move if name == CLAMPS else back(move)
    group = GroupFit(
        name=name,
        shift=told.shift,
        turn_rad=told.turn_rad,
        about=told.about,
        spare_mm=least,
        before_mm=spare(meetings, NO_MOVE),
        holes=tuple(each.drawn.label for each in met),
        culprits=culprits,
        left_out=blamed,
    )
    return group, move


def _blamed(culprits: Sequence[Culprit]) -> str:
    """The one hole to blame: no other would do with nearly as little."""
    if not culprits:
        return ""
    first, *others = culprits
    nearly = rule("made-shift-told").value
    return "" if any(one.lacking_mm < first.lacking_mm + nearly for one in others) else first.label


def _culprits(met: Sequence[_Met]) -> tuple[Culprit, ...]:
    """Holes without which all others fit, and what they then lack; the least lacking first."""
    found = []
    for index, each in enumerate(met):
        others = [other.meeting for other in (*met[:index], *met[index + 1 :])]
        if not others:
            continue
        move = best_move(others)
        rest = spare(others, move)
        (dx, dy), _ = off(each.meeting, move)
        far = math.hypot(dx, dy)
        lacking = far - each.meeting.allowed_mm
        if rest >= -_SAME and lacking > 0:
            found.append(Culprit(each.drawn.label, lacking, (-dx / far, -dy / far), rest))
    return tuple(sorted(found, key=lambda one: (round(one.lacking_mm, 4), one.label)))
