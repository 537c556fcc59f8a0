"""The drilling template: everything that has to be on it is, and nothing over anything else."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sheets.page_geometry import circle_meets_quad, outside, overlapping, quad, texts, words
from sheets.sheet_plates import CAUTION, FAIL, FAILING, FINE, PASS, UNKNOWN, plate

from clampwright.checks.finding import Finding
from clampwright.layout.outline import Arc, Line, Outline
from clampwright.layout.placed import PlateLayout
from clampwright.quantities import Vec2
from clampwright.sheets.drawing import Circle, Page, Path, Sheet, Text
from clampwright.sheets.hole_table import hole_table
from clampwright.sheets.template import template

PRINTER_BORDER = 8.0
HALF_PEN = 0.2


def grid(columns: int, rows: int, pitch: float, at: Vec2) -> list[Vec2]:
    """A grid of holes."""
    return [(at[0] + pitch * i, at[1] + pitch * j) for j in range(rows) for i in range(columns)]


PLATES = {
    "small": plate(
        100.0, 80.0, patterns=[[(30.0, 30.0), (70.0, 30.0), (70.0, 55.0), (30.0, 55.0)]], units="in"
    ),
    "usual": plate(),
    "medium": plate(180.0, 150.0, lightening=[((90.0, 120.0), 25.4)], prints=((99.2, 99.4),)),
    "large": plate(500.0, 350.0, lightening=[((250.0, 280.0), 60.0)]),
    "many": plate(180.0, 140.0, patterns=[grid(10, 6, 14.0, (27.0, 35.0))]),
    "long": plate(420.0, 70.0, patterns=[[(200.0, 30.0), (240.0, 30.0)]]),
    "named": plate(
        name="a-very-long-name-of-a-plate-that-somebody-gave-it-for-reasons-of-their-own",
        tubes=("the lower left tube that runs from the firewall to the ring", "верхняя левая труба ⌀19"),
    ),
}


def check_pages(sheet: Sheet) -> None:
    """Nothing outside the printable border, no text over a text, no text over a hole."""
    for page in sheet.pages:
        assert outside(page, PRINTER_BORDER) == []
        assert overlapping(page) == []
        holes = [i for i in page.items if isinstance(i, Circle) and i.fill is None]
        for text in texts(page):
            assert not any(circle_meets_quad(hole.centre, hole.radius, quad(text)) for hole in holes), text


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", PLATES)
def test_nothing_lies_over_anything(name: str, paper: str) -> None:
    check_pages(template(PLATES[name], FAILING, paper))


@st.composite
def plates(draw: st.DrawFn) -> PlateLayout:
    """Plates of any size with random holes, units, slopes and prints."""
    width, height = draw(st.floats(70.0, 620.0)), draw(st.floats(60.0, 420.0))
    places = st.tuples(st.floats(0.15, 0.85), st.floats(0.2, 0.8))
    patterns = draw(st.lists(st.lists(places, min_size=1, max_size=6), max_size=4))
    taken: list[Vec2] = [(15.0, 15.0), (width - 15, 15.0), (15.0, height - 19), (width - 15, height - 19)]
    spread = []
    for pattern in patterns:
        kept = []
        for u, v in pattern:
            spot = (u * width, v * height)
            if all((spot[0] - a) ** 2 + (spot[1] - b) ** 2 > 144.0 for a, b in taken):
                taken.append(spot)
                kept.append(spot)
        spread += [kept] if kept else []
    printed = draw(st.lists(st.tuples(st.floats(94.0, 106.0), st.floats(94.0, 106.0)), max_size=2))
    return plate(
        width,
        height,
        patterns=spread,
        units=draw(st.sampled_from(["mm", "in"])),
        slope=draw(st.floats(-0.2, 0.3)),
        prints=tuple(printed),
    )


@given(plates(), st.sampled_from(["letter", "a4"]), st.sampled_from([FINE, FAILING]))
@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
def test_random_plates_stay_on_their_pages(
    layout: PlateLayout, paper: str, findings: tuple[Finding, ...]
) -> None:
    sheet = template(layout, findings, paper)
    check_pages(sheet)
    drawn = words(sheet.pages)
    assert all(hole.label in drawn for hole in layout.holes)


@pytest.mark.parametrize(
    ("findings", "stops"),
    [
        ((), False),
        ((PASS,), False),
        ((PASS, UNKNOWN), False),
        ((CAUTION, UNKNOWN), False),
        ((FAIL,), True),
        (FAILING, True),
    ],
)
@pytest.mark.parametrize("name", ["small", "usual", "large"])
def test_do_not_drill_stands_on_every_page_exactly_when_a_check_fails(
    name: str, findings: tuple[Finding, ...], stops: bool
) -> None:
    sheet = template(PLATES[name], findings, "a4")
    for page in sheet.pages:
        big = [t for t in texts(page) if t.text == "DO NOT DRILL"]
        assert bool(big) is stops
        assert all(t.size_mm >= 3.0 for t in big)
        assert not stops or max(t.size_mm for t in big) >= 8.0
    assert ("DO NOT DRILL" in words(sheet.pages)) is stops


def true_scale_pages(sheet: Sheet) -> list[Page]:
    """Pages that carry the bars."""
    return [page for page in sheet.pages if "100 mm bar, across" in words((page,))]


def test_not_verified_until_the_bars_are_given_back() -> None:
    for prints, verified in (
        ((), False),
        (((99.2, 99.4),), False),
        (((99.2, 99.4), (100.05, 99.96)), True),
        (((100.0, 100.1),), True),
        (((100.0, 100.1), (98.0, 100.0)), False),
        (((0.0, 3.0),), False),
    ):
        sheet = template(plate(prints=prints), FINE, "a4")
        text = words(sheet.pages)
        assert ("NOT VERIFIED: measure the bars" in text) is not verified
        assert ("verified by the bars: " in text) is verified
        assert len(true_scale_pages(sheet)) == 1


def test_the_error_left_at_the_farthest_holes_is_printed() -> None:
    """A1 to B2: 120 across, 66 along; bars 0.05 long and 0.04 short leave hypot(.06, .0264) = 0.07 mm."""
    text = words(template(plate(prints=((99.2, 99.4), (100.05, 99.96))), FINE, "a4").pages).replace("\n", " ")
    assert "A1 and B2" in text
    assert "136.95 mm apart" in text
    assert "0.07 mm, ± 0.14 mm from reading the bars" in text


def test_a_refused_measurement_is_named() -> None:
    text = words(template(plate(prints=((25.4, 100.0),)), FINE, "a4").pages).replace("\n", " ")
    assert "Not used: 25.4 x 100" in text


@pytest.mark.parametrize("units", ["mm", "in"])
def test_what_a_template_must_say(units: str) -> None:
    layout = plate(units=units, lightening=[((75.0, 85.0), 12.7)])
    text = words(template(layout, FAILING, "letter").pages)
    flat = text.replace("\n", " ")
    for wanted in (
        "THIS FACE UP",
        "component side",
        "coil-plate",
        "0123456789abcdef",
        "6061-T6",
        "X = 0",
        "Y = 0",
        "tube A: lower-left",
        "tube B: upper-left",
        "Print at 100 %",
        "100 mm bar, across",
        "100 mm bar, along",
        "4 in bar, across (101.6 mm)",
        "4 in bar, along (101.6 mm)",
        "R 6.35 mm (4x)" if units == "mm" else "R 0.250 in (4x)",
        "2.29 mm (0.090 in)" if units == "mm" else "0.090 in (2.29 mm)",
        "FAIL: 1 fail, 1 not known, 1 caution, 1 pass",
        "CLAMP-5",
        "BOLT-1 at B1",
        "Take AN3-5A with one washer more.",
        "experimental, amateur-built",
        "kit maker",
        "regulations",
        "Strength and vibration are not judged",
    ):
        assert wanted in flat, wanted
    assert text.count("#40 then #11") == 4
    assert text.count("#40 then #9") == 6


def test_coordinates_in_the_table_are_the_layout_s() -> None:
    layout = plate(units="in")
    text = words(template(layout, FINE, "a4").pages)
    for hole in layout.holes:
        assert f"{hole.at[0] / 25.4:.4f}" in text
        assert f"{hole.at[1] / 25.4:.4f}" in text


@pytest.mark.parametrize("units", ["mm", "in"])
def test_a_row_of_the_hole_table_holds_label_x_and_y_in_this_order(units: str) -> None:
    """X is the layout's first coordinate: from the edge X = 0, seen with this face up."""
    layout = plate(units=units, inset=17.0)
    hole = layout.holes[2]
    assert (hole.label, hole.at) == ("B1", (17.0, 79.0))
    titles = [t for b in hole_table(layout, 90.0) for t in b.items if isinstance(t, Text) and t.bold]
    across = {t.text: t.at[0] for t in titles if t.text in ("hole", f"X {units}", f"Y {units}")}
    assert sorted(across, key=lambda title: across[title]) == ["hole", f"X {units}", f"Y {units}"]
    rows = [[t for t in b.items if isinstance(t, Text)] for b in hole_table(layout, 90.0)]
    row = next(r for r in rows if r and r[0].text == "B1")
    wanted = ["17.00", "79.00"] if units == "mm" else ["0.6693", "3.1102"]
    assert [t.text for t in row[1:3]] == wanted
    assert [t.at[0] for t in row[1:3]] == [across[f"X {units}"], across[f"Y {units}"]]


def test_holes_are_drawn_at_final_size_with_a_cross_on_the_centre() -> None:
    layout = plate()
    page = template(layout, FINE, "a4").pages[0]
    circles = [i for i in page.items if isinstance(i, Circle) and i.fill is None]
    assert sorted(c.radius for c in circles) == pytest.approx(sorted(h.diameter_mm / 2 for h in layout.holes))
    lines = [i for i in page.items if isinstance(i, Path) and len(i.points) == 2]
    for circle in circles:
        x, y = circle.centre
        arms = [
            line
            for line in lines
            if ((line.points[0][0] + line.points[1][0]) / 2, (line.points[0][1] + line.points[1][1]) / 2)
            == pytest.approx((x, y), abs=1e-9)
            and max(abs(line.points[0][0] - x), abs(line.points[0][1] - y)) > circle.radius
        ]
        assert len(arms) == 2


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_quarter_turn_is_taken_before_a_second_page(paper: str) -> None:
    """215 mm is wider than the printable part of either paper and fits along it, u up the page."""
    layout = plate(215.0, 120.0)
    (page,) = true_scale_pages(template(layout, FINE, paper))
    circles = [i.centre for i in page.items if isinstance(i, Circle) and i.fill is None]
    by_label = dict(zip((hole.label for hole in layout.holes), circles, strict=True))
    (ax, ay), (bx, by) = by_label["A1"], by_label["A2"]
    assert (bx - ax, by - ay) == pytest.approx((0.0, 185.0))
    (cx, cy) = by_label["B1"]
    assert (cx - ax, cy - ay) == pytest.approx((-86.0, 0.0))


def test_other_outlines() -> None:
    """A triangle with one round corner, and a sharp one: as drawn by hand."""
    pieces = (
        Line((0.0, 0.0), (150.0, 0.0)),
        Line((150.0, 0.0), (150.0, 90.0)),
        Arc((150.0, 90.0), (140.0, 100.0), (140.0, 90.0), True),
        Line((140.0, 100.0), (0.0, 100.0)),
        Line((0.0, 100.0), (0.0, 0.0)),
    )
    sheet = template(plate(outline=Outline(pieces)), FINE, "a4")
    check_pages(sheet)
    assert "R 10.00 mm" in words(sheet.pages)
    assert "R 10.00 mm (" not in words(sheet.pages)


def test_the_same_layout_gives_the_same_sheet() -> None:
    assert template(plate(), FAILING, "a4") == template(plate(), FAILING, "a4")
