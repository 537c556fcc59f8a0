"""A file that no tubes can be looked for in."""

from __future__ import annotations


class NotReadable(Exception):  # noqa: N818
    """A STEP file or scan that cannot be read: what is wrong with it, and what to do.

    >>> raise NotReadable("it is empty", "export it again")
    Traceback (most recent call last):
    clampwright.structure.not_readable.NotReadable: it is empty: export it again
    """

    def __init__(self, why: str, change: str) -> None:
        """`why` is a clause about the file ("it is empty"), `change` what to do, an imperative."""
        super().__init__(f"{why}: {change}")
        self.why = why
        self.change = change
