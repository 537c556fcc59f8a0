"""Names for the tubes of a STEP file: the file's own where it has one for each, otherwise numbers."""

from __future__ import annotations

import re
import unicodedata
from collections import Counter
from collections.abc import Sequence

_LONGEST = 32


def names_for(parts: Sequence[str]) -> tuple[str, ...]:
    """A name for each tube from the name of the part that it belongs to, "" where that has none.

    Names are plain words of letters, digits, ``. _ -``, all different whatever their case: they become keys
    of recipes and names of files.

    >>> names_for(("Seat stay (left)", "Rahmenrohr ß", "brace", "Brace", "", "tube-5"))
    ('Seat-stay-left', 'Rahmenrohr-ss', 'brace-1', 'Brace-2', 'tube-5', 'tube-5-2')
    """
    plain = [_plain(part) for part in parts]
    often = Counter(name.lower() for name in plain)
    seen: Counter[str] = Counter()
    wanted = []
    for number, name in enumerate(plain, 1):
        seen[name.lower()] += 1
        many = often[name.lower()] > 1
        wanted.append(f"tube-{number}" if not name else f"{name}-{seen[name.lower()]}" if many else name)
    return _all_different(wanted)


def _all_different(wanted: Sequence[str]) -> tuple[str, ...]:
    given: list[str] = []
    taken: set[str] = set()
    for name in wanted:
        tries = (name if k == 1 else f"{name}-{k}" for k in range(1, len(wanted) + 2))
        free = next(one for one in tries if one.lower() not in taken)
        taken.add(free.lower())
        given.append(free)
    return tuple(given)


def _plain(name: str) -> str:
    letters = unicodedata.normalize("NFKD", name.replace("ß", "ss")).encode("ascii", "ignore").decode()
    words = re.sub(r"[^A-Za-z0-9._-]+", "-", letters)
    return re.sub(r"-{2,}", "-", words)[:_LONGEST].strip("-._")
