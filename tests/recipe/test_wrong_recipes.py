"""Each wrong recipe gives the messages in the text file beside it: all, with file, line and remedy."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from recipe.recipe_files import HERE, WRONG

from clampwright.recipe.faults import RecipeFaults
from clampwright.recipe.read import read

FOLDER = HERE / "wrong"


def faults_of(path: Path, monkeypatch: pytest.MonkeyPatch) -> RecipeFaults:
    """The faults of a recipe, read from its own folder so that messages name no other."""
    monkeypatch.chdir(path.parent)
    with pytest.raises(RecipeFaults) as caught:
        read(Path(path.name))
    return caught.value


def test_there_are_many() -> None:
    assert len(WRONG) >= 100
    assert {path.stem for path in WRONG} == {path.stem for path in FOLDER.glob("*.txt")}


@pytest.mark.parametrize("path", WRONG, ids=lambda path: path.stem)
def test_messages(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert str(faults_of(path, monkeypatch)) + "\n" == path.with_suffix(".txt").read_text(encoding="utf-8")


@pytest.mark.parametrize("path", WRONG, ids=lambda path: path.stem)
def test_each_fault_stands_where_it_says(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What was found, where it is written as such, is written in that line from that column on."""
    for fault in faults_of(path, monkeypatch).faults:
        text = (FOLDER / fault.file).read_bytes().decode("utf-8", errors="replace")
        line = text.replace("\r\n", "\n").split("\n")[fault.line - 1]
        assert 1 <= fault.column <= len(line) + 1
        if re.fullmatch(r"-?\d+(\.\d+)?|true|nan|inf", fault.found):
            at = line[fault.column - 1 :]
            assert at.startswith((fault.found, fault.key.rpartition(".")[2])), (fault, at)


@pytest.mark.parametrize("path", WRONG, ids=lambda path: path.stem)
def test_each_message_is_one_plain_line_that_says_what_to_do(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for fault in faults_of(path, monkeypatch).faults:
        assert fault.text().isprintable()
        assert len(fault.text()) < 330
        assert fault.expected
        assert fault.found
        assert fault.hint or fault.key, fault


def test_all_faults_come_at_once_in_the_order_of_the_file(monkeypatch: pytest.MonkeyPatch) -> None:
    faults = faults_of(FOLDER / "several-at-once.toml", monkeypatch).faults
    assert [fault.key for fault in faults] == [
        "abuot",
        "structure.tubes.middle-left.od",
        "plate.material",
        "plate.thickness",
        "carries[1].mass",
    ]
    assert [fault.line for fault in faults] == sorted(fault.line for fault in faults)


def test_faults_of_a_shared_file_carry_its_name_and_lines(monkeypatch: pytest.MonkeyPatch) -> None:
    faults = faults_of(FOLDER / "structure-file-with-faults.toml", monkeypatch).faults
    assert {fault.file for fault in faults} == {str(Path("shared/faulty.toml"))}
    assert [fault.line for fault in faults] == [5, 8, 11]
