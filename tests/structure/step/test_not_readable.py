"""Files that no tubes can be looked for in: what is wrong, and what to do."""

from __future__ import annotations

import random
import re
from pathlib import Path

import pytest
from structure.step.kernel_shapes import bar, cut, free_form, fused, together, written
from structure.step.read_in_forks import EXPECTED, outcomes

from clampwright.structure.not_readable import NotReadable
from clampwright.structure.step import own_process
from clampwright.structure.step.here import tubes_here
from clampwright.structure.step.read import tubes_in_step

_SCAN = "as in a scan"
_UP = ((0.0, 0.0, 0.0), (0.0, 0.0, 300.0))


@pytest.mark.parametrize(
    ("data", "why", "change"),
    [
        (b"", "empty", "export it"),
        (b" \r\n", "empty", "export it"),
        (b"hello", "not a STEP file", "export it"),
        (b"\xff" * 5000, "not a STEP file", "export it"),
        (b"solid frame\nfacet normal 0 0 1", "a mesh (STL)", _SCAN),
        (b"ply\nformat ascii 1.0", "a mesh or points", _SCAN),
        (b"PK\x03\x04rest", "a zip archive", "unpack"),
        (b"ISO-10303-21;\nHEADER;\n", "cut short", "export it"),
        (b"ISO-10303-21;\nHEADER;\nENDSEC;\nDATA;\n#1=NOTHING(;\nEND-ISO-10303-21;\n", "broken", "again"),
        (b"ISO-10303-21;\nEND-ISO-10303-21;\n", "broken", "again"),
    ],
)
def test_what_is_no_step_file(tmp_path: Path, data: bytes, why: str, change: str) -> None:
    path = tmp_path / "bay.step"
    path.write_bytes(data)
    with pytest.raises(NotReadable) as caught:
        tubes_in_step(path)
    assert why in caught.value.why
    assert change in caught.value.change
    assert caught.value.change


def test_no_such_file_and_a_folder(tmp_path: Path) -> None:
    with pytest.raises(NotReadable, match="there is no such file: give the path"):
        tubes_in_step(tmp_path / "nowhere.step")
    with pytest.raises(NotReadable, match="it is a folder: give one STEP file"):
        tubes_in_step(tmp_path)


def test_a_file_cut_anywhere(tmp_path: Path) -> None:
    data = written(tmp_path / "whole.step", [bar((0, 0, 0), (0, 0, 300), 20)]).read_bytes()
    for share in range(1, 10):
        path = tmp_path / "cut.step"
        path.write_bytes(data[: len(data) * share // 10])
        with pytest.raises(NotReadable, match="cut short"):
            tubes_in_step(path)


@pytest.mark.parametrize("dies", ["os.abort()", "os.kill(os.getpid(), signal.SIGSEGV)", "os._exit(134)"])
def test_a_process_that_the_kernel_takes_with_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, dies: str
) -> None:
    """The process that is asked dies, as it does where the kernel breaks down: it is told of the file."""
    path = written(tmp_path / "whole.step", [bar((0, 0, 0), (0, 0, 300), 20)])
    assert len(tubes_in_step(path).tubes) == 1
    monkeypatch.setattr(own_process, "_ASK", f"import os, signal; {dies}")
    with pytest.raises(NotReadable, match="the CAD kernel breaks down on: export it again"):
        tubes_in_step(path)


def test_a_fault_of_the_program_is_not_put_down_to_the_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = written(tmp_path / "whole.step", [bar((0, 0, 0), (0, 0, 300), 20)])
    monkeypatch.setattr(own_process, "_ASK", "raise ZeroDivisionError('ours')")
    with pytest.raises(RuntimeError, match="ours"):
        tubes_in_step(path)


@pytest.mark.parametrize("soft", [False, True], ids=["welded", "free form"])
def test_a_file_without_one_of_its_lines(tmp_path: Path, soft: bool) -> None:
    """Two lines of every kind left out in turn, and lines at random; of a free-form bar every line, since one
    edge lost leaves a face without width. Tubes are found, or it is said why not, or the kernel dies of it;
    nothing else, and nothing that takes for ever."""
    whole = written(tmp_path / "whole.step", [free_form(bar(*_UP, 20)) if soft else welded()])
    entities = re.split(r"(?<=;)\n(?=#)", whole.read_text())
    lost = list(range(1, len(entities) - 1)) if soft else lines_to_lose(entities)
    for k in lost:
        (tmp_path / f"{k}.step").write_text("\n".join(entities[:k] + entities[k + 1 :]))
    came = outcomes([tmp_path / f"{k}.step" for k in lost])
    assert len(came) == len(lost) > 80
    other = {entities[k]: said for k, said in zip(lost, came, strict=True) if said not in EXPECTED}
    assert other == {}
    assert came.count("found") > 10
    assert came.count("not readable") > 2


def welded() -> object:
    """A tube with a brace on it: planes, cylinders, and a curve where they meet."""
    return cut(fused(bar(*_UP, 20), bar((0, 0, 150), (0, 200, 150), 12)), bar(*_UP, 16))


def lines_to_lose(entities: list[str]) -> list[int]:
    """Indices of two entities of each kind, and of some at random, always the same."""
    kinds: dict[str, list[int]] = {}
    for k, entity in enumerate(entities):
        if kind := re.match(r"#\d+ = \(?\s*(\w+)", entity):
            kinds.setdefault(kind[1], []).append(k)
    assert {"ORIENTED_EDGE", "CARTESIAN_POINT", "ADVANCED_FACE", "CLOSED_SHELL", "PRODUCT"} <= set(kinds)
    draw = random.Random(5)
    every = [k for some in kinds.values() for k in some]
    return sorted(
        {k for some in kinds.values() for k in (some[0], draw.choice(some))}
        | set(draw.sample(every, min(60, len(every))))
    )


@pytest.mark.parametrize("lost", ["CLOSED_SHELL", "ADVANCED_FACE", "SHAPE_DEFINITION_REPRESENTATION"])
def test_a_file_whose_body_is_lost(tmp_path: Path, lost: str) -> None:
    with pytest.raises(NotReadable, match="no solid body"):
        tubes_here(without(lost, tmp_path))


def test_a_file_whose_unit_is_lost(tmp_path: Path) -> None:
    found = tubes_here(without("LENGTH_UNIT", tmp_path))
    assert found.unit == "mm"
    assert found.unit_how.startswith("not written in the file")
    assert found.tubes[0].tube.od_mm == 20.0


def without(kind: str, folder: Path) -> Path:
    """The file of a bar without the first line of one kind."""
    text = written(folder / "whole.step", [bar((0, 0, 0), (0, 0, 300), 20)]).read_text()
    holed, lines = re.subn(rf"^#\d+ = \(?\s*{kind}\b[^;]*;\n", "", text, count=1, flags=re.M)
    assert lines == 1
    (path := folder / "holed.step").write_text(holed)
    return path


def test_surfaces_that_close_no_body(tmp_path: Path) -> None:
    from OCP.TopAbs import TopAbs_ShapeEnum

    from clampwright.structure.step.kernel import explored

    skins = together(list(explored(bar((0, 0, 0), (0, 0, 300), 20), TopAbs_ShapeEnum.TopAbs_FACE)))
    with pytest.raises(NotReadable, match="surfaces but no solid body: close them"):
        tubes_here(written(tmp_path / "skins.step", [skins]))


def test_an_edge_alone_is_nothing_solid(tmp_path: Path) -> None:
    from OCP.BRepBuilderAPI import BRepBuilderAPI_MakeEdge
    from OCP.gp import gp_Pnt

    line = BRepBuilderAPI_MakeEdge(gp_Pnt(0, 0, 0), gp_Pnt(0, 0, 300)).Edge()
    with pytest.raises(NotReadable, match="no solid body in it"):
        tubes_here(written(tmp_path / "line.step", [line]))


def test_a_mesh_saved_as_step(tmp_path: Path) -> None:
    """A round bar in flat triangles sewn to a solid: round to the eye, and no cylinder in it."""
    with pytest.raises(NotReadable, match="flat triangles: a mesh saved as STEP") as caught:
        tubes_here(written(tmp_path / "mesh.step", [in_triangles(40)]))
    assert _SCAN in caught.value.change


def in_triangles(sides: int) -> object:
    import math

    from OCP.BRepBuilderAPI import (
        BRepBuilderAPI_MakeFace,
        BRepBuilderAPI_MakePolygon,
        BRepBuilderAPI_MakeSolid,
        BRepBuilderAPI_Sewing,
    )
    from OCP.gp import gp_Pnt
    from OCP.TopoDS import TopoDS

    sewing = BRepBuilderAPI_Sewing(1e-6)

    def triangle(*points: tuple[float, float, float]) -> None:
        polygon = BRepBuilderAPI_MakePolygon(*(gp_Pnt(*p) for p in points), True)
        sewing.Add(BRepBuilderAPI_MakeFace(polygon.Wire()).Face())

    for k in range(sides):
        (ax, ay), (bx, by) = (
            (10 * math.cos(t), 10 * math.sin(t)) for t in (2 * math.pi * (k + i) / sides for i in (0, 1))
        )
        low_a, low_b, high_a, high_b = (ax, ay, 0), (bx, by, 0), (ax, ay, 300), (bx, by, 300)
        triangle(low_a, low_b, high_b)
        triangle(low_a, high_b, high_a)
        triangle((0, 0, 0), low_b, low_a)
        triangle((0, 0, 300), high_a, high_b)
    sewing.Perform()
    return BRepBuilderAPI_MakeSolid(TopoDS.Shell_s(sewing.SewedShape())).Solid()


def test_a_unit_that_makes_no_sense_is_asked_about(tmp_path: Path) -> None:
    """Numbers in inches in a file that says millimetres: too thin, and most of them too short for a clamp."""
    bars = [bar((0, 0, 0), (0, 0, 30), 0.75), bar((5, 0, 0), (5, 0, 20), 0.75)]
    found = tubes_here(written(tmp_path / "inches.step", bars))
    asked = "is millimetre the right unit? In inches it would be 19.05 mm"
    (one,) = found.tubes
    assert asked in one.doubts[0]
    assert asked in found.not_taken[0].why
