"""The JSON Schemas against jsonschema, a reference implementation of draft 2020-12."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from recipe.only_the_reader import ONLY_THE_READER_SEES
from recipe.recipe_files import EXAMPLES, HERE, MOUNT, VALID, WRONG

from clampwright.quantities import NotAQuantity, angle_rad, length_mm, mass_kg, temperature_c
from clampwright.recipe.kinds import KINDS
from clampwright.recipe.measures import Angle, Length, Mass, Temperature
from clampwright.recipe.schema import json_schema, structure_schema

RECIPES = {kind: Draft202012Validator(json_schema(kind)) for kind in KINDS}
STRUCTURE = Draft202012Validator(structure_schema())


def data(path: Path) -> dict[str, object] | None:
    """The TOML data of a file; None where it is no TOML."""
    try:
        return tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except (ValueError, RecursionError):
        return None


def schema_for(written: dict[str, object]) -> Draft202012Validator:
    """The schema that an editor would take for a recipe: that of its kind, or any where it names none."""
    return RECIPES.get(str(written.get("kind")), RECIPES["accessory plate"])


def test_all_are_schemas_of_the_draft() -> None:
    for schema in (*RECIPES.values(), STRUCTURE):
        Draft202012Validator.check_schema(schema.schema)


@pytest.mark.parametrize("path", VALID + EXAMPLES, ids=lambda path: path.stem)
def test_right_recipes_conform(path: Path) -> None:
    written = data(path)
    assert [error.message for error in schema_for(written).iter_errors(written)] == []


@pytest.mark.parametrize(
    "path", [MOUNT, *(HERE / "valid" / "shared").glob("*.toml")], ids=lambda path: path.stem
)
def test_right_structure_files_conform(path: Path) -> None:
    assert [error.message for error in STRUCTURE.iter_errors(data(path))] == []


@pytest.mark.parametrize("path", [path for path in WRONG if data(path) is not None], ids=lambda p: p.stem)
def test_wrong_recipes_do_not_where_a_schema_can_tell(path: Path) -> None:
    written = data(path)
    assert schema_for(written).is_valid(written) is (path.stem in ONLY_THE_READER_SEES)


def test_what_only_the_reader_sees_is_there() -> None:
    assert {path.stem for path in WRONG} >= ONLY_THE_READER_SEES


@pytest.mark.parametrize(
    ("name", "conforms"),
    [("faulty", False), ("empty", False), ("mount", True), ("bay", True), ("faulty-bay", False)],
)
def test_structure_files(name: str, conforms: bool) -> None:
    assert STRUCTURE.is_valid(data(HERE / "wrong" / "shared" / f"{name}.toml")) is conforms


@pytest.mark.parametrize(
    ("value", "conforms"),
    [
        ("3/4 in", True),
        ("1-1/4", True),
        ('1 1/4"', True),
        ("2 ft 3 in", True),
        ("19.05mm", True),
        (".063 IN.", True),
        ("1½″", True),
        ("#10", True),
        ("3/4 inn", False),
        ("thick", False),
        ("3 4 5", False),
        (True, False),
        ([1], False),
    ],
)
def test_lengths_in_an_editor(value: object, conforms: bool) -> None:
    assert Draft202012Validator(Length("coordinate").schema()).is_valid(value) is conforms


NUMBERS = st.one_of(
    st.integers(0, 99).map(str),
    st.floats(0, 99).map(lambda x: f"{x:.3f}"),
    st.tuples(st.integers(0, 9), st.sampled_from([" ", "-"]), st.integers(1, 63)).map(
        lambda p: f"{p[0]}{p[1]}{p[2]}/64"
    ),
    st.sampled_from(["1e2", ".5", "3.", "½", "2¼", "3 / 4"]),
)
MEASURES = [
    (Length("coordinate"), length_mm),
    (Angle("turn"), angle_rad),
    (Mass("mass"), mass_kg),
    (Temperature("temperature"), temperature_c),
]


@pytest.mark.parametrize(("measure", "parse"), MEASURES, ids=lambda part: getattr(part, "kind", ""))
@settings(deadline=None, max_examples=150)
@given(data=st.data())
def test_no_schema_refuses_a_quantity_that_the_reader_takes(measure, parse, data: st.DataObject) -> None:
    unit = data.draw(st.sampled_from(measure.names.replace("?", "").split())).replace("_", " ")
    gap = data.draw(st.sampled_from(["", " "]))
    written = data.draw(st.sampled_from([unit, unit.upper() if unit.isascii() else unit]))
    text = data.draw(NUMBERS) + gap + written
    try:
        parse(text)
    except NotAQuantity:
        return
    assert Draft202012Validator(measure.schema()).is_valid(text), text


def test_an_unknown_kind_is_refused_by_name() -> None:
    with pytest.raises(LookupError, match="accessory plate"):
        json_schema("accessory plait")
