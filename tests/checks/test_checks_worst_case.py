"""Clearances that are kept as measured but not at worst: verdicts, words, and what to measure again."""

from __future__ import annotations

from dataclasses import replace
from functools import partial

import joined_recipes as given
import pytest
from checks.example_plate import LAYOUT, TUBES, also, box_at, braced
from checks.findings_of import of
from checks.joined.hand_layouts import BUSHED, HELD_OFF, within

from clampwright.checks.clash import clamp_against_clamp, head_against_component, nut_against_structure
from clampwright.checks.clash_joined import ends_clear, held_clear
from clampwright.checks.displaced import clamp_slid, displaced, engine_moved
from clampwright.checks.finding import Finding
from clampwright.checks.keep_outs import distance_kept
from clampwright.checks.missing_clamp import clamp_missing
from clampwright.checks.room import one_doubt
from clampwright.checks.surroundings import components_against_tubes, plate_against_tubes
from clampwright.checks.worst_case import doubtful, in_doubt, sure
from clampwright.layout.clearance_known import Clear
from clampwright.recipe.model import Measuring
from clampwright.structure.tubes import Structure, Tube
from clampwright.structure.uncertainty import independent

CLEAR = 200.0 - 22.225 - 27.1318 - 90.0
"""The separator's top to the exhaust: 60.643 mm."""


def measured(layout, error_mm, given_too=True):
    """The layout with its measuring error."""
    recipe = replace(layout.recipe, measuring=Measuring(error_mm, given_too))
    return replace(layout, recipe=recipe)


def asked(layout, distance_mm, **changes):
    """The exhaust alone, so far to be kept from."""
    pipe = replace(given.EXHAUST, distance_mm=distance_mm, **changes)
    return within(layout, keep_outs=(pipe,))


def test_a_keep_out_kept_by_less_than_its_plus_minus_is_a_caution() -> None:
    """Both ± 2.9 mm here (a keep-out's 2 mm and the tubes'), 1.643 mm to spare."""
    (found,) = distance_kept(measured(asked(BUSHED, CLEAR - 1.643), 2.0))
    assert (found.verdict, found.where) == ("caution", "exhaust")
    assert found.value == pytest.approx(CLEAR)
    assert found.plus_minus is not None
    assert 2.0 < found.plus_minus < 5.0
    assert f"60.64 mm ± {found.plus_minus:.2f} mm away, and could be as little as" in found.says
    assert found.says.endswith("are asked.")
    assert found.change.startswith("Measure again where ")
    assert "to ± " in found.change
    assert ", or move separator" in found.change


def test_measuring_as_well_as_is_said_is_enough() -> None:
    """The error that the change asks for makes it pass; a little more does not."""
    layout = asked(BUSHED, CLEAR - 1.643)
    (found,) = distance_kept(measured(layout, 2.0))
    enough = float(found.change.split("to ± ")[1].split(" mm")[0])
    assert distance_kept(measured(layout, enough))[0].verdict == "pass"
    assert distance_kept(measured(layout, enough + 0.03))[0].verdict == "caution"


def test_one_kept_by_more_passes_and_says_how_sure_it_is() -> None:
    (found,) = distance_kept(measured(asked(BUSHED, CLEAR - 9.0), 2.0))
    assert found.verdict == "pass"
    assert f"60.64 mm ± {found.plus_minus:.2f} mm away; " in found.says


def test_one_not_kept_fails_as_before() -> None:
    (found,) = distance_kept(measured(asked(BUSHED, CLEAR + 0.1), 2.0))
    assert found.verdict == "fail"
    assert " ± " in found.says


def test_an_error_that_nobody_stated_is_said() -> None:
    (found,) = distance_kept(measured(asked(BUSHED, CLEAR - 1.0), 2.0, given_too=False))
    assert found.verdict == "caution"
    assert "the recipe states no measuring error, and that is by the usual one" in found.says


def test_surveyed_tubes_are_measured_again_without_a_figure() -> None:
    """What a survey comes to does not scale with the recipe's measuring error."""
    layout = measured(asked(BUSHED, CLEAR - 1.643), 2.0)
    sure_to = independent(layout.recipe.structure.tubes, 4.0, "by hand")
    (found,) = distance_kept(within(layout, uncertainty=sure_to))
    assert found.verdict == "caution"
    assert "to ±" not in found.change


def test_displaced_keep_outs_are_cautions_at_worst() -> None:
    """With the engine moved 8 mm, 52.64 are left; slid along x the exhaust keeps its distance."""
    (moved,) = engine_moved(measured(asked(BUSHED, CLEAR - 8.0 - 1.0), 2.0))
    assert (moved.verdict, moved.value) == ("caution", pytest.approx(CLEAR - 8.0))
    assert "could be as little as" in moved.says
    assert "asked at rest" in moved.says
    (slid,) = clamp_slid(measured(asked(BUSHED, CLEAR - 1.0), 2.0))
    assert slid.verdict == "caution"
    high = {"start": (0.0, 75.0, 400.0), "end": (500.0, 75.0, 400.0)}
    (hung,) = clamp_missing(measured(asked(HELD_OFF, 5.0, **high), 2.0))
    assert hung.plus_minus is not None
    assert hung.plus_minus >= 2.0


def test_what_may_touch_at_worst_is_said() -> None:
    made = partial(Finding, "X-1", "example", sources=())
    kept = replace(given.EXHAUST, distance_mm=10.0)
    found = displaced(made, kept, "loop of A1", Clear(1.0, 1.5), "slid", BUSHED, grave=True)
    assert found.verdict == "caution"
    assert "loop of A1 is 1.00 mm ± 1.50 mm from exhaust, and could touch at worst" in found.says


def test_a_component_beside_a_tube_of_a_plate() -> None:
    """A brace whose skin is 4 mm from a relay's side: ± 1.5 mm at its ends; the relay rides on the plate."""
    relay = box_at((40.0, 80.0), 20.0, 20.0, 30.0)
    x = LAYOUT.frame.origin[0] + 40.0 - 10.0 - 4.0 - 9.525
    post = Tube("post", (x, 90.0, -200.0), (x, 90.0, 300.0), 19.05)
    layout = replace(also(relay), recipe=braced(post).recipe)
    found = of(components_against_tubes(measured(layout, 1.5)), "relay")
    assert (found.verdict, found.value) == ("caution", pytest.approx(4.0, abs=1e-6))
    assert of(components_against_tubes(measured(layout, 0.2)), "relay").verdict == "pass"


def test_the_plate_s_own_clamp_s_tube_must_only_not_touch() -> None:
    """5.49 mm from the tubes that hold it, of which others would have to have 3: ± 1.5 mm is no matter."""
    found = plate_against_tubes(measured(LAYOUT, 1.5))
    assert {f.verdict for f in found} == {"pass"}
    assert found[0].plus_minus is not None


def test_heads_and_components_on_one_plate_have_no_plus_minus() -> None:
    """C1's head and a relay both ride on the plate, whatever the tubes do."""
    coil = next(h for h in LAYOUT.holes if h.label == "C1")
    beside = box_at((coil.at[0] - 5.55625 - 3.1 - 10.0, coil.at[1]), 20.0, 20.0, 15.0)
    found = head_against_component(measured(also(beside), 5.0))
    assert (found[0].where, found[0].verdict) == ("C1", "pass")
    assert found[0].plus_minus == 0.0
    assert " ± " not in found[0].says


def test_a_hose_keeps_from_what_it_is_held_off_as_its_spacer_makes_it() -> None:
    """The hose gives: it goes where the spacer puts it, wherever the tube is; a rigid tube does not."""
    job = HELD_OFF.recipe.job
    rigid = replace(HELD_OFF.recipe, job=replace(job, carried=replace(job.carried, what="tube")))
    alone = {"tubes": HELD_OFF.recipe.structure.tubes[:1]}
    (gives,) = held_clear(measured(within(HELD_OFF, **alone), 3.0))
    (stays,) = held_clear(measured(within(replace(HELD_OFF, recipe=rigid), **alone), 3.0))
    assert gives.value == pytest.approx(stays.value)
    assert stays.plus_minus is not None
    assert gives.plus_minus is not None
    assert stays.plus_minus > 2.0
    assert gives.plus_minus == pytest.approx(0.0, abs=1e-9)


def test_heads_go_with_what_they_are_bolted_to() -> None:
    """The separator's bolts are in its own holes; the pair's head lies on the hose's clamp."""
    for layout in (BUSHED, HELD_OFF):
        (found,) = ends_clear(measured(layout, 4.0))
        assert found.verdict == "pass"
        assert found.plus_minus == pytest.approx(0.0, abs=1e-9)


def test_another_body_may_be_the_worst_though_one_is_nearer() -> None:
    """A nut 3.6 mm from the feet of a clamp on its own plate and 3.9 mm from a brace that is badly known."""
    c2 = next(h for h in LAYOUT.holes if h.label == "C2")
    x, top = c2.at[0] + LAYOUT.frame.origin[0], -11.56995 - 3.9
    z = 12.827 + top - 9.525
    near = Tube("near", (x, 40.0, z + 0.3), (x, 90.0, z + 0.3), 19.05)
    far = replace(near, name="far", start=(x - 12.0, -400.0, z), end=(x - 12.0, 600.0, z))
    layout = replace(LAYOUT, recipe=replace(LAYOUT.recipe, structure=Structure((*TUBES, near, far))))
    exact = independent((*TUBES, near), 0.01, "by hand")
    loose = independent((far,), 4.0, "by hand")
    rows = [(*row, *(0.0,) * loose.causes) for row in exact.factor_mm]
    rows += [(*(0.0,) * exact.causes, *row) for row in loose.factor_mm]
    both = replace(exact, tubes=(*exact.tubes, "far"), factor_mm=tuple(rows))
    found = nut_against_structure(within(layout, uncertainty=both))
    assert any(f.verdict == "caution" and "far" in f.says for f in found), [f.says for f in found]


def test_of_several_doubts_of_a_family_the_worst_is_told() -> None:
    made = partial(Finding, "X-1", "room", limit=3.0, unit="mm", says="", change="", sources=())
    near, far = (made(w, "caution", v, plus_minus=1.5) for w, v in (("A1", 3.4), ("A2", 4.0)))
    bad = made("B1", "caution", 2.0, plus_minus=0.5)
    assert [f.where for f in one_doubt([far, near, bad])] == ["A1", "B1"]


def test_words() -> None:
    """1.2 mm to spare; 1.5² = 1² + 1.118² from places and clamps: sqrt(1.2² - 1.118²) = 0.4359 is left."""
    found = doubtful(
        partial(Finding, "X-1", "room", where="A1", value=8.2, limit=7.0, unit="mm", sources=()),
        "It is 8.20 mm away",
        Clear(8.2, 1.5, 1.0, "where high is"),
        7.0,
        "move it 0.30 mm",
        measured(BUSHED, 1.0),
    )
    assert sure(Clear(8.2, 1.5), BUSHED) == "8.20 mm ± 1.50 mm"
    assert sure(Clear(8.2), BUSHED) == "8.20 mm"
    assert found.says == "It is 8.20 mm away, and could be as little as 6.70 mm at worst."
    assert found.change == "Measure again where high is to ± 0.43 mm, or move it 0.30 mm."
    assert in_doubt(Clear(8.2, 1.5), 7.0)


def test_reach_is_asked_for_where_that_is_what_errs() -> None:
    found = doubtful(
        partial(Finding, "X-1", "room", where="A1", value=8.2, limit=7.0, unit="mm", sources=()),
        "It is away",
        Clear(8.2, 1.5, 0.0, "the clamps' reach", "the clamps' reach is a default that nobody measured"),
        7.0,
        "move it",
        BUSHED,
    )
    assert found.says.endswith("; the clamps' reach is a default that nobody measured.")
    assert found.change == "Measure the clamps' reach, or move it."


def test_clamps_side_by_side_on_one_tube_slide_to_their_holes() -> None:
    """Both follow the plate along the tube, so that the tubes' errors do not bring them nearer."""
    (found,) = clamp_against_clamp(measured(LAYOUT, 3.0))
    assert found.plus_minus is not None
