"""A recipe file as it is written: its data, where each value stands, and what is wrong with it so far."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from clampwright.recipe.faults import Fault
from clampwright.recipe.positions import KeyPath, Place


class Wrong(Exception):  # noqa: N818
    """A value that could not be read. Its fault has been noted already."""


@dataclass(slots=True)
class Written:
    """One file: bare numbers in it are in `units`."""

    file: str
    data: dict[str, object]
    places: Place
    units: str = "mm"
    faults: list[Fault] = field(default_factory=list)
    assumed: list[tuple[str, str]] = field(default_factory=list)
    """(key, value and why) of what was left out and filled in, in the order of reading."""
    homes: dict[str, str] = field(default_factory=dict)
    """Key to the heading that it belongs under, for keys that stand under a wrong one."""

    def home_of(self, key: str) -> str:
        """A hint that says where a misplaced key belongs, or ""."""
        return f"{key} belongs {self.homes[key]}" if key in self.homes else ""

    def top(self) -> Entry:
        """The whole file as an entry."""
        return Entry(self, (), self.data)


@dataclass(frozen=True, slots=True)
class Entry:
    """A value in a file, at a key path. `value` is NOTHING where the key is not written."""

    written: Written
    path: KeyPath
    value: object

    @property
    def units(self) -> str:
        """Units of bare numbers here."""
        return self.written.units

    @property
    def line(self) -> int:
        """Line of the key, or of the nearest thing around it that is written."""
        return self.written.places.find(self.path).key.line

    def inside(self, part: str | int) -> Entry:
        """The entry of a key or index inside this one."""
        value: object = NOTHING
        if isinstance(self.value, dict):
            value = self.value.get(part, NOTHING)
        elif isinstance(self.value, list) and isinstance(part, int):
            value = self.value[part]
        return Entry(self.written, (*self.path, part), value)

    def assume(self, says: str) -> None:
        """Note what was filled in for this entry, which is not written."""
        self.written.assumed.append((key_text(self.path), says))

    def wrong(self, expected: str, hint: str = "", *, said: str | None = None, at_key: bool = False) -> Wrong:
        """Note a fault about this entry; the exception may be raised or dropped."""
        place = self.written.places.find(self.path)
        at = place.key if at_key or self.value is NOTHING else place.value
        fault = Fault(
            self.written.file,
            at.line,
            at.column,
            key_text(self.path),
            expected,
            found(self.value) if said is None else said,
            hint,
        )
        self.written.faults.append(fault)
        return Wrong(fault.text())


class _Nothing:
    """What stands where no value is written."""


NOTHING = _Nothing()

_BARE = re.compile(r"[A-Za-z0-9_-]{1,40}")


def key_text(path: KeyPath) -> str:
    """A key path for people: list entries are counted from one.

    >>> key_text(("carries", 0, "holes", 2)), key_text(("structure", "tubes", "top tube", "od"))
    ('carries[1].holes[3]', 'structure.tubes."top tube".od')
    """
    text = ""
    for part in path[:8]:
        if isinstance(part, int):
            text += f"[{part + 1}]"
        else:
            text += ("." if text else "") + (part if _BARE.fullmatch(part) else quoted(part))
    return text


def printable(text: object) -> str:
    """A text (or path) with what cannot be printed written out.

    >>> printable("a\\tb")
    'a\\\\tb'
    """
    return "".join(c if c.isprintable() else ascii(c)[1:-1] for c in str(text))


def quoted(text: str) -> str:
    """A text in quotes, short and safe to print.

    >>> quoted("a\\tb")
    '"a\\\\tb"'
    """
    short = text if len(text) <= 40 else text[:37] + "..."
    return f'"{printable(short)}"'


def found(value: object) -> str:
    """A value as a person would say it.

    >>> found("3/4 inn"), found(True), found([1, 2]), found({}), found(float("nan"))
    ('"3/4 inn"', 'true', 'a list of 2', 'an empty table', 'nan')
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return quoted(value)
    if isinstance(value, int):
        return str(value) if value.bit_length() <= 128 else "a whole number of very many digits"
    if isinstance(value, float):
        return f"{value:.12g}"
    return _found_other(value)


def _found_other(value: object) -> str:
    if value is NOTHING:
        return "nothing"
    if isinstance(value, dict):
        return "a table" if value else "an empty table"
    if isinstance(value, list):
        return f"a list of {len(value)}" if value else "an empty list"
    return f"a {type(value).__name__}"
