"""The flat pattern of a pack, read back with ezdxf: pilots as the drawing tells them, how many are wanted."""

from __future__ import annotations

import io
from typing import Any

import ezdxf
import pytest
from files.pack.packed_bays import TOO_NARROW, bay

from clampwright.files.pack.bay import Bay
from clampwright.files.pack.cutting import flat_pattern
from clampwright.layout.shop.flat_parts import flat_parts
from clampwright.layout.shop.told import FlatPart
from clampwright.trade.holes import drill


def pattern(of: Bay) -> tuple[FlatPart, Any]:
    """The first flat part of a bay, and its file as a shop opens it."""
    job = of.jobs[0]
    (part,) = flat_parts(job.layout)
    (placed,) = flat_pattern(part, job)
    assert placed.path == f"cutting/{part.number}-cut.dxf"
    return part, ezdxf.read(io.StringIO(placed.file.data.decode("utf-8")))


def properties(document: Any) -> dict[str, str]:
    """What the file says of itself."""
    return dict(document.header.custom_vars.properties)


def test_every_hole_is_there_at_the_size_that_is_cut() -> None:
    part, document = pattern(bay("coil-plate"))
    found = sorted(
        (round(c.dxf.center.x, 6), round(c.dxf.center.y, 6), round(2 * c.dxf.radius, 6))
        for c in document.modelspace().query("CIRCLE")
    )
    assert any(hole.transferred for hole in part.holes)
    expected = sorted(
        (
            *(round(at, 6) for at in hole.at),
            round(drill(hole.pilot).diameter_mm if hole.transferred else hole.diameter_mm, 6),
        )
        for hole in part.holes
    )
    assert found == expected


@pytest.mark.parametrize("sets", [1, 3])
def test_the_file_says_how_many(sets: int) -> None:
    part, document = pattern(bay("coil-plate", quantity=sets))
    said = properties(document)
    assert said["quantity"] == f"{part.quantity}" == f"{sets}"
    assert any(f"{sets} off" in text for text in said.values())


def test_a_failing_one_says_so() -> None:
    _, document = pattern(bay(TOO_NARROW))
    assert any("DO NOT MAKE" in text for text in properties(document).values())
