"""The nearest names, for messages about a name that no table knows."""

from __future__ import annotations

import difflib
from collections.abc import Iterable


def did_you_mean(name: str, known: Iterable[str], most: int = 3) -> str:
    """The end of a message: the nearest known names, or all of them where none is near and they are few.

    Examples
    --------
    >>> did_you_mean("AN33", ["AN3", "AN4"])
    '; did you mean AN3?'
    >>> did_you_mean("oak", ["6061-T6", "304"])
    '; known: 6061-T6, 304'
    """
    names = list(dict.fromkeys(known))
    by_fold = {each.casefold(): each for each in names}
    near = difflib.get_close_matches(name.casefold(), by_fold, n=most, cutoff=0.6)
    if near:
        return f"; did you mean {' or '.join(by_fold[each] for each in near)}?"
    return f"; known: {', '.join(names)}" if len(names) <= 20 else ""
