"""Structure files: what is written reads back as it was, with tomllib and with the project's own reader."""

from __future__ import annotations

import tomllib
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from clampwright.files.factor_toml import factor_lines, turned
from clampwright.files.structure_toml import structure_toml
from clampwright.recipe.load import LARGEST_FILE
from clampwright.recipe.read import read, read_text
from clampwright.recipe.schema import structure_schema
from clampwright.structure.surroundings import KeepOut, Panel
from clampwright.structure.tubes import Structure, Tube
from clampwright.structure.uncertainty import Uncertainty, independent

RECIPES = Path(__file__).parents[2] / "recipes"
SCHEMA = Draft202012Validator(structure_schema())
STEP = {"mm": 0.0005, "in": 0.00005 * 25.4}
"""Half of the last digit written, mm."""

coordinate = st.floats(-3000, 3000, allow_nan=False)
length = st.floats(1.0, 400.0)
names = st.lists(
    st.sampled_from(("upper-left", "ring 1", "a.b", "Ö", "2", "x_y", "lower-right", "strut")),
    min_size=1,
    max_size=4,
    unique=True,
)


@st.composite
def structures(draw: st.DrawFn) -> Structure:
    """Tubes far apart from one another, what may stand round them, and a covariance of theirs."""
    tubes = []
    for number, name in enumerate(draw(names)):
        x, y = draw(coordinate), draw(coordinate)
        start = (x, y, 100.0 * number)
        end = (x + draw(st.floats(80, 900)), draw(coordinate), 100.0 * number + draw(st.floats(-20, 20)))
        mark = draw(st.none() | st.floats(-50, 100))
        tubes.append(Tube(name, start, end, draw(st.floats(3.1, 70)), mark))
    panel = Panel("fire wall", (1.0, 2.0, 3.0), (0.6, 0.0, -0.8), draw(st.floats(0.3, 20)), "6061-T6")
    hot = KeepOut(
        "pipe", (0.0, 0.0, 0.0), (draw(length), 0.0, 0.0), draw(length), draw(length), "engine", "hot"
    )
    box = KeepOut("box", (0.0, 0.0, 0.0), (draw(length), 50.0, -9.0), None, 0.0, "cowl", "other")
    known = draw(st.none() | uncertainties(tuple(tube.name for tube in tubes)))
    moves = draw(st.none() | st.floats(0, 40))
    return Structure(tuple(tubes), (panel,), (hot, box), moves, known)


def uncertainties(tubes: tuple[str, ...]) -> st.SearchStrategy[Uncertainty]:
    """Factors of many sizes, with rows and columns of nothing."""
    entry = st.just(0.0) | st.floats(-3.0, 3.0, allow_nan=False)
    return st.integers(1, 5).flatmap(
        lambda causes: st.builds(
            Uncertainty,
            st.just(tubes),
            st.lists(
                st.lists(entry, min_size=causes, max_size=causes).map(tuple),
                min_size=6 * len(tubes),
                max_size=6 * len(tubes),
            ).map(tuple),
            st.sampled_from(("tape survey x, 3 measurements", 'a "scan"')),
            st.booleans(),
            st.sampled_from(((), tuple(f"A-{number}" for number in range(causes)))),
        )
    )


def read_back(text: str, folder: Path) -> Structure:
    """The structure of a recipe that names the text as its structure file."""
    (folder / "tubes.toml").write_text(text, encoding="utf-8")
    units = tomllib.loads(text)["units"]
    name = tomllib.loads(text)["tubes"]
    recipe = (
        f'kind = "stand-off"\nname = "x"\nunits = "{units}"\nstructure.file = "tubes.toml"\n'
        f"support.tube = {next(iter(name))!r}\n"
        'line = { name = "hose", od = "16 mm", beside = "90 mm" }\nspacer = {}\n'
    )
    return read_text(recipe, folder / "x.toml").structure


@settings(deadline=None, max_examples=60)
@given(structures(), st.sampled_from(("mm", "in")))
def test_reading_back_gives_what_was_written(
    tmp_path_factory: pytest.TempPathFactory, structure: Structure, units: str
) -> None:
    text = structure_toml(structure, "Some tubes", units, ("One comment", "and \u2028 another"))
    assert [error.message for error in SCHEMA.iter_errors(tomllib.loads(text))] == []
    back = read_back(text, tmp_path_factory.getbasetemp())
    close = {"abs": STEP[units] * 1.01}
    assert back.names == structure.names
    for one, other in zip(back.tubes, structure.tubes, strict=True):
        assert one.start == pytest.approx(other.start, **close)
        assert one.end == pytest.approx(other.end, **close)
        assert one.od_mm == pytest.approx(other.od_mm, **close)
        assert (one.mark_mm is None) is (other.mark_mm is None)
        assert one.mark_mm is None or one.mark_mm == pytest.approx(other.mark_mm, **close)
    for panel, was in zip(back.panels, structure.panels, strict=True):
        assert (panel.name, panel.material) == (was.name, was.material)
        assert panel.normal == pytest.approx(was.normal, abs=1e-11)
        assert (*panel.point, panel.thickness_mm) == pytest.approx((*was.point, was.thickness_mm), **close)
    for kept, was in zip(back.keep_outs, structure.keep_outs, strict=True):
        assert (kept.name, kept.rides_on, kept.kind) == (was.name, was.rides_on, was.kind)
        assert (*kept.start, *kept.end, kept.distance_mm) == pytest.approx(
            (*was.start, *was.end, was.distance_mm), **close
        )
        assert kept.od_mm is was.od_mm is None or kept.od_mm == pytest.approx(was.od_mm, **close)
    assert (back.engine_moves_mm is None) is (structure.engine_moves_mm is None)
    assert back.engine_moves_mm is None or back.engine_moves_mm == pytest.approx(
        structure.engine_moves_mm, **close
    )
    same_uncertainty(back.uncertainty, structure.uncertainty)


def same_uncertainty(back: Uncertainty | None, was: Uncertainty | None) -> None:
    """Four digits of the largest part, and every word."""
    assert (back is None) is (was is None)
    if back is None or was is None:
        return
    assert (back.tubes, back.said, back.given, back.causes_are) == (
        was.tubes,
        was.said,
        was.given,
        was.causes_are,
    )
    one, other = (np.array(each.factor_mm) for each in (back, was))
    causes = max(one.shape[1], other.shape[1])
    one, other = (np.pad(each, ((0, 0), (0, causes - each.shape[1]))) for each in (one, other))
    assert one == pytest.approx(other, abs=0.5e-3 * max(1e-3, float(np.max(np.abs(other)))))


def test_writing_again_what_was_read_gives_the_same_text(tmp_path: Path) -> None:
    structure = read(RECIPES / "coil-plate.toml").structure
    structure = Structure(
        structure.tubes,
        structure.panels,
        structure.keep_outs,
        structure.engine_moves_mm,
        independent(structure.tubes, 1.5, "by hand"),
    )
    text = structure_toml(structure, "Mount", "in")
    assert structure_toml(read_back(text, tmp_path), "Mount", "in") == text


def test_the_example_mount_keeps_its_numbers_and_a_person_can_read_them(tmp_path: Path) -> None:
    structure = read(RECIPES / "coil-plate.toml").structure
    text = structure_toml(structure, "Engine mount of the Oddlark", "in", ("From a test.",))
    assert text.startswith(
        '# From a test.\nabout = "Engine mount of the Oddlark"\nunits = "in"\nengine_moves = 0.3\n'
    )
    assert "[tubes.upper-left]\nstart = [0, -11, 9]\nend = [18, -6, 6.5]\nod = 0.75\n" in text
    written, own = (
        tomllib.loads(each) for each in (text, (RECIPES / "engine-mount.toml").read_text("utf-8"))
    )
    assert {n: (t["start"], t["end"]) for n, t in written["tubes"].items()} == {
        n: (t["start"], t["end"]) for n, t in own["tubes"].items()
    }
    back = read_back(text, tmp_path)
    for one, other in zip(back.tubes, structure.tubes, strict=True):
        assert (*one.start, *one.end, one.od_mm) == pytest.approx((*other.start, *other.end, other.od_mm))
    assert "measured" not in written


def test_the_covariance_stands_at_the_end() -> None:
    tube = Tube("left", (0.0, 0.0, 0.0), (508.0, 0.0, 0.0), 19.05)
    known = independent((tube,), 1.96, "by hand", given=False)
    lines = structure_toml(Structure((tube,), uncertainty=known), "One", "mm").split("\n")
    assert lines.index("[tubes.left]") < lines.index("[measured]")
    assert lines[lines.index("left = [") + 1 : -2] == [
        *(
            '  "10000",',
            '  "0 10000",',
            '  "0 0 10000",',
            '  "0 0 0 10000",',
            '  "0 0 0 0 10000",',
            '  "0 0 0 0 0 10000",',
        )
    ]
    assert lines[lines.index("[measured]") + 1 : lines.index("[measured.ends]")] == [
        'from = "by hand"',
        "given = false",
        "one_mm = 0.0001",
    ]


def frame(tubes: int, causes: int) -> Structure:
    """A frame of tubes side by side, every coordinate moved by every cause."""
    chance = np.random.default_rng(3)
    made = tuple(
        Tube(f"tube-number-{n}", (0.0, 50.0 * n, 0.0), (700.0, 50.0 * n, 5.0), 19.05) for n in range(tubes)
    )
    factor = chance.normal(0, 0.4, (6 * tubes, causes))
    return Structure(
        made,
        uncertainty=Uncertainty(
            tuple(tube.name for tube in made),
            tuple(tuple(row) for row in factor.tolist()),
            "tape survey frame",
            causes_are=tuple(f"P{n}-P{n + 1} outside" for n in range(causes)),
        ),
    )


def test_thirty_tubes_with_a_hundred_and_fifty_measurements_fit_as_they_are(tmp_path: Path) -> None:
    structure = frame(30, 150)
    text = structure_toml(structure, "Frame", "in")
    assert len(text.encode()) < LARGEST_FILE
    same_uncertainty(read_back(text, tmp_path).uncertainty, structure.uncertainty)


def test_where_the_causes_are_too_many_the_covariance_is_kept_with_fewer(tmp_path: Path) -> None:
    structure = frame(30, 400)
    text = structure_toml(structure, "Frame", "in")
    assert len(text.encode()) < LARGEST_FILE
    back = read_back(text, tmp_path).uncertainty
    assert back is not None
    assert back.causes_are == ()
    assert back.causes <= 180
    assert structure.uncertainty is not None
    one, other = (np.array(each.factor_mm) for each in (back, structure.uncertainty))
    wanted = other @ other.T
    assert one @ one.T == pytest.approx(wanted, abs=3e-3 * float(np.max(wanted)))


def test_more_tubes_than_a_file_holds_are_refused() -> None:
    with pytest.raises(ValueError, match="90 tubes are too many"):
        structure_toml(frame(90, 600), "Frame", "in")


@settings(deadline=None, max_examples=60)
@given(st.integers(1, 8), st.integers(1, 20), st.integers(0, 99))
def test_turning_a_factor_keeps_its_covariance(rows: int, causes: int, seed: int) -> None:
    factor = np.random.default_rng(seed).normal(0, 1, (rows, causes))
    lower = turned(factor)
    assert lower.shape[1] <= min(rows, causes)
    assert np.triu(lower, 1) == pytest.approx(np.zeros_like(lower))
    assert lower @ lower.T == pytest.approx(factor @ factor.T, abs=1e-9)


def test_what_is_known_exactly_is_written_as_nothing() -> None:
    exact = Uncertainty(("t",), ((0.0, 0.0),) * 6, "drawing")
    one_mm, _, rows = factor_lines(exact)
    assert rows == [""] * 6
    assert one_mm > 0
    assert factor_lines(exact, fewer=True)[2] == [""] * 6
