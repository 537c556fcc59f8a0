"""The drill sheet: steps in order, every hole and clamp on it, nothing over anything."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sheets.page_geometry import outside, overlapping, texts, words
from sheets.sheet_plates import CAUTION, FAIL, FAILING, FINE, plate, stack

from clampwright.layout.on_feet import stands_on
from clampwright.layout.placed import HardwareLine, PlateLayout
from clampwright.layout.shims_ready import ready
from clampwright.sheets.drill_sheet import drill_sheet
from clampwright.sheets.drill_steps import bench_steps
from clampwright.sheets.fit_up_sheet import feet_steps, threads_past, torque
from clampwright.trade.holes import drill

USUAL = plate(lightening=[((75.0, 85.0), 12.7)])
MANY = plate(300.0, 200.0, patterns=[[(40.0 + 20 * i, 40.0 + 20 * j) for i in range(11) for j in range(6)]])


def flat(layout: PlateLayout, paper: str = "a4") -> str:
    """All words of the sheet in one line."""
    return words(drill_sheet(layout, FAILING, paper).pages).replace("\n", " ")


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("layout", [USUAL, MANY, plate(units="in")], ids=["usual", "many", "inch"])
def test_nothing_lies_over_anything(layout: PlateLayout, paper: str) -> None:
    for page in drill_sheet(layout, FAILING, paper).pages:
        assert outside(page, 8.0) == []
        assert overlapping(page) == []


def test_steps_come_in_the_order_of_the_trade() -> None:
    """Common practice, no source: card, punch, pilots, check, final drills, step, deburr, radii, edges."""
    steps = bench_steps(USUAL)
    order = ["Card first", "Centre-punch", "Pilot holes", "Check the centre", "Final drills", "step drill"]
    order += ["Deburr", "Corner radii", "break all edges"]
    at = [next(n for n, step in enumerate(steps) if word in step) for word in order]
    assert at == sorted(at)
    assert len(set(at)) == len(at)


def test_wood_behind_and_both_sides() -> None:
    steps = bench_steps(USUAL)
    assert all("wood behind" in step for step in steps if step.startswith(("Pilot", "Final")))
    assert any("both sides" in step for step in steps if step.startswith("Deburr"))


def test_the_step_drill_is_named_above_a_quarter_inch_only() -> None:
    assert any("L1" in step and "12.70 mm" in step for step in bench_steps(USUAL) if "step drill" in step)
    assert not any("step drill" in step for step in bench_steps(plate()))


def test_pilots_everywhere_and_transferred_holes_wait() -> None:
    steps = bench_steps(USUAL)
    pilots = next(step for step in steps if step.startswith("Pilot"))
    finals = next(step for step in steps if step.startswith("Final"))
    assert all(hole.label in pilots for hole in USUAL.holes)
    now, later = finals.split("Not yet:")
    assert "A1" in now
    assert "B1" not in now
    assert "B1, B2" in later


def test_every_step_has_a_box_to_tick() -> None:
    page = drill_sheet(plate(), FINE, "a4").pages[0]
    numbers = [t.text for t in texts(page) if t.bold and t.text.isdigit()]
    assert numbers == [str(n) for n in range(1, len(bench_steps(plate())) + 1)]


def test_bits_have_their_speed_by_the_cutting_speed_of_the_material() -> None:
    """n = 1000 v / (pi d): 12.7 mm at 60 m/min gives 1504, so at most 1500 (speed: common practice)."""
    text = words(drill_sheet(USUAL, FINE, "a4").pages).split("\n")
    at = text.index("12.70")
    assert int(text[at + 1]) <= 1000 * 60 / (3.14159 * 12.7)
    assert int(text[at + 1]) > 1000
    pilot = text.index(f"{drill('#40').diameter_mm:.2f}")
    assert int(text[pilot + 1]) >= int(text[at + 1])


def test_a_material_without_speeds_is_said_to_have_none() -> None:
    odd = replace(plate(), material=replace(plate().material, name="unobtainium"))
    assert "no speeds for unobtainium" in flat(odd)


def test_every_clamp_stands_there_with_tube_station_side_part_stack_bolt_and_torque() -> None:
    text = flat(USUAL)
    for clamp in USUAL.clamps:
        assert f"{clamp.tube} at {clamp.station_mm:.2f} mm, {clamp.side}" in text.replace("- ", "-")
    for wanted in (
        "MS21919WCH12",
        "AN3-6A",
        "washer AN960-10L 0.80",
        "bushing, 6061-T6 6.50",
        "nut MS21044N3",
    ):
        assert wanted in text
    assert "C1, C2, C3, C4" in text
    assert "AN3-7A" in text


def test_layers_stand_from_head_to_nut() -> None:
    text = flat(USUAL)
    row = text[text.index("bushing, 6061-T6") - 60 :]
    order = [
        row.index(part)
        for part in ("AN960-10L", "plate", "bushing", "clamp feet", "AN960-10 1.60", "MS21044N3")
    ]
    assert order == sorted(order)


def test_torque_in_both_units() -> None:
    """20 to 25 inch-pounds for 10-32, AC 43.13-1B table 7-1: 2.26 to 2.82 N m."""
    assert torque(stack()) == "2.3 to 2.8 N m (20 to 25 in-lb)"
    assert torque(stack(), "in") == "20 to 25 in-lb (2.3 to 2.8 N m)"
    assert "20 to 25 in-lb (2.3 to 2.8 N m)" in flat(plate(units="in"))
    assert "not known" in torque(replace(stack(), torque=None))


def test_threads_past_the_nut_stand_in_the_table_that_the_step_points_to() -> None:
    """To a tenth of a thread, as the findings say it; "?" where nothing is known."""
    long = stack()
    assert long.chosen is not None
    long = replace(long, chosen=replace(long.chosen, threads_showing=4.06))
    assert threads_past(long) == "4.1"
    assert threads_past(replace(long, chosen=None)) == "?"
    coil, *others = USUAL.components
    shown = flat(replace(USUAL, components=(replace(coil, stacks=(long,) * 4), *others)))
    assert "AN3-6A 4.1 2.3 to" in shown
    assert "AN3-7A 2.0 2.3 to" in shown
    assert "at least 1 thread past each nut, as the table says" in shown
    assert "1 to 3 threads" not in shown


def test_a_stack_without_a_bolt_says_so() -> None:
    bare = tuple(replace(c, stack=replace(c.stack, chosen=None)) for c in USUAL.clamps)
    assert "none of AN3 fits" in flat(replace(USUAL, clamps=bare))


def test_the_fit_up_plan_and_the_shims_are_there() -> None:
    text = flat(USUAL)
    for wanted in (
        "± 1.50 mm",
        "assumed",
        "pilot, transfer in place",
        "a slot 4.9 x 8.0 mm",
        "cut long, trim in place",
    ):
        assert wanted in text
    assert "Never close a gap with the bolt" in text


def test_the_steps_at_the_mount_name_the_holes_that_wait() -> None:
    text = flat(USUAL)
    assert "Hang the plate on A1, A2 and slide the clamps" in text
    assert "B1, B2: follow the plan below. A transferred hole is marked through the foot or lug" in text


def test_the_steps_at_the_mount_name_the_feet_that_the_shim_table_names() -> None:
    """The plate is set on three feet; the gap at the fourth is measured before it is packed."""
    text = flat(USUAL)
    assert stands_on(USUAL.clamps) == ("A1", "A2", "B1")
    assert "Set the plate on the three feet A1, A2 and B1, packed as listed; no packing yet at B2." in text
    gauge, fill = text.index("measure the gap at B2 with a feeler gauge"), text.index("Then fill it")
    assert gauge < fill < text.index("Shims and bushings to have ready")
    set_on = "The part is set on A1, A2 and B1"
    table = ready(USUAL.clamps, USUAL.known_to, "mm")
    assert [shim.clamp for shim in table if shim.advice.startswith(set_on)] == ["A1", "A2", "B1"]


def test_on_three_feet_or_fewer_no_gap_is_left_to_measure() -> None:
    three, two = (replace(USUAL, clamps=USUAL.clamps[:count]) for count in (3, 2))
    assert feet_steps(three) == (
        "Set the plate on the three feet A1, A2 and B1, packed as listed. Never close a gap with the bolt.",
    )
    assert feet_steps(two)[0].startswith("Set the plate on the two feet A1 and A2, packed as listed.")
    assert feet_steps(replace(USUAL, clamps=())) == ()


def test_no_page_of_the_bench_is_left_for_a_few_lines() -> None:
    """Notes follow the bits in the same column, cautions first."""
    long = tuple(replace(CAUTION, where=f"A{n}", says=f"{n}: {'e/D is less. ' * 24}") for n in range(11))
    for paper in ("letter", "a4"):
        pages = drill_sheet(USUAL, (*FAILING, *long), paper).pages
        assert [page.title for page in pages] == ["DRILL SHEET: bench, page 1", "DRILL SHEET: fit-up, page 2"]
        said = [text.text for text in texts(pages[0])]
        assert said.index("Bits and speeds") < said.index("Before you drill") < said.index("Not known")


def test_screws_without_lengths_are_listed_by_size() -> None:
    coil, relay = USUAL.components
    bare = replace(USUAL, components=(coil, replace(relay, stacks=())))
    assert "D1, D2 relay, 2 off no lengths of this screw in the tables: choose it by hand. AN3 ?" in flat(
        bare
    )


def test_screws_without_a_stack_show_nut_and_washers_of_the_order_list() -> None:
    coil, relay = USUAL.components
    lines = (
        HardwareLine("#8", "screw, length not known", 2, None, None, "D1, D2", ""),
        HardwareLine("MS21044N08", "lock nut", 2, None, None, "D1, D2", ""),
        HardwareLine("AN960-8", "washer", 2, None, None, "D2, D1", ""),
        HardwareLine("MS21044N3", "lock nut", 8, None, None, "A1, C1", ""),
    )
    holes = tuple(replace(h, fastener="#8") if h.label[0] == "D" else h for h in USUAL.holes)
    bare = replace(USUAL, components=(coil, replace(relay, stacks=())), hardware=lines, holes=holes)
    assert "by hand. From the order list: MS21044N08; AN960-8. #8 ?" in flat(bare)


def test_screws_with_a_stack_but_no_lengths_show_their_layers_and_nut() -> None:
    coil, relay = USUAL.components
    screw = replace(stack(), bolt="#8", chosen=None, torque=None)
    text = flat(replace(USUAL, components=(coil, replace(relay, stacks=(), screw_stacks=(screw,) * 2))))
    row = text[text.index("D1, D2 relay, 2 off") :]
    assert "nut MS21044N3; no lengths of this screw in the tables: choose it by hand #8 ? not known" in row


def test_the_drill_that_guides_a_hole_saw_is_a_pilot_of_the_steps() -> None:
    plain = plate(lightening=[((75.0, 85.0), 50.8)])
    holes = tuple(replace(h, pilot="1/4") if h.label == "L1" else h for h in plain.holes)
    pilots = next(step for step in bench_steps(replace(plain, holes=holes)) if step.startswith("Pilot"))
    assert "1/4: L1" in pilots
    text = flat(replace(plain, holes=holes))
    assert "1/4 6.35" in text
    assert "hole saw 50.80" in text


def test_equal_findings_are_said_once_with_all_their_places() -> None:
    text = words(drill_sheet(USUAL, (FAIL, replace(FAIL, where="B2")), "a4").pages).replace("\n", " ")
    assert "BOLT-1 B1, B2: bolt length" in text
    assert text.count(FAIL.change) == 1


def test_findings_that_do_not_pass_say_what_to_change() -> None:
    text = flat(USUAL)
    assert FAIL.change in text
    assert CAUTION.change in text
    assert "Measure them on a closed clamp" in text


def test_do_not_drill_exactly_when_a_check_fails() -> None:
    for findings, stops in ((FINE, False), ((), False), (FAILING, True)):
        for page in drill_sheet(USUAL, findings, "letter").pages:
            assert ("DO NOT DRILL" in words((page,))) is stops


def test_cautions_and_what_was_assumed() -> None:
    text = flat(USUAL)
    for wanted in (
        "experimental, amateur-built",
        "kit maker",
        "Strength and vibration are not judged",
        "regulations",
        "plate.thickness",
        "zone.temperature",
    ):
        assert wanted in text
