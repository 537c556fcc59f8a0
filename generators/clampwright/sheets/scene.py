"""The picture that opens an installation sheet: a plan, or a pair of clamps seen along its tube."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.joined import Joined
from clampwright.layout.placed import PlateLayout
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.quantities import show_angle
from clampwright.sheets.both_units import both
from clampwright.sheets.canvas import Drawn
from clampwright.sheets.drawing import Box, moved
from clampwright.sheets.facts import Fact, fact_block
from clampwright.sheets.flow import Block, gap
from clampwright.sheets.how_sure import known_blocks
from clampwright.sheets.ink import SMALL
from clampwright.sheets.pair_view import pair_view, viewed_along
from clampwright.sheets.plan_view import missed, plan_view
from clampwright.sheets.plus_minus import station_cell
from clampwright.sheets.scales import scale_words
from clampwright.sheets.stations import station_of
from clampwright.sheets.table import Heading, table
from clampwright.sheets.where_on_tube import face_clock, feet_clock, place_words

_WIDE, _HIGH, _GUTTER = 112.0, 100.0, 5.0


def scene_blocks(layout: Joined, room: float) -> list[Block]:
    """The picture, what there is to say about it, and how sure that is; that alone where there is none."""
    box = (0.0, -_HIGH, min(_WIDE, room), 0.0)
    beside = room - box[2] - _GUTTER
    if isinstance(layout, PlateLayout | BushingLayout):
        drawn = _plan(_Itself(layout), box)
        said = [fact_block(_with_left(_plan_facts(layout, drawn.scale), drawn), beside), gap(3.0)]
        said += _clamps(layout, beside)
    elif isinstance(layout, StandOffLayout):
        drawn = pair_view(layout, box)
        said = [fact_block(_with_left(_pair_facts(layout, drawn.scale), drawn), beside)]
    else:
        return known_blocks(layout, room)
    said += [gap(3.0), *known_blocks(layout, beside)]
    return [_side_by_side(drawn, said, box[2] + _GUTTER), gap(3.0)]


@dataclass(frozen=True, slots=True, eq=False)
class _Itself:
    """A layout that is like no other: to compare all of it would take longer than to draw it."""

    layout: PlateLayout | BushingLayout

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Itself) and self.layout is other.layout

    def __hash__(self) -> int:
        return id(self.layout)


@lru_cache(maxsize=1)
def _plan(of: _Itself, box: Box) -> Drawn:
    """The plan, drawn once for all papers: it is as large on each."""
    return plan_view(of.layout, box)


def _with_left(facts: Iterable[Fact], drawn: Drawn) -> list[Fact]:
    return [*facts, Fact("no room for", ", ".join(drawn.left))]


def _side_by_side(drawn: Drawn, said: Sequence[Block], x: float) -> Block:
    """The picture, and blocks in a column that begins at x."""
    items, y = list(drawn.items), 0.0
    for block in said:
        items += moved(block.items, (x, y))
        y -= block.height
    return Block(max(drawn.high, 0.0 - y), tuple(items))


def _clamps(layout: Joined, room: float) -> list[Block]:
    """Every clamp in a line."""
    units = layout.recipe.units
    headings = (
        Heading("clamp", bold=True),
        Heading("tube", wraps=True),
        Heading(f"station {units}", "right"),
        *([Heading(f"± {units}", "right")] if layout.known_to else []),
        Heading("feet", "right"),
        Heading("face", "right"),
    )
    rows = [
        (
            *(c.label, c.tube, station_of(c, layout)),
            *((station_cell(c.label, layout),) if layout.known_to else ()),
            *(feet_clock(c).hours, face_clock(c).hours),
        )
        for c in sorted(layout.loops, key=lambda loop: loop.label)
    ]
    return table(headings, rows, room, SMALL)


def _plan_facts(layout: PlateLayout | BushingLayout, scale: float) -> Iterator[Fact]:
    units = layout.recipe.units
    yield Fact("", f"Seen from the component side, scale {scale_words(scale)}")
    yield Fact("tubes", "grey, beneath; arrows run from start to end")
    if isinstance(layout, PlateLayout):
        yield Fact("X, Y", "from the datum corner, as on the drill template")
        return
    answer = layout.answer
    yield Fact("x, y", f"the component's own; its origin lies at {place_words(layout.frame.origin, units)}")
    yield Fact("answer", answer.says)
    fits = "within" if answer.worst_misfit_mm <= answer.allowed_mm else "more than"
    yield Fact(
        "misfit",
        f"at most {both(answer.worst_misfit_mm, units)}, {fits} the {both(answer.allowed_mm, units)} allowed",
    )
    yield Fact("crosses", "where the clamps' bolts come" if missed(layout) else "")
    yield Fact("does not fit", "; ".join(answer.breaks))
    for remedy in layout.remedies:
        yield Fact(remedy.what, remedy.says)


def _pair_facts(layout: StandOffLayout, scale: float) -> Iterator[Fact]:
    units = layout.recipe.units
    held = viewed_along(layout)
    yield Fact("", f"Seen along {held.tube} from its start, scale {scale_words(scale)}")
    yield Fact("line", f"{layout.line.name}, outside {both(layout.line.od_mm, units)}")
    if layout.bundle is not None:
        yield Fact("bundle", layout.bundle.how)
    if layout.wrap is not None:
        turns = f"{layout.wrap.turns:.1f} turns of tape, "
        yield Fact(
            "wrap", f"{turns}{both(layout.wrap.thickness_mm, units)} all round, under the line's clamp"
        )
    other = layout.panel.name if layout.panel is not None else held.tube
    yield Fact(
        "distance", f"{both(layout.distance_mm, units)} from the axis of the line to {_to(layout, other)}"
    )
    if layout.crossing_rad > math.radians(0.05):
        yield Fact("angle", f"{show_angle(layout.crossing_rad)} between line and {other}")
    if layout.panel_hole_mm is not None:
        yield Fact("hole", f"one in {other}, {both(layout.panel_hole_mm, units)}")
    yield Fact("place", layout.place.says)
    yield Fact("does not fit", "; ".join(layout.place.breaks))
    if layout.line_solved:
        yield Fact("the line", "was found from the spacer that is given: route it so")


def _to(layout: StandOffLayout, other: str) -> str:
    return f"the face of {other}" if layout.panel is not None else f"that of {other}"
