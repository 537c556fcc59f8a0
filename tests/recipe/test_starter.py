"""The starter recipe reads as it stands, shows every key, and every key it shows reads too."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator

import pytest
from jsonschema import Draft202012Validator

from clampwright.layout.kinds import lay_out
from clampwright.recipe.faults import RecipeFaults
from clampwright.recipe.fields import Field, Table
from clampwright.recipe.inner import inner_table
from clampwright.recipe.kinds import KINDS
from clampwright.recipe.read import read_text
from clampwright.recipe.reference import reference
from clampwright.recipe.schema import json_schema
from clampwright.recipe.starter import starter

UNITS = ("mm", "in")
NOT_TOGETHER = {
    "accessory plate": {"points", "reach", "station"},
    "component bushings": {"lugs"},
    "stand-off": {"panel", "station", "hose", "wires", "direction", "beside", "toward", "hole"},
}
"""Keys that need others beside them, or stand in the place of one that the starter writes."""
TRIED = {"accessory plate": 25, "component bushings": 28, "stand-off": 26}
"""How many keys of each starter are tried one at a time, at least."""


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
    assert len(layout.loops) == {"accessory plate": 4, "component bushings": 3, "stand-off": 2}[kind]
    assert len(layout.joints) >= 1


@pytest.mark.parametrize("units", UNITS)
def test_the_parts_of_the_starters_fit(units: str) -> None:
    plate, mounted, held = (lay_out(read_text(starter(kind, "my-part", units))) for kind in KINDS)
    assert all(inside > 0 for inside in plate.outline.box()[2:])
    assert mounted.answer.fits, mounted.answer.breaks
    assert held.place.fits, held.place.breaks


@pytest.mark.parametrize(("kind", "units"), texts())
def test_it_shows_every_key_once_with_its_meaning(kind: str, units: str) -> None:
    text = starter(kind, "my-part", units)
    for field in fields(KINDS[kind].table()):
        if inner_table(field) is None:
            lines = [line for line in text.split("\n") if line.lstrip("# ").startswith(f"{field.key} = ")]
            assert lines, field.key
        assert field.about in text or field.key in ("tubes", "lightening", "at")


@pytest.mark.parametrize(("kind", "units"), texts())
def test_every_key_shown_reads_when_its_mark_is_taken_away(kind: str, units: str) -> None:
    """One at a time, but for keys that need others beside them, and headings that are only shown."""
    lines = starter(kind, "my-part", units).split("\n")
    tried = 0
    in_block_shown = False
    for at, line in enumerate(lines):
        if line.startswith(("# [", "[")):
            in_block_shown = line.startswith("# [")
        key = line.removeprefix("# ").partition(" = ")[0]
        if not line.startswith("# ") or " = " not in line or " " in key or in_block_shown:
            continue
        if key in NOT_TOGETHER[kind] or key == "file":
            continue
        read_text("\n".join([*lines[:at], line.removeprefix("# "), *lines[at + 1 :]]))
        tried += 1
    assert tried >= TRIED[kind]


@pytest.mark.parametrize(("kind", "units"), texts())
@pytest.mark.parametrize("heading", ["[structure.panels.firewall]", "[structure.keep_outs.exhaust]"])
def test_the_surroundings_shown_read_too(kind: str, units: str, heading: str) -> None:
    text = starter(kind, "my-part", units)
    structure = read_text(uncommented(text, heading)).structure
    assert len(structure.panels) + len(structure.keep_outs) == 1


@pytest.mark.parametrize("units", UNITS)
def test_the_clamp_of_one_tube_shown_reads_too(units: str) -> None:
    text = starter("component bushings", "my-part", units)
    (own,) = read_text(uncommented(text, "[clamps.tubes.upper]")).job.clamps.own
    assert own[0] == "upper"
    assert own[1].reach_mm is not None


def uncommented(text: str, heading: str) -> str:
    """A starter with what stands under a heading that is only shown written out."""
    start = text.index(f"# {heading}")
    end = text.index("\n\n", start)
    lines = text[start:end].split("\n")
    block = "\n".join(line.removeprefix("# ") for line in lines if " = " in line or heading in line)
    return text[:start] + block + text[end:]


@pytest.mark.parametrize("units", UNITS)
def test_the_blocks_shown_read_too(units: str) -> None:
    text = starter("accessory plate", "my-part", units)
    for heading in ("[[clamps.at]]", "[[plate.lightening]]"):
        written = uncommented(text, heading)
        if heading == "[[clamps.at]]":
            block = written[written.index(heading) :].partition("\n\n")[0]
            written = written.replace(block, block + "\n" + block.replace('tube = "upper"', 'tube = "lower"'))
        recipe = read_text(written)
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


@pytest.mark.parametrize("kind", KINDS)
def test_the_reference_names_every_key_with_its_meaning(kind: str) -> None:
    text = reference(kind, "in")
    for field in fields(KINDS[kind].table()):
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

    said = {"two": 2, "three": 3}
    (each,) = (f for f in fields(KINDS["accessory plate"].table()) if f.key == "each")
    assert said[each.left_out("mm")] == rule("clamps-each-default").value
    (show,) = (f for f in fields(KINDS["component bushings"].table()) if f.key == "show")
    assert said[show.left_out("mm")] == rule("bushing-answers-shown").value


def test_numbers_far_too_large_are_refused_where_they_stand() -> None:
    """Every bare number of every starter, one at a time: one fault or more, the first of them in its line."""
    for kind, units in texts():
        text = starter(kind, "my-part", units)
        lines = text.split("\n")
        for at, line in enumerate(lines):
            number = re.search(r"(?<=[ \[])-?\d+(\.\d+)?(?=[,\] ]|$)", line.partition("#")[0])
            if number is None or line.startswith("#"):
                continue
            spoilt = line[: number.start()] + "9e9" + line[number.end() :]
            with pytest.raises(RecipeFaults) as caught:
                read_text("\n".join([*lines[:at], spoilt, *lines[at + 1 :]]))
            assert at + 1 in {fault.line for fault in caught.value.faults}, spoilt
