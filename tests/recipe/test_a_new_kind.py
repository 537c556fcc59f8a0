"""A new kind of recipe is one file and a line in the register: reading, faults, schema, starter."""

from __future__ import annotations

import pytest
from jsonschema import Draft202012Validator

from clampwright.recipe.faults import RecipeFaults
from clampwright.recipe.fields import ByRule, Field, LeftOut, Table, Values
from clampwright.recipe.kind import Kind
from clampwright.recipe.kinds import KINDS
from clampwright.recipe.measures import Length
from clampwright.recipe.read import read_text
from clampwright.recipe.readers import Text
from clampwright.recipe.reference import reference
from clampwright.recipe.schema import json_schema
from clampwright.recipe.starter import starter
from clampwright.recipe.written import Entry
from clampwright.structure.tubes import Structure

RING = Table(
    (
        Field("on", Text("a tube's name"), "Tube that it goes round.", example='"left"'),
        Field("width", Length("body"), "Width of the ring.", ByRule("bar-metric", "bar-inch", "a test"), "9"),
    ),
    "The ring.",
)


def cross_check(entry: Entry, values: Values, structure: Structure | None) -> None:
    """A ring goes round a tube that there is."""
    ring = values.get("ring") or {}
    if structure is not None and "on" in ring and ring["on"] not in structure.names:
        entry.inside("ring").inside("on").wrong("a tube of the structure")


def job(entry: Entry, values: Values, structure: Structure) -> object:
    """The typed job: here simply a tuple."""
    return (values["ring"]["on"], values["ring"]["width"])


def written(units: str) -> dict[str, object]:
    """What a starter recipe writes."""
    tube = {"start": "[0, 0, 0]", "end": "[100, 0, 0]", "od": "20" if units == "mm" else '"20 mm"'}
    return {"structure": {"tubes": {"left": tube}}, "ring": {"on": '"left"'}}


KIND = Kind("ring", "A ring.", (Field("ring", RING, RING.about, LeftOut()),), cross_check, job, written)  # type: ignore[arg-type]


@pytest.fixture(autouse=True)
def registered(monkeypatch: pytest.MonkeyPatch) -> None:
    """The line in the register."""
    monkeypatch.setitem(KINDS, KIND.name, KIND)


def test_it_reads_with_its_own_defaults() -> None:
    recipe = read_text(starter("ring", "a-ring", "mm"))
    assert recipe.kind == "ring"
    assert recipe.job == ("left", 100.0)
    assert ("ring.width", "100.00 mm (a test; assumed)") in recipe.assumed
    assert read_text(starter("ring", "a-ring", "in")).job == ("left", pytest.approx(101.6))


def test_its_faults_come_with_those_that_all_recipes_have() -> None:
    text = (
        starter("ring", "a-ring", "mm")
        .replace('on = "left"', 'on = "lift"\nwidht = 3')
        .replace("od = 20", "od = 0")
    )
    with pytest.raises(RecipeFaults) as caught:
        read_text(text)
    assert [fault.key for fault in caught.value.faults] == ["structure.tubes.left.od", "ring.widht"]
    with pytest.raises(RecipeFaults) as caught:
        read_text(text.replace("od = 0", "od = 20").replace("widht", "width"))
    assert [fault.key for fault in caught.value.faults] == ["ring.on"]


def test_schema_and_reference_follow() -> None:
    schema = json_schema("ring")
    Draft202012Validator.check_schema(schema)
    assert "ring" in schema["properties"]
    assert "Width of the ring." in reference("ring")


def test_kinds_are_suggested() -> None:
    with pytest.raises(RecipeFaults, match='did you mean "ring"'):
        read_text('kind = "rings"')
