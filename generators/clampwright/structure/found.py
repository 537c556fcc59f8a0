"""Tubes found in a STEP file or a scan, to be chosen from."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.structure.tubes import Tube


@dataclass(frozen=True, slots=True)
class FoundTube:
    """One round tube. `tube` carries its name, the ends of its axis in mm, and the diameter to be used."""

    number: int
    """From 1, longest first: what a person chooses by."""
    tube: Tube
    od_found_mm: float
    """As found, before any snapping to a stock size."""
    od_plus_minus_mm: float
    """± (95 %) of that; 0 from a drawing: a STEP file, or a mesh too smooth for a scan."""
    stock: str
    """Stock size that it agrees with within its ±, such as "3/4 in"; "" where none, or several, do."""
    bore_mm: float | None
    coverage_rad: float
    """Angle round the axis over which there is skin: 2π where nothing is missing."""
    ends_plus_minus_mm: float
    """± (95 %) of an end of the axis, square to it, the worse end; 0 from a drawing."""
    angle_plus_minus_rad: float
    """± (95 %) of the axis' direction; 0 from a drawing."""
    residual_mm: float
    """Root mean square distance of its points from the skin; 0 from a STEP file."""
    points: int
    """Points (or faces) it rests on."""
    spread_mm: tuple[tuple[float, ...], ...]
    """Six rows as in `Uncertainty.factor_mm`, its own causes as columns; empty from a drawing."""
    doubts: tuple[str, ...] = ()
    """What a person has to look at before using it, one sentence each."""
    copes_mm: tuple[float, float] = (0.0, 0.0)
    """How far short of its start and its end, counted at the tips, the skin stops at its deepest: the depth
    of a cope; 0 where it is cut square, and from a scan."""
    along_plus_minus_mm: tuple[float, float] = (0.0, 0.0)
    """± (95 %) of where it starts and ends, along the axis: where skin starts and stops in a scan; 0 from a
    drawing."""
    skin_share: float = 1.0
    """Share of its whole skin that was seen, all round and all along."""
    gaps_mm: tuple[tuple[float, float], ...] = ()
    """Stretches without skin, as stations from its start: hidden, or filled by another tube."""
    bow_mm: float = 0.0
    """How far its axis bows from straight over its length."""


@dataclass(frozen=True, slots=True)
class NotTaken:
    """Something round that was not taken for a tube, and why: "rounded corners of a square rail"."""

    what: str
    why: str


@dataclass(frozen=True, slots=True)
class Found:
    """Everything found in one file."""

    source: str
    """Name of the file, without its folder."""
    unit: str
    """Unit of the file's numbers: "mm", "in", "m"."""
    unit_how: str
    """How it is known: "written in the file", "given", "guessed: ..."."""
    tubes: tuple[FoundTube, ...]
    not_taken: tuple[NotTaken, ...]
    size_mm: tuple[float, float, float]
    """Of the box round everything in the file."""
    looked_at: int
    """Points or faces read."""
    doubts: tuple[str, ...] = ()
    """What a person has to know about the file as a whole, one sentence each."""
