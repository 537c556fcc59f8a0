"""The families for every kind together: each code passes and does not, says what to change, names sources."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from math import cos, sin
from typing import Any

import joined_recipes as given
import pytest
from checks.joined.hand_layouts import (
    BODY,
    BUSHED,
    CLAMPS,
    HELD_OFF,
    PLACE,
    REACH,
    asking,
    held,
    holding,
    in_zone,
    within,
)
from checks.joined.panel_layout import ON_PANEL

from clampwright.checks import (
    bushing_heat,
    bushings,
    clash_joined,
    closing,
    displaced,
    drill_room,
    keep_outs,
    long_spacers,
    misfit,
    missing_clamp,
    sockets,
    spacer,
    turning,
)
from clampwright.checks.finding import VERDICTS
from clampwright.layout.bodies import Box
from clampwright.layout.joined import Named
from clampwright.layout.placed import Frame
from clampwright.layout.stand_off_placed import Bundle
from clampwright.quantities import Vec3
from clampwright.quantities.directions import along
from clampwright.recipe.model import Measuring
from clampwright.structure.tubes import Tube
from clampwright.trade.sources import source
from clampwright.trade.tables import rule

EVERY = (
    keep_outs,
    displaced,
    missing_clamp,
    bushings,
    long_spacers,
    bushing_heat,
    turning,
    closing,
    drill_room,
    clash_joined,
    sockets,
)
COMPONENT = (*EVERY, misfit)
LINE = (*EVERY, spacer)


def fresh(layout: Any) -> Any:
    """Tubes measured well."""
    return replace(layout, recipe=replace(layout.recipe, measuring=Measuring(0.05, True)))


SURE = fresh(BUSHED)
BUNDLE = asking(HELD_OFF, carried=replace(HELD_OFF.recipe.job.carried, what="bundle"))
ROUNDABOUT = given.KeepOut(
    "drain", (0.0, 300.0, -200.0), (500.0, 300.0, -200.0), 10.0, 20.0, "engine", "fuel"
)
PANEL = within(ON_PANEL, tubes=())


def near(layout: Any, z: float) -> Any:
    """The exhaust at another height."""
    pipe = replace(given.EXHAUST, start=(0.0, 75.0, z), end=(500.0, 75.0, z))
    return within(layout, keep_outs=(pipe,))


def braced(layout: Any, start: Vec3, end: Vec3) -> Any:
    """The layout with one more tube."""
    tubes = (*layout.recipe.structure.tubes, Tube("brace", start, end, 19.05))
    return within(layout, tubes=tubes)


def with_part(layout: Any, **changes: Any) -> Any:
    """Every made bushing changed."""
    return replace(layout, bushings=tuple(replace(p, **changes) for p in layout.bushings))


def with_ring(layout: Any, od: float, bore: float) -> Any:
    """The bushing in the pair's stack changed."""
    (joint,) = layout.joints
    items = tuple(replace(i, od_mm=od, id_mm=bore) if i.name == "bushing" else i for i in joint.stack.items)
    return replace(layout, joints=(replace(joint, stack=replace(joint.stack, items=items)),))


def off_its_hole() -> Any:
    """B1's bolt 2 mm beside its hole."""
    holes = (*SURE.answer.holes[:2], held(3, CLAMPS[2], (0.0, 2.0)))
    return replace(SURE, answer=replace(SURE.answer, holes=holes))


WIDE = Named("separator", "separator", replace(BODY, half=(30.0, 50.0, 45.0)))
SPOILT: dict[str, tuple[Any, Any]] = {
    "KEEP-1": (SURE, near(SURE, 180.0)),
    "KEEP-2": (SURE, within(SURE, engine_moves_mm=20.0)),
    "KEEP-3": (
        SURE,
        within(SURE, keep_outs=(replace(ROUNDABOUT, start=(290.0, 75.0, 40.0), end=(290.0, 75.0, 90.0)),)),
    ),
    "KEEP-4": (within(SURE, keep_outs=(ROUNDABOUT,)), SURE),
    "BUSH-1": (SURE, with_part(SURE, id_mm=4.0)),
    "BUSH-2": (SURE, with_part(SURE, material="acetal")),
    "BUSH-3": (SURE, asking(SURE, component=replace(SURE.recipe.job.component, mass_kg=60.0))),
    "BUSH-4": (SURE, in_zone(SURE, temperature_c=130.0)),
    "BUSH-5": (BUNDLE, with_ring(BUNDLE, 7.9375, 4.9911)),
    "TURN-1": (SURE, holding("A1", "A2")),
    "CLOSE-1": (SURE, braced(SURE, (0.0, 0.0, 30.0), (400.0, 0.0, 30.0))),
    "CLOSE-2": (SURE, braced(SURE, (200.0, -50.0, 50.0), (200.0, 50.0, 50.0))),
    "CLOSE-3": (PANEL, braced(PANEL, (60.0, -90.0, -REACH), (60.0, 90.0, -REACH))),
    "CLASH-6": (SURE, replace(SURE, component=WIDE)),
    "CLASH-7": (SURE, braced(SURE, (297.0, 20.0, 20.0), (297.0, 90.0, 20.0))),
    "CLASH-8": (SURE, braced(SURE, (280.5, 40.0, 90.0), (280.5, 90.0, 90.0))),
    "ACCESS-3": (SURE, replace(SURE, component=WIDE)),
    "MISFIT-1": (SURE, off_its_hole()),
    "MISFIT-2": (SURE, replace(SURE, answer=replace(SURE.answer, breaks=("A1 is off its tube",)))),
    "SPACER-1": (BUNDLE, replace(BUNDLE, place=replace(PLACE, spacer_mm=-2.0))),
    "SPACER-2": (BUNDLE, replace(BUNDLE, bundle=Bundle(15.0, "by its area", 9, "assumed"))),
    "SPACER-3": (
        BUNDLE,
        asking(BUNDLE, carried=replace(BUNDLE.recipe.job.carried, next_supports_mm=(300.0, 900.0))),
    ),
    "SPACER-4": (
        replace(BUNDLE, line_solved=True),
        asking(BUNDLE, carried=replace(BUNDLE.recipe.job.carried, what="tube")),
    ),
}


def checks() -> dict[str, Any]:
    """Every check of these families by its code."""
    families = dict.fromkeys((*COMPONENT, *LINE))
    return {one.code: one for family in families for one in family.CHECKS}


@pytest.mark.parametrize("code", sorted(checks()))
def test_every_code_can_pass_and_can_not_pass(code: str) -> None:
    good, bad = SPOILT[code]
    run: Callable[..., Any] = checks()[code].run
    assert {f.verdict for f in run(good)} == {"pass"}
    assert any(f.verdict != "pass" for f in run(bad))


def layouts() -> list[tuple[Any, Any]]:
    """Every layout here with the families of its kind."""
    found = [pair[i] for pair in SPOILT.values() for i in (0, 1)]
    return [(one, LINE if one.recipe.kind == "stand-off" else COMPONENT) for one in found]


def test_findings_are_whole() -> None:
    """Known verdicts and sources; what to change, with a number, unless it passes; a pass has its value."""
    for layout, families in layouts():
        for one in (check for family in families for check in family.CHECKS):
            for found in one.run(layout):
                assert (found.code, found.what) == (one.code, one.what)
                assert found.verdict in VERDICTS
                assert found.says.endswith("."), found
                assert not found.says[0].islower(), found
                assert found.where
                assert found.sources
                assert all(source(key).title for key in found.sources)
                assert bool(found.change) == (found.verdict != "pass"), found
                assert found.verdict not in ("fail", "caution") or re.search(r"\d", found.change), found
                assert found.verdict != "pass" or found.value is not None


def test_the_catalogue_names_rules_and_sources_that_exist() -> None:
    for code, one in checks().items():
        assert re.fullmatch(r"[A-Z]+-\d+", code)
        assert one.computes.endswith(".")
        assert all(source(key) for key in one.info().sources)
        assert all(rule(key) for key in one.rules)
        assert one.info().sources


def test_inches_change_words_only() -> None:
    for layout, families in layouts():
        inches = replace(layout, recipe=replace(layout.recipe, units="in"))
        for one in (check for family in families for check in family.CHECKS):
            for mm, inch in zip(one.run(layout), one.run(inches), strict=True):
                assert (mm.code, mm.where, mm.verdict, mm.value) == (
                    inch.code,
                    inch.where,
                    inch.verdict,
                    inch.value,
                )
                assert not re.search(r"\d mm|\d N\b|MPa", inch.says), inch


def spun(place: Vec3, angle: float) -> Vec3:
    """A place or direction turned about the world's z, which stays up."""
    x, y, z = place
    return (x * cos(angle) - y * sin(angle), x * sin(angle) + y * cos(angle), z)


def elsewhere(layout: Any, angle: float) -> Any:
    """The component's layout turned about z and set down 1 m away; its keep-outs are round."""
    away = (700.0, -650.0, 120.0)

    def put(place: Vec3) -> Vec3:
        return along(spun(place, angle), (away, 1.0))

    tubes = tuple(replace(t, start=put(t.start), end=put(t.end)) for t in layout.recipe.structure.tubes)
    kept = tuple(replace(k, start=put(k.start), end=put(k.end)) for k in layout.recipe.structure.keep_outs)
    frame = layout.frame
    body = layout.component.body
    box = Box(put(body.centre), tuple(spun(a, angle) for a in body.axes), body.half)
    clamps = tuple(
        replace(c, centre=put(c.centre), axis=spun(c.axis, angle), bolt_axis=spun(c.bolt_axis, angle))
        for c in layout.clamps
    )
    moved = replace(
        layout,
        frame=Frame(put(frame.origin), *(spun(a, angle) for a in (frame.u, frame.v, frame.n))),
        component=replace(layout.component, body=box),
        clamps=clamps,
    )
    return within(moved, tubes=tubes, keep_outs=kept)


@pytest.mark.parametrize("angle", [0.0, 0.7, 2.5])
@pytest.mark.parametrize("code", ["KEEP-1", "KEEP-4", "CLASH-8", "CLOSE-2", "TURN-1"])
def test_the_builders_own_frame_changes_nothing(code: str, angle: float) -> None:
    for layout in SPOILT[code]:
        here = [f for family in COMPONENT for one in family.CHECKS for f in one.run(layout)]
        there = [
            f for family in COMPONENT for one in family.CHECKS for f in one.run(elsewhere(layout, angle))
        ]
        assert [(f.code, f.verdict) for f in here] == [(f.code, f.verdict) for f in there]
        for a, b in zip(here, there, strict=True):
            assert b.value == pytest.approx(a.value, abs=0.02)
