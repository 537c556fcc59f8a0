"""What is wrong with a recipe: all of it at once."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True, order=True)
class Fault:
    """One fault: file, line, column (1-based), the key it is about, and what would be right."""

    file: str
    line: int
    column: int
    key: str
    expected: str
    found: str
    hint: str

    def text(self) -> str:
        """One line for a person: file:line:column: key: expected ..., found ... (hint).

        >>> Fault("coil.toml", 4, 9, "units", '"mm" or "in"', '"inch"', 'did you mean "in"?').text()
        'coil.toml:4:9: units: expected "mm" or "in", found "inch" (did you mean "in"?)'
        """
        about = f"{self.key}: " if self.key else ""
        hint = f" ({self.hint})" if self.hint else ""
        place = f"{self.file}:{self.line}:{self.column}"
        return f"{place}: {about}expected {self.expected}, found {self.found}{hint}"


class RecipeFaults(Exception):  # noqa: N818
    """Every fault of one recipe, in the order of the file."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        super().__init__("\n".join(f.text() for f in faults))
        self.faults = faults


def nearest(word: str, options: Iterable[str]) -> str | None:
    """The option that a mistyped word most likely means, or None.

    Case, spaces, dashes and underscores count for nothing.

    >>> nearest("Corner-radius", ("margin", "corner_radius"))
    'corner_radius'
    >>> nearest("thicknes", ("thickness", "material")), nearest("colour", ("margin",))
    ('thickness', None)
    """
    plain = {_plain(option): option for option in options}
    wanted = _plain(word[:80])
    if wanted in plain:
        return plain[wanted]
    close = difflib.get_close_matches(wanted, plain, n=1, cutoff=0.6)
    return plain[close[0]] if close else None


def did_you_mean(word: str, options: Iterable[str]) -> str:
    """A hint that names the nearest option, or "" where none is near.

    >>> did_you_mean("inboad", ("inboard", "outboard"))
    'did you mean "inboard"?'
    """
    match = nearest(word, options)
    return f'did you mean "{match}"?' if match else ""


def listed(words: Iterable[str], last: str = "or", most: int = 16) -> str:
    """Words in quotes with commas, and `last` before the last one; cut short after `most`.

    >>> listed(("mm", "in")), listed(("a", "b", "c"), "and")
    ('"mm" or "in"', '"a", "b" and "c"')
    """
    quoted = [f'"{word}"' for word in words]
    if len(quoted) > most:
        return f"{', '.join(quoted[:most])} and {len(quoted) - most} more"
    return f" {last} ".join([", ".join(quoted[:-1]), quoted[-1]] if len(quoted) > 1 else quoted)


def _plain(word: str) -> str:
    return "".join(c for c in word.casefold() if c not in " -_")
