"""The starter recipe reads as it stands, shows every key, and every key it shows reads too."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator

import pytest
from jsonschema import Draft202012Validator

from clampwright.layout.lay_out import lay_out
from clampwright.recipe.faults import RecipeFaults
from clampwright.recipe.fields import Field, Table
from clampwright.recipe.inner import inner_table
from clampwright.recipe.kinds import KINDS
from clampwright.recipe.read import read_text
from clampwright.recipe.reference import reference
from clampwright.recipe.schema import json_schema
from clampwright.recipe.starter import starter

UNITS = ("mm", "in")
NOT_TOGETHER = {"points", "reach", "station"}
"""Keys that need others: corners need a polygon; the others need a clamp block, or suit one tube only."""


def fields(table: Table) -> Iterator[Field]:
    """Every field of a table and of those inside it."""
    for field in table.fields:
        yield field
        inner = inner_table(field)
        if inner is not None:
            yield from fields(inner)


def texts() -> list[tuple[str, str]]:
    """Every kind in both units."""
    return [(kind, units) for kind in KINDS for units in UNITS]


@pytest.mark.parametrize(("kind", "units"), texts())
def test_it_reads_and_conforms_and_lays_out(kind: str, units: str) -> None:
    text = starter(kind, "my-part", units)
    recipe = read_text(text)
    assert (recipe.kind, recipe.name, recipe.units) == (kind, "my-part", units)
    assert list(Draft202012Validator(json_schema(kind)).iter_errors(tomllib.loads(text))) == []
    layout = lay_out(recipe)
    assert len(layout.clamps) == 4
    assert all(inside > 0 for inside in layout.outline.box()[2:])


@pytest.mark.parametrize(("kind", "units"), texts())
def test_it_shows_every_key_once_with_its_meaning(kind: str, units: str) -> None:
    text = starter(kind, "my-part", units)
    for field in fields(KINDS[kind].table()):
        if inner_table(field) is None:
            lines = [line for line in text.split("\n") if line.lstrip("# ").startswith(f"{field.key} = ")]
            assert lines, field.key
        assert field.about in text or field.key in ("tubes", "lightening", "at")


@pytest.mark.parametrize("units", UNITS)
def test_every_key_shown_reads_when_its_mark_is_taken_away(units: str) -> None:
    """One at a time, but for keys that need others beside them, and headings of blocks."""
    lines = starter("accessory plate", "my-part", units).split("\n")
    tried = 0
    in_block_shown = False
    for at, line in enumerate(lines):
        if line.startswith(("# [", "[")):
            in_block_shown = line.startswith("# [[")
        key = line.removeprefix("# ").partition(" = ")[0]
        if not line.startswith("# ") or " = " not in line or " " in key or in_block_shown:
            continue
        if key in NOT_TOGETHER or key == "file":
            continue
        read_text("\n".join([*lines[:at], line.removeprefix("# "), *lines[at + 1 :]]))
        tried += 1
    assert tried >= 25


@pytest.mark.parametrize("units", UNITS)
def test_the_blocks_shown_read_too(units: str) -> None:
    text = starter("accessory plate", "my-part", units)
    for heading in ("[[clamps.at]]", "[[plate.lightening]]"):
        start = text.index(f"# {heading}")
        end = text.index("\n\n", start)
        block = "\n".join(
            line.removeprefix("# ") for line in text[start:end].split("\n") if " = " in line or "[[" in line
        )
        if heading == "[[clamps.at]]":
            block = block + "\n" + block.replace('tube = "upper"', 'tube = "lower"')
        recipe = read_text(text[:start] + block + text[end:])
        assert len(recipe.job.clamps.at) + len(recipe.job.plate.lightening) in (1, 2)


@pytest.mark.parametrize(
    ("words", "key"),
    [
        (("plate", "x", "in"), "kind"),
        (("accessory plate", "../x", "in"), "name"),
        (("accessory plate", 'x"y', "in"), "name"),
        (("accessory plate", "a\nb", "in"), "name"),
        (("accessory plate", "x", "inch"), "units"),
    ],
)
def test_what_it_cannot_be_made_of(words: tuple[str, str, str], key: str) -> None:
    with pytest.raises(RecipeFaults) as caught:
        starter(*words)
    assert caught.value.faults[0].key == key


def test_the_reference_names_every_key_with_its_meaning() -> None:
    text = reference("accessory plate", "in")
    for field in fields(KINDS["accessory plate"].table()):
        if inner_table(field) is None:
            assert f"| `{field.key}` | {field.about} |" in text


def test_every_field_is_declared_with_meaning_and_example() -> None:
    for kind in KINDS.values():
        for field in fields(kind.table()):
            assert field.about.endswith("."), field.key
            if inner_table(field) is None:
                assert tomllib.loads(f"v = {field.in_units('mm')}"), field.key
                assert tomllib.loads(f"v = {field.in_units('in')}"), field.key


def test_defaults_in_the_docs_are_those_of_the_rules() -> None:
    from clampwright.trade.tables import rule

    (each,) = (f for f in fields(KINDS["accessory plate"].table()) if f.key == "each")
    assert {"two": 2}[each.left_out("mm")] == rule("clamps-each-default").value
