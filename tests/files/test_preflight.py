"""Each kind of broken flat pattern is found; the list is what cutting shops ask for (common practice)."""

from __future__ import annotations

import io
import math
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import ezdxf
import pytest
from solids.hand_layout import hand_layout

from clampwright.files.dxf import cut_dxf, marks_dxf
from clampwright.files.preflight import NotFitForCutting, faults_of, refuse_unfit
from clampwright.layout.outline import Arc, Outline

LAYOUT = hand_layout()
GOOD = cut_dxf(LAYOUT)
Break = Callable[[Any], object]


def broken(change: Break) -> tuple[str, ...]:
    """Faults of the good file after a change to it."""
    document = ezdxf.read(io.StringIO(GOOD.decode("utf-8")))
    change(document)
    text = io.StringIO()
    document.write(text)
    return faults_of(text.getvalue().encode("utf-8"), LAYOUT)


def first(document: Any, kind: str) -> Any:
    """The first entity of a kind."""
    return document.modelspace().query(kind)[0]


def add_line(document: Any) -> None:
    document.modelspace().add_line((0, 0), (10, 0), dxfattribs={"layer": "CUT"})


def add_text(document: Any) -> None:
    document.modelspace().add_text("A1", dxfattribs={"layer": "CUT"})


def open_contour(document: Any) -> None:
    first(document, "LWPOLYLINE").closed = False


def flatten_arcs(document: Any) -> None:
    contour = first(document, "LWPOLYLINE")
    contour.set_points([(x, y, 0, 0, 0) for x, y in contour.get_points("xy")])


def double_circle(document: Any) -> None:
    circle = first(document, "CIRCLE")
    document.modelspace().add_circle(circle.dxf.center, circle.dxf.radius, dxfattribs={"layer": "CUT"})


def drop_circle(document: Any) -> None:
    document.modelspace().delete_entity(first(document, "CIRCLE"))


def move_circle(document: Any) -> None:
    first(document, "CIRCLE").translate(0.01, 0, 0)


def grow_circle(document: Any) -> None:
    first(document, "CIRCLE").dxf.radius += 0.001


def lift_circle(document: Any) -> None:
    first(document, "CIRCLE").dxf.extrusion = (0, 1, 0)


def in_inches(document: Any) -> None:
    document.header["$INSUNITS"] = 1


def without_unit(document: Any) -> None:
    document.header["$INSUNITS"] = 0


def wrong_scale(document: Any) -> None:
    for entity in document.modelspace():
        entity.scale_uniform(25.4)


def other_layer(document: Any) -> None:
    first(document, "CIRCLE").dxf.layer = "0"


def second_contour(document: Any) -> None:
    square = [(40, 40), (50, 40), (50, 50)]
    document.modelspace().add_lwpolyline(square, close=True, dxfattribs={"layer": "CUT"})


def repeated_corner(document: Any) -> None:
    contour = first(document, "LWPOLYLINE")
    points = list(contour.get_points("xyseb"))
    contour.set_points([points[0], *points])


def short_piece(document: Any) -> None:
    contour = first(document, "LWPOLYLINE")
    (x, y, *rest), *others = contour.get_points("xyseb")
    corner_u, corner_v, *_ = others[0]
    far = math.hypot(corner_u - x, corner_v - y)
    step = (far - 0.049) / far
    near = (x + step * (corner_u - x), y + step * (corner_v - y), 0, 0, 0)
    contour.set_points([(x, y, *rest), near, *others])


def drawn_on_paper(document: Any) -> None:
    document.layout("Layout1").add_circle((0, 0), 5)


def hidden_block(document: Any) -> None:
    document.blocks.new("THING").add_line((0, 0), (1, 1))


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (add_line, "neither a circle nor a contour"),
        (add_text, "neither a circle nor a contour"),
        (open_contour, "a contour is open"),
        (flatten_arcs, "0 true arcs in the contour, not 4"),
        (double_circle, "2 circles round (15.0, 20.0"),
        (drop_circle, "hole A1 is not in the file"),
        (move_circle, "hole A1 is not in the file"),
        (grow_circle, "hole A1 is 4.8534 mm in the file, not 4.8514 mm"),
        (lift_circle, "does not lie flat"),
        (in_inches, "unit is the millimetre"),
        (without_unit, "unit is the millimetre"),
        (wrong_scale, "the contour spans"),
        (other_layer, "stands on layer 0, not on CUT"),
        (second_contour, "2 contours besides the holes, not one"),
        (repeated_corner, "the contour passes"),
        (short_piece, "is 0.049 mm long; machines follow 0.05 mm or more"),
        (drawn_on_paper, "paper layout"),
        (hidden_block, "hidden in a block"),
    ],
    ids=lambda v: getattr(v, "__name__", "") or None,
)
def test_each_fault_is_named(change: Break, says: str) -> None:
    assert any(says in fault for fault in broken(change))


def test_the_good_file_has_no_fault() -> None:
    assert faults_of(GOOD, LAYOUT) == ()
    assert broken(lambda document: None) == ()


def test_bytes_that_are_no_dxf_are_a_fault_and_no_error() -> None:
    assert "does not read" in faults_of(b"not a drawing", LAYOUT)[0]
    assert "does not read" in faults_of(b"\xff\xfe", LAYOUT)[0]
    assert faults_of(GOOD[: len(GOOD) // 2], LAYOUT)


def test_the_marks_file_would_be_refused() -> None:
    with pytest.raises(NotFitForCutting) as refused:
        refuse_unfit(marks_dxf(LAYOUT), LAYOUT)
    assert any("not on CUT" in fault for fault in refused.value.faults)


def test_a_layout_changed_after_writing_is_noticed() -> None:
    moved = replace(LAYOUT.holes[3], at=(130.0, 84.5))
    faults = faults_of(GOOD, replace(LAYOUT, holes=(*LAYOUT.holes[:3], moved, *LAYOUT.holes[4:])))
    assert any("hole B2" in fault for fault in faults)
    assert any("belongs to no hole" in fault for fault in faults)


def test_round_plate_is_flat_and_whole() -> None:
    outline = Outline((Arc((90.0, 50.0), (90.0, 50.0), (45.0, 50.0), True),))
    layout = replace(LAYOUT, outline=outline, holes=LAYOUT.holes[4:8])
    assert faults_of(cut_dxf(layout), layout) == ()
