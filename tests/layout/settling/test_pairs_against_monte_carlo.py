"""± of spacers and stations of stand-offs against draws that are closed one by one."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from joined_recipes import FIREWALL, LOW, SKEW, carried, parallel, stand_off_recipe, structure
from layout.settling.drawn import half_width
from layout.settling.drawn_pairs import Array, Came, DrawnClamp, crossing, on_panel, side_by_side
from layout.settling.surveyed import with_survey

from clampwright.layout.how_sure import worked_out
from clampwright.layout.kinds import lay_out
from clampwright.layout.pairing.parallel_pair import nearly_parallel
from clampwright.layout.settled import moved
from clampwright.layout.settling import settled, settling
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.quantities import Vec3
from clampwright.recipe.model import Measured, Measuring, Recipe
from clampwright.recipe.read import read
from clampwright.recipe.stand_off_model import PairClamp, StandOffJob
from clampwright.structure.tubes import Structure
from clampwright.trade.tables import rule

RECIPES = Path(__file__).parents[3] / "recipes"
DRAWS, NEAR = 20_000, 0.03


def laid(recipe: Recipe) -> StandOffLayout:
    layout = lay_out(recipe)
    assert isinstance(layout, StandOffLayout)
    return layout


def known_to_mm(error_mm: float, tubes: Structure | None = None, **job: object) -> Recipe:
    """The hose and the tube measured to so much."""
    return replace(stand_off_recipe(tubes, **job), measuring=Measuring(error_mm, True))


class Drawing:
    """Random errors for one layout."""

    def __init__(self, layout: StandOffLayout, seed: int) -> None:
        self.layout, self.rng = layout, np.random.default_rng(seed)
        self.error = layout.recipe.measuring.error_mm / 1.96

    def coordinates(self) -> Array:
        return np.asarray(self.error * self.rng.normal(size=(DRAWS, 3)))

    def tube_ends(self, name: str) -> tuple[Array, Array]:
        tube, sure = self.layout.recipe.structure.tube(name), settling(self.layout).sure
        off = self.rng.normal(size=(DRAWS, sure.causes)) @ sure.ends(name).T
        return tube.start + off[:, :3], tube.end + off[:, 3:]

    def line_ends(self) -> tuple[Array, Array]:
        """Two measured points, or one and a direction."""
        line, given = self.layout.line, self.layout.recipe.asked(StandOffJob).carried
        first = self.coordinates()
        if given.to is None:
            return line.start + first, line.end + first
        assert (line.start, line.end) == (given.point, given.to)
        return line.start + first, line.end + self.coordinates()

    def clamp(self, index: int, ends: tuple[Array, Array]) -> DrawnClamp:
        loop = self.layout.loops[index]
        errors = {
            kind: rule("caliper-error" if kind in loop.measured else "reach-error-default").value
            for kind in ("reach", "seat")
        }
        alike = errors["reach"] > 0.5 and len({each.clamp.dash for each in self.layout.loops}) == 1
        assert not alike, "unmeasured clamps of one size err alike: not drawn here"
        reach, seat = (
            nominal + errors[kind] / 1.96 * self.rng.normal(size=DRAWS)
            for kind, nominal in (("reach", loop.clamp.reach_mm), ("seat", loop.clamp.seat_mm))
        )
        return DrawnClamp(*ends, reach, seat, loop.turn)


def holds(layout: StandOffLayout, came: Came, near: float = NEAR) -> None:
    """Every stated ± is what the draws show."""
    known = worked_out(layout)
    stations = (came.on_tube, came.on_line)[-len(known) :]
    for each, station in zip(known, stations, strict=True):
        assert half_width(station) == pytest.approx(each.station_mm, rel=near, abs=1e-6)
        assert half_width(came.spacer) == pytest.approx(each.gap_mm, rel=near)
    assert np.median(came.spacer) == pytest.approx(layout.place.spacer_mm, abs=0.1 + 0.03 * known[0].gap_mm)


@pytest.mark.parametrize("place", [1, 2, 3, 4])
@pytest.mark.parametrize("error", [0.3, 1.5])
def test_crossing(place: int, error: float) -> None:
    """A hose at 63 degrees over a tube, each of the four places for the bolt."""
    layout = laid(known_to_mm(error, place=place))
    draw = Drawing(layout, place)
    tube, line = draw.clamp(0, draw.tube_ends("low")), draw.clamp(1, draw.line_ends())
    holds(layout, crossing(tube, line, np.array(layout.place.axis)))


def test_the_example_hose() -> None:
    layout = laid(read(RECIPES / "oil-hose-stand-off.toml"))
    draw = Drawing(layout, 5)
    tube, line = draw.clamp(0, draw.tube_ends("lower-left")), draw.clamp(1, draw.line_ends())
    holds(layout, crossing(tube, line, np.array(layout.place.axis)))


@pytest.mark.parametrize(
    ("point", "to"),
    [
        ((20.0, 5.0, 50.0), (480.0, 5.0, 50.0)),
        ((20.0, 40.0, 60.0), (480.0, 46.0, 52.0)),
    ],
)
def test_side_by_side(point: Vec3, to: Vec3) -> None:
    """Parallel to the tube, and within two degrees of it: laid out as side by side."""
    made = known_to_mm(0.5, carried=carried(point=point, to=to))
    made = with_survey(made, 0.3, 8, (120.0, 0.0))
    layout = laid(made)
    tube = made.structure.tube("low")
    assert nearly_parallel(tube, layout.line)
    draw = Drawing(layout, 6)
    ends = draw.tube_ends("low")
    station = layout.loops[0].station_mm - 120.0
    stretched = 120.0 * np.linalg.norm(ends[1] - ends[0], axis=1) / tube.length_mm
    tube_clamp, line_clamp = draw.clamp(0, ends), draw.clamp(1, draw.line_ends())
    came = side_by_side(tube_clamp, line_clamp, np.array(layout.place.axis), station + stretched)
    holds(layout, replace(came, on_tube=came.on_tube - stretched), 0.04)


@pytest.mark.parametrize("slope", [0.0, 0.2])
def test_on_a_panel(slope: float) -> None:
    """The face errs along its normal, the line in all coordinates."""
    line = carried(point=(-15.0, -80.0, 10.0), to=(-15.0 + 160.0 * slope, 80.0, 10.0))
    layout = laid(known_to_mm(0.6, carried=line, tube=None, panel="firewall"))
    draw = Drawing(layout, 7)
    n = np.array(FIREWALL.normal)
    face = np.array(FIREWALL.point) @ n + draw.error * draw.rng.normal(size=DRAWS)
    clamp = draw.clamp(0, draw.line_ends())
    station = np.full(DRAWS, layout.loops[0].station_mm)
    came = on_panel(clamp, n, face, station)
    holds(layout, came)
    beside = (clamp.point(station) - np.array(layout.loops[0].centre)) @ np.cross(n, layout.loops[0].axis)
    assert half_width(beside / np.cos(np.arctan(slope))) == pytest.approx(
        worked_out(layout)[0].across_mm, rel=NEAR
    )


@pytest.mark.parametrize("place", [1, 2, 3, 4])
def test_a_distance_beside_the_tube_follows_the_tube(place: int) -> None:
    """L = √(D² − ℓ²) − seats, ℓ = reach ± reach: only D errs (1 mm), and seats and reaches (0.15 mm each),
    however unsure the tube is."""
    made = known_to_mm(1.0, carried=parallel(60.0, (0.0, 0.0, 1.0)), place=place)
    layout = laid(with_survey(made, 2.0, 9))
    known = worked_out(layout)
    one, other = layout.loops
    aside = one.turn * one.clamp.reach_mm + other.turn * other.clamp.reach_mm
    out = (60.0**2 - aside**2) ** 0.5
    by_hand = ((60.0 / out) ** 2 + 2 * 0.15**2 + 2 * (0.15 * aside / out) ** 2) ** 0.5
    assert known[0].gap_mm == pytest.approx(by_hand, rel=1e-6)
    assert known[0].station_mm == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize("crosses", [True, False])
def test_a_given_spacer_takes_the_line_with_it(crosses: bool) -> None:
    """No doubt is left of the spacer: along the bolt the line stays its distance from the tube, but for what
    the two seats are larger or smaller."""
    line = carried() if crosses else parallel(60.0, (0.0, 0.0, 1.0))
    line = line if crosses else replace(line, beside_mm=None)
    layout = laid(known_to_mm(1.0, carried=line, spacer_mm=12.0))
    assert layout.line_solved
    assert {each.gap_mm for each in worked_out(layout)} == {0.0}
    found, n = settled(layout), np.array(layout.place.axis)
    one, other = (loop.centre for loop in layout.loops)
    tube = found.clamps[layout.loops[0].label]
    leans = np.cross(tube[:3], n, axis=0)
    apart = n @ (moved(found.part, other) - moved(tube, one)) + (np.array(other) - np.array(one)) @ leans
    own = settling(layout).inputs.own
    seats = [cause.sigma_mm if cause.kind == "seat" else 0.0 for cause in own]
    assert apart == pytest.approx([0.0] * (found.causes - len(own)) + seats, abs=1e-6)


def test_two_lines_that_cross_at_their_middles() -> None:
    """Closed form: known to ± e at their ends and crossing square at their middles, they are apart by ± e
    (four ends, each counting half); and two seats of ± 0.15 mm. The bolt is a reach off both middles."""
    low = replace(LOW, end=(4000.0, 0.0, 0.0))
    line = carried(point=(2000.0, -2000.0, 50.0), to=(2000.0, 2000.0, 50.0))
    known = worked_out(laid(known_to_mm(1.5, structure(low, SKEW), carried=line)))
    assert known[0].gap_mm == pytest.approx((1.5**2 + 2 * 0.15**2) ** 0.5, rel=0.001)


def test_two_lines_side_by_side_at_their_ends() -> None:
    """Closed form: √2 e between two ends; and two seats. The bolt stands straight between both."""
    line = carried(point=(0.0, 0.0, 50.0), to=(500.0, 0.0, 50.0))
    made = known_to_mm(1.5, carried=line, station_mm=0.0)
    layout = laid(made)
    assert layout.loops[0].station_mm == 0.0
    straight = next(p.number for p in layout.places if p.turn_tube == -p.turn_line)
    known = worked_out(laid(replace(made, job=replace(made.job, place=straight))))
    assert known[0].gap_mm == pytest.approx((2 * 1.5**2 + 2 * 0.15**2) ** 0.5, rel=1e-6)


def test_a_stand_off_says_what_most_of_it_comes_from() -> None:
    made = known_to_mm(1.5)
    assert worked_out(laid(made))[0].gap_most_from in ("the place of oil hose", "the place of low")
    guessed = PairClamp(None, Measured(19.812, None, 3.2131), None)
    known = worked_out(laid(known_to_mm(0.01, on_tube=guessed)))[0]
    assert known.gap_most_from == "the clamps' seat, which nobody measured"
    assert known.seat_mm == pytest.approx(1.0)
    assert not known.gap_given


@pytest.mark.parametrize("axis", range(6))
def test_a_line_that_leaves_the_panel_leans_its_seat(axis: int) -> None:
    """Each coordinate of both points alone, a little: the seat counts 1/cos along a bolt not square to it."""
    line = carried(point=(-15.0, -80.0, 10.0), to=(30.0, 80.0, 4.0))
    layout = laid(known_to_mm(0.6, carried=line, tube=None, panel="firewall"))
    found, loop, small = settling(layout), layout.loops[0], 1e-4
    ends = (
        np.array([layout.line.start, layout.line.end]).ravel()
        + np.array([[-small], [small]]) * np.eye(6)[axis]
    )
    sizes = np.full(2, loop.clamp.reach_mm), np.full(2, loop.clamp.seat_mm)
    clamp = DrawnClamp(ends[:, :3], ends[:, 3:], *sizes, loop.turn)
    n = np.array(FIREWALL.normal)
    low, high = on_panel(clamp, n, np.full(2, n @ FIREWALL.point), np.full(2, loop.station_mm)).spacer
    stated = found.gap[loop.label] @ found.inputs.own_row("place", layout.line.name, axis)
    assert stated == pytest.approx((high - low) / (2 * small), abs=1e-6)
