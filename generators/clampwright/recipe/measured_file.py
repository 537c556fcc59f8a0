"""The bytes of a file of measurements as text; what cannot be one is a fault like any other."""

from __future__ import annotations

from pathlib import Path

from clampwright.recipe.faults import Fault, RecipeFaults
from clampwright.recipe.load import LARGEST_FILE
from clampwright.recipe.written import printable, quoted

_SAVE = "in the spreadsheet save it as CSV, UTF-8"
_SPREADSHEETS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")
_WIDE = (b"\xff\xfe", b"\xfe\xff")


def measured_text(path: Path) -> str:
    """The text of a file of measurements, without its byte order mark.

    Raises
    ------
    RecipeFaults
        There is no such file, or it holds no text.
    """
    name = printable(path)
    data = _bytes(path, name)
    if data.startswith(_SPREADSHEETS):
        raise one_fault(name, 1, "a CSV file", "a spreadsheet's own format", _SAVE)
    if data.startswith(_WIDE):
        raise one_fault(name, 1, "a text in UTF-8", "a text in UTF-16", _SAVE)
    if b"\0" in data:
        raise one_fault(name, _line(data, data.index(b"\0")), "a CSV file", "a zero byte", _SAVE)
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        byte = f"the byte 0x{data[error.start]:02x}"
        raise one_fault(name, _line(data, error.start), "a text in UTF-8", byte, _SAVE) from None


def one_fault(file: str, line: int, expected: str, found: str, hint: str) -> RecipeFaults:
    """A fault that leaves nothing else to look at."""
    return RecipeFaults((Fault(file, line, 1, "", expected, found, hint),))


def _bytes(path: Path, name: str) -> bytes:
    try:
        if path.is_dir():
            raise one_fault(name, 1, "a file", "a folder", "give the file itself")
        if path.exists() and not path.is_file():
            raise one_fault(name, 1, "a file", "a device or pipe", "save the measurements to a file first")
        with path.open("rb") as file:
            data = file.read(LARGEST_FILE + 1)
    except FileNotFoundError:
        raise one_fault(name, 1, "a file", "no such file", _beside(path)) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or "not a usable file name"
        hint = "check the path and its permissions"
        raise one_fault(name, 1, "a file that can be read", reason.lower(), hint) from None
    if len(data) > LARGEST_FILE:
        most = f"at most {LARGEST_FILE // 1024} KB"
        raise one_fault(name, 1, most, "a larger file", "is this the right file?")
    return data


def _beside(path: Path) -> str:
    if not path.parent.is_dir():
        return "there is no such folder either"
    names = sorted(quoted(each.name) for each in path.parent.glob("*.csv"))[:5]
    if names:
        return f"beside it are {', '.join(names)}"
    return "--form writes one to fill in"


def _line(data: bytes, at: int) -> int:
    return data.count(b"\n", 0, at) + 1
