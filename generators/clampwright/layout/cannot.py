"""The one thing that stops a layout."""

from __future__ import annotations


class CannotLayOut(Exception):  # noqa: N818
    """No layout exists for this recipe: `why` says what is in the way, `change` what to do, `line` where.

    >>> raise CannotLayOut("the tubes lie on one line", "name a tube beside it")
    Traceback (most recent call last):
    clampwright.layout.cannot.CannotLayOut: the tubes lie on one line; name a tube beside it
    """

    def __init__(self, why: str, change: str, line: int = 0) -> None:
        super().__init__(f"{why}; {change}")
        self.why = why
        self.change = change
        self.line = line
