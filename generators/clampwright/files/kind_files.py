"""What each kind of layout has written: its solids' files, its sheets and records. A kind is a line here."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from clampwright.checks.finding import Finding
from clampwright.files import bushing_files, plate_files, stand_off_files
from clampwright.files.from_solids import FromSolids
from clampwright.files.joined_solids import joined_solids
from clampwright.files.written import Written

Findings = tuple[Finding, ...]
Step = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class KindFiles:
    """The writers of a kind; each takes its own kind of layout."""

    no_part: Callable[[Any], tuple[str, ...]]
    """Why no part can be made of the layout; nothing where one can."""
    solids: Callable[[Any, Findings, Step], FromSolids]
    """STEP, STL, DXF and pictures of solids: called only where there is a part."""
    records: Callable[[Any, Findings, Step], Iterator[Written]]
    """Sheets, lists and data: written for every layout."""


def _always(_: Any) -> tuple[str, ...]:
    """A bushing can be made of any length."""
    return ()


KIND_FILES: dict[str, KindFiles] = {
    "accessory plate": KindFiles(plate_files.no_part, plate_files.solids, plate_files.records),
    "component bushings": KindFiles(_always, joined_solids, bushing_files.records),
    "stand-off": KindFiles(_always, joined_solids, stand_off_files.records),
}
