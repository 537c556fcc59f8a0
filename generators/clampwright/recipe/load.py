"""A file or a text to TOML data with positions; what cannot be read is a fault like any other."""

from __future__ import annotations

import codecs
import re
import tomllib
from pathlib import Path

from clampwright.recipe.faults import Fault, RecipeFaults
from clampwright.recipe.positions import positions
from clampwright.recipe.written import Written, quoted

LARGEST_FILE = 256 * 1024
"""Bytes. A recipe is a page of text; anything larger is some other file."""

_MOST_DOTS = 2000
"""In one line: dotted keys without end take the TOML reader time that grows with their square."""

_OTHER_ENCODINGS = (codecs.BOM_UTF32_LE, codecs.BOM_UTF32_BE, codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)


class NotRead(Exception):  # noqa: N818
    """A file that cannot be had: what was expected, what was found, and a hint."""

    def __init__(self, expected: str, found: str, hint: str) -> None:
        super().__init__(f"expected {expected}, found {found} ({hint})")
        self.expected = expected
        self.found = found
        self.hint = hint


def load(path: Path, shown: str) -> Written:
    """The TOML file at `path`, called `shown` in messages.

    Raises
    ------
    NotRead
        There is no such file, or it is none that could be a recipe.
    RecipeFaults
        It is not UTF-8 text, or not TOML; with the place.
    """
    return parse(_decoded(_bytes(path), shown), shown)


def _bytes(path: Path) -> bytes:
    try:
        if path.is_dir():
            raise NotRead("a file", "a folder", "give the file itself")
        if path.exists() and not path.is_file():
            raise NotRead("a file", "a device or pipe", "save the recipe to a file first")
        with path.open("rb") as file:
            data = file.read(LARGEST_FILE + 1)
    except FileNotFoundError:
        raise NotRead("a file", "no such file", _beside(path)) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "not a usable file name"
        raise NotRead(
            "a file that can be read", reason.lower(), "check the path and its permissions"
        ) from None
    if len(data) > LARGEST_FILE:
        raise NotRead(f"at most {LARGEST_FILE // 1024} KB", "a larger file", "is this the right file?")
    return data


def _beside(path: Path) -> str:
    """What the folder holds, to choose from."""
    folder = path.parent
    if not folder.is_dir():
        return "there is no such folder either"
    names = sorted(quoted(p.name) for p in folder.glob("*.toml"))[:5]
    return f"beside it are {', '.join(names)}" if names else "there is no .toml file in that folder"


def _decoded(data: bytes, shown: str) -> str:
    if data.startswith(_OTHER_ENCODINGS):
        raise _one_fault(
            shown, 1, 1, "a text in UTF-8", "a text in UTF-16 or UTF-32", "save it again as UTF-8"
        )
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = data[: error.start].decode("utf-8", errors="replace").removeprefix("\ufeff")
        byte = f"the byte 0x{data[error.start]:02x}"
        raise _one_fault(shown, *_end_of(before), "a text in UTF-8", byte, "save it again as UTF-8") from None


def parse(text: str, shown: str) -> Written:
    """TOML text to data with positions.

    Raises
    ------
    RecipeFaults
        It is not TOML; with the place.
    """
    if len(text) > LARGEST_FILE:
        raise _one_fault(shown, 1, 1, f"at most {LARGEST_FILE // 1024} KB", "a longer text", "")
    for number, line in enumerate(text.split("\n"), 1):
        if line.count(".") > _MOST_DOTS:
            raise _one_fault(shown, number, 1, "a line of a recipe", f"a line of {len(line)} characters", "")
    try:
        return Written(shown, tomllib.loads(text), positions(text))
    except RecursionError:
        number = _line_of_most_brackets(text)
        raise _one_fault(shown, number, 1, "a recipe", "brackets nested without end", "close them") from None
    except tomllib.TOMLDecodeError as error:
        from clampwright.recipe.syntax import syntax_fault

        raise RecipeFaults((syntax_fault(text, shown, str(error)),)) from None
    except ValueError:
        number = _line_of_long_number(text)
        raise _one_fault(
            shown, number, 1, "a number", "a number of thousands of digits", "shorten it"
        ) from None


def _line_of_most_brackets(text: str) -> int:
    counts = [line.count("[") + line.count("{") for line in text.split("\n")]
    return counts.index(max(counts)) + 1


def _line_of_long_number(text: str) -> int:
    match = re.search(r"\d[\d_]{4000}", text)
    return text.count("\n", 0, match.start()) + 1 if match else 1


def _end_of(text: str) -> tuple[int, int]:
    """Line and column just after the last character."""
    return text.count("\n") + 1, len(text) - (text.rfind("\n") + 1) + 1


def _one_fault(shown: str, line: int, column: int, expected: str, found: str, hint: str) -> RecipeFaults:
    return RecipeFaults((Fault(shown, line, column, "", expected, found, hint),))
