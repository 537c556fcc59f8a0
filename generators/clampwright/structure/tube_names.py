"""What a tube may be called, so that a recipe can name it and no one takes it for another."""

from __future__ import annotations

import re

LONGEST = 40
_NAME = re.compile(rf"[^\W_][\w .-]{{0,{LONGEST - 1}}}")


def is_name(name: str) -> bool:
    """Whether it is at most 40 letters, digits, spaces, . - and _, the first a letter or digit.

    >>> is_name("upper left.2"), is_name("-left"), is_name("left/right"), is_name("")
    (True, False, False, False)
    """
    return _NAME.fullmatch(name) is not None


def alike(name: str) -> str:
    """The same for names that a person may take for one another: case, spaces, dashes, points left out.

    >>> alike("Upper-left") == alike("upper left"), alike("left") == alike("left-2")
    (True, False)
    """
    return re.sub(r"[\s._-]", "", name.casefold())
