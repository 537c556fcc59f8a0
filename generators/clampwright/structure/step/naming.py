"""Names for the tubes of a STEP file: the file's own where it has one for each, otherwise numbers."""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Sequence
from itertools import count

from clampwright.structure.tube_names import LONGEST, alike

_LONGEST = LONGEST - 8
"""Of a part's own name: numbers may follow."""


def names_for(parts: Sequence[str]) -> tuple[str, ...]:
    """A name for each tube from the name of the part that it belongs to, "" where that has none.

    Names are plain words of letters, digits, ``. _ -`` that a recipe takes, none too like another: they
    become keys of recipes and names of files.

    >>> names_for(("Seat stay (left)", "Rahmenrohr ß", "brace", "Brace", "", "tube-5"))
    ('Seat-stay-left', 'Rahmenrohr-ss', 'brace-1', 'Brace-2', 'tube-5', 'tube-5-2')
    """
    plain = [_plain(part) for part in parts]
    often = Counter(map(alike, plain))
    seen: Counter[str] = Counter()
    wanted = []
    for number, name in enumerate(plain, 1):
        seen[alike(name)] += 1
        many = often[alike(name)] > 1
        own = _numbered(name, seen[alike(name)]) if many else name
        wanted.append(own if name else f"tube-{number}")
    return _all_different(wanted)


def _numbered(name: str, number: int) -> str:
    """A name and a number, cut so that both together are none too long."""
    after = f"-{number}"
    return name[: LONGEST - len(after)].rstrip("-._") + after


def _all_different(wanted: Sequence[str]) -> tuple[str, ...]:
    given: list[str] = []
    taken: set[str] = set()
    for name in wanted:
        tries = (name if k == 1 else _numbered(name, k) for k in count(1))
        free = next(one for one in tries if alike(one) not in taken)
        taken.add(alike(free))
        given.append(free)
    return tuple(given)


def _plain(name: str) -> str:
    letters = unicodedata.normalize("NFKD", name.replace("ß", "ss")).encode("ascii", "ignore").decode()
    words = re.sub(r"[^A-Za-z0-9._-]+", "-", letters)
    return re.sub(r"-{2,}", "-", words)[:_LONGEST].strip("-._")
