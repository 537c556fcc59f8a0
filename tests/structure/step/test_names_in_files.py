"""Names that a STEP file gives its products become keys that a recipe takes, whatever they are."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from structure.step.kernel_shapes import bar, written

from clampwright.files.structure_toml import structure_toml
from clampwright.recipe import blocks
from clampwright.structure import tube_names
from clampwright.structure.chosen import chosen
from clampwright.structure.step.here import tubes_here
from clampwright.structure.step.naming import names_for

ODD = (
    'left/right: "upper"',
    "-. _",
    "..",
    "_hidden",
    "tube-1",
    "TUBE 1",
    "tube_1",
    "Träger größer",
    "Träger Größer",
    "труба",
    "管 7",
    "a" * 200,
    "A" * 200,
    "a" * 39 + " b",
    "new\tline = [1]",
    "O'Brace",
    "100 %",
    "[tubes]",
    "#1",
)


def legal(names: tuple[str, ...]) -> bool:
    """By the recipe's own rule, and none too like another by it."""
    return all(blocks.NAME.fullmatch(name) for name in names) and len(set(map(blocks.alike, names))) == len(
        names
    )


def test_odd_names_in_a_file_are_keys_of_a_structure_file(tmp_path: Path) -> None:
    bars = {name: bar((40.0 * k, 0, 0), (40.0 * k, 0, 300 - k), 20) for k, name in enumerate(ODD)}
    found = tubes_here(written(tmp_path / "odd.step", bars))
    assert len(found.tubes) == len(ODD)
    structure = chosen(found, [one.number for one in found.tubes], {})
    assert legal(structure.names)
    assert {"O-Brace", "left-right-upper"} <= set(structure.names)
    read = tomllib.loads(structure_toml(structure, "Odd names", "mm"))
    assert tuple(read["tubes"]) == structure.names


@settings(deadline=None, max_examples=300)
@given(st.lists(st.one_of(st.text(max_size=60), st.sampled_from(ODD)), max_size=30))
def test_any_names_become_legal_ones(parts: list[str]) -> None:
    assert legal(names_for(parts))
    assert len(names_for(parts)) == len(parts)


def test_a_thousand_alike() -> None:
    names = names_for(["x" * 50] * 1200 + ["x" * 32 + "-7"])
    assert legal(names)


@settings(deadline=None, max_examples=300)
@given(st.one_of(st.text(max_size=45), st.from_regex(r"[\w .-]{1,42}", fullmatch=True)))
def test_the_rule_is_the_recipes(name: str) -> None:
    """Stages may not ask later ones: the rule stands twice, and this holds the two together."""
    assert tube_names.is_name(name) == (blocks.NAME.fullmatch(name) is not None)
    assert tube_names.alike(name) == blocks.alike(name)


@pytest.mark.parametrize(
    ("one", "other"), [("Upper-left", "upper left"), ("a.b", "AB"), ("STRASSE", "straße")]
)
def test_names_that_a_person_takes_for_one_another(one: str, other: str) -> None:
    assert tube_names.alike(one) == tube_names.alike(other)
