"""Whatever a file holds, reading it gives a recipe or RecipeFaults, and every message can be printed."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from recipe.recipe_files import HERE, VALID, WRONG

from clampwright.recipe.faults import Fault, RecipeFaults
from clampwright.recipe.kinds import KINDS
from clampwright.recipe.read import read, read_text

TEXTS = tuple(path.read_text(encoding="utf-8-sig") for path in VALID)
VALUES = ("nan", "-inf", "1e400", "0", "-1", "true", '""', '"#10"', "[]", "{}", '"\\u0000"', "1979-05-27")
SIGNS = ("#", "'", '"""', "\x00", "\ud800", "\u202e", "9" * 50, "[[[[[[", "a.b.c=", "é", "\r", "=", "[[]]")
LINES = (
    "[[carries]]",
    "[structure]",
    "units = 'in'\n",
    "each = 99\n",
    "file = '/dev/zero'\n",
    "file = '.'\n",
    "[structure.keep_outs.x]",
    "[clamps.tubes.left]",
    "hose = 8\n",
    "beside = 60\n",
    "fixed = true\n",
    "wires = [[7, 20], [2, '3 mm']]\n",
)
TEXTS_OF_UNITS = ('"1/0 in"', '"1e9 km"', '"structure.tubes"', '"3/4 inn"', '"-1 mm"', '"1e99 lb"')
PARTS = VALUES + SIGNS + LINES + TEXTS_OF_UNITS


def faults_of(text: str, path: Path | None = None) -> tuple[Fault, ...]:
    """The faults of a text; none for a right recipe. Any other exception goes on to fail the test."""
    try:
        read_text(text, path)
    except RecipeFaults as caught:
        return caught.faults or (Fault("", 0, 0, "", "", "", ""),)
    return ()


BESIDE = HERE / "valid" / "spoilt.toml"
"""A place from which the shared files are found."""


def judged(text: str, path: Path | None = None) -> None:
    """Read a text; every message must name a line there is, and be fit to print."""
    for fault in faults_of(text, path):
        assert fault.text().isprintable(), fault
        assert fault.text().encode("utf-8")
        assert fault.expected
        own = fault.file == (str(path) if path else "recipe")
        assert 1 <= fault.line <= text.count("\n") + 1 or not own, fault


@settings(deadline=None, max_examples=200)
@given(st.text(max_size=200))
def test_any_text(text: str) -> None:
    judged(text)


@settings(deadline=None, max_examples=100)
@given(st.binary(max_size=200))
def test_any_bytes(tmp_path_factory: pytest.TempPathFactory, data: bytes) -> None:
    path = tmp_path_factory.getbasetemp() / "any.toml"
    path.write_bytes(data)
    with pytest.raises(RecipeFaults) as caught:
        read(path)
    assert {fault.file for fault in caught.value.faults} == {str(path)}


@settings(deadline=None, max_examples=300)
@given(st.sampled_from(TEXTS), st.randoms(use_true_random=False), st.integers(1, 4))
def test_a_right_recipe_with_its_text_spoilt(text: str, chance: random.Random, times: int) -> None:
    for _ in range(times):
        start = chance.randrange(len(text) + 1)
        end = min(len(text), start + chance.choice((0, 0, 1, 2, 10)))
        text = text[:start] + chance.choice(("", *PARTS)) + text[end:]
    judged(text, BESIDE)


@settings(deadline=None, max_examples=300)
@given(st.sampled_from(TEXTS), st.randoms(use_true_random=False), st.integers(1, 3))
def test_a_right_recipe_with_its_lines_spoilt(text: str, chance: random.Random, times: int) -> None:
    lines = text.split("\n")
    for _ in range(times):
        at = chance.randrange(len(lines))
        key, equals, _ = lines[at].partition("=")
        what = chance.choice(("drop", "repeat", "move", "value"))
        if what == "drop":
            lines[at] = ""
        elif what == "repeat":
            lines.insert(at, lines[at])
        elif what == "move":
            lines.insert(chance.randrange(len(lines)), lines[at])
        elif equals:
            lines[at] = f"{key}= {chance.choice(PARTS)}"
    judged("\n".join(lines), BESIDE)


@settings(deadline=None, max_examples=60)
@given(st.sampled_from(WRONG), st.integers(0, 400))
def test_a_file_cut_short(path: Path, length: int) -> None:
    judged(path.read_bytes()[:length].decode("utf-8", errors="replace"))


@pytest.mark.parametrize("opening", ["[", "{a=", "[[", "{a=["])
@pytest.mark.parametrize("depth", [100, 400, 5000, 50_000])
def test_deep_nesting(opening: str, depth: int) -> None:
    closing = "".join({"[": "]", "{": "}"}.get(sign, "") for sign in reversed(opening))
    judged("a = " + opening * depth)
    judged("a = " + opening * depth + "1" + closing * depth)
    for kind in KINDS:
        judged(f'kind = "{kind}"\nclamps = ' + opening * depth + "1" + closing * depth)
    judged('kind = "stand-off"\nline = { wires = ' + opening * depth + "1" + closing * depth + "}")


def test_deep_keys() -> None:
    judged(".".join(["a"] * 1500) + " = 1")
    judged('kind = "accessory plate"\n[' + ".".join(["structure", *["tubes"] * 1500]) + "]")
    judged(".".join(["a"] * 60_000) + " = 1")


@pytest.mark.parametrize(
    "number", ["9" * 4299, "9" * 5000, "-" + "9" * 3000, "1" * 400 + ".0", "0x" + "f" * 9000, "1e999"]
)
@pytest.mark.parametrize("key", ["each = {}\n[carries]", "dash = {}", "reach = {}", "on = [{}]", "at = {}"])
def test_numbers_without_end(number: str, key: str) -> None:
    judged('kind = "accessory plate"\n[clamps]\n' + key.format(number))


@pytest.mark.parametrize(
    "name", ["", "x" * 5000, "a\x00b", "shared", ".", "/dev/zero", "/dev/null", "~", "\ud800"]
)
def test_structure_files_that_are_none(name: str) -> None:
    quoted = name.encode("unicode_escape").decode().replace("\\x", "\\u00").replace('"', '\\"')
    judged(f'kind = "accessory plate"\n[structure]\nfile = "{quoted}"\n', HERE / "wrong" / "here.toml")
    judged(f"kind = \"accessory plate\"\n[structure]\nfile = '{name}'\n", HERE / "wrong" / "here.toml")


@pytest.mark.parametrize(
    "name", ["nowhere.toml", "nowhere/nowhere.toml", ".", "x" * 5000, "a\x00b", "/dev/zero", ""]
)
def test_recipes_that_are_no_files(name: str) -> None:
    with pytest.raises(RecipeFaults) as caught:
        read(HERE / name)
    (fault,) = caught.value.faults
    assert fault.text().isprintable()
    assert fault.hint


def test_a_file_that_is_too_large(tmp_path: Path) -> None:
    path = tmp_path / "large.toml"
    path.write_bytes(b"# " + b"x" * 300_000)
    with pytest.raises(RecipeFaults, match="at most 256 KB, found a larger file"):
        read(path)


def test_a_recipe_that_names_itself_as_its_structure(tmp_path: Path) -> None:
    path = tmp_path / "self.toml"
    path.write_text(
        'kind = "accessory plate"\nname = "x"\n[structure]\nfile = "self.toml"\n', encoding="utf-8"
    )
    with pytest.raises(RecipeFaults, match=r"self\.toml is a recipe"):
        read(path)
