"""A file of a pack, and the folder of the zip that it lies in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from clampwright.files.safe_names import safe_name
from clampwright.files.written import Written

FOLDERS = ("drawings", "step", "fit-check", "cutting", "lists", "inspection", "findings")
"""In the order in which a shop needs them."""


@dataclass(frozen=True, slots=True)
class PlacedFile:
    """A file in a folder of the pack; "" is the top."""

    folder: str
    file: Written
    of: str = ""
    """Number of the part that it shows; "" where it is of several."""

    @property
    def path(self) -> str:
        """Path within the pack, with slashes.

        >>> PlacedFile("step", Written("a.step", b"", "a")).path
        'step/a.step'
        """
        return f"{self.folder}/{self.file.name}" if self.folder else self.file.name


def placed(folder: str, files: Iterable[Written], of: str = "") -> Iterator[PlacedFile]:
    """The files in a folder."""
    return (PlacedFile(folder, file, of) for file in files)


def as_listed(files: Iterable[PlacedFile]) -> tuple[Written, ...]:
    """The files under their paths, for the manifest.

    Raises
    ------
    UnsafeName
        A name that could lead out of the pack, or that some system does not take.
    ValueError
        Two files of one path; capitals count for nothing, as on some systems.
    """
    listed: dict[str, Written] = {}
    for each in files:
        for word in each.path.split("/"):
            safe_name(word)
        key = each.path.casefold()
        if key in listed:
            raise ValueError(f"{each.path} is packed twice")
        listed[key] = replace(each.file, name=each.path)
    return tuple(listed.values())
