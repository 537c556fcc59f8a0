"""A file of a build."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass

Fact = str | int | float


@dataclass(frozen=True, slots=True)
class Written:
    """A file before it reaches the disk: its name in the folder, its bytes, what it is, what it is worth.

    >>> Written("a.txt", b"abc", "three letters").sha256[:8]
    'ba7816bf'
    """

    name: str
    data: bytes
    about: str
    facts: tuple[tuple[str, Fact], ...] = ()
    """Name (with unit) and value of what can be said of it: volume, chord error, number of pages."""

    @property
    def sha256(self) -> str:
        """SHA-256 of the bytes, hexadecimal."""
        return hashlib.sha256(self.data).hexdigest()
