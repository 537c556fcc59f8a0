"""What a survey comes to: coordinates with their ±, and everything a person has to know about it."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.quantities import Vec3
from clampwright.structure.survey.model import Measurement, Survey
from clampwright.structure.tubes import Structure


@dataclass(frozen=True, slots=True)
class Placed:
    """A point in the frame, and ± (95 %) of each coordinate, the frame itself taken as exact."""

    name: str
    at: Vec3
    plus_minus_mm: Vec3


@dataclass(frozen=True, slots=True)
class Judged:
    """One measurement held against all the others."""

    measurement: Measurement
    name: str
    """As a person says it: "A-C", "A-C outside", "slope of upper-left", "height B over A"."""
    computed: float
    """What the solved figure gives: mm or rad."""
    residual: float
    """Measured less computed."""
    redundancy: float
    """Share of its error that the others show: 0 nobody checks it, 1 it adds nothing."""
    score: float | None
    """|residual| in its own standard deviations (Baarda's w); None where nobody checks it."""
    hides: float | None
    """Largest blunder that could stand here unseen (80 % power), mm or rad; None: any."""


@dataclass(frozen=True, slots=True)
class Blunder:
    """A measurement that the others contradict."""

    name: str
    measurement: Measurement
    measured: float
    probably: float
    """What it should read, from all the others, mm or rad."""
    plus_minus: float
    """± (95 %) of that."""
    as_likely: tuple[str, ...]
    """Other measurements that explain the contradiction as well; measure those again too."""
    says: str
    """One sentence, in the survey's units."""


@dataclass(frozen=True, slots=True)
class Next:
    """A measurement worth taking."""

    a: str
    b: str
    what: str
    """As a person says it: "A-C, centre to centre"."""
    does: str
    """What it makes fast, or by how much it narrows the worst ±, one sentence."""
    worst_after_mm: float | None
    """Worst ± (95 %) of a tube's end with it; None while the figure is still loose."""


@dataclass(frozen=True, slots=True)
class Mirror:
    """Two figures agree with every measurement: the builder must say which one it is."""

    point: str
    moves: tuple[str, ...]
    """Every point that changes places."""
    one: Vec3
    other: Vec3
    ask: str
    """The question, and what to write in the survey for each answer."""
    resolved: bool = False


@dataclass(frozen=True, slots=True)
class SolvedSurvey:
    """A survey after the adjustment. `structure` is None while it is loose, contradictory or mirrored."""

    survey: Survey
    points: tuple[Placed, ...]
    judged: tuple[Judged, ...]
    blunders: tuple[Blunder, ...]
    loose: tuple[str, ...]
    """Points that can still move, by name; empty where the figure is rigid."""
    freedoms: int
    """Ways in which the figure can still move."""
    mirrors: tuple[Mirror, ...]
    take_next: tuple[Next, ...]
    """Best first: what makes it rigid, then what narrows the worst ± most."""
    redundancy: int
    """Measurements more than needed."""
    scale: float
    """Root of the sum of squared residuals (in standard deviations) over `redundancy`; near 1 where the
    stated ± is right; 1 where nothing is redundant."""
    scale_most: float
    """Above this (95 %) the stated ± is too small; the ± given here are then scaled up by `scale`."""
    worst_mm: float | None
    """Worst ± (95 %) of a tube's end, any coordinate."""
    structure: Structure | None
    says: tuple[str, ...]
    """What is wrong, and what to do, one sentence each; empty where the structure can be used."""
    cautions: tuple[str, ...] = ()
    """What a person has to know though the structure can be used: ± scaled up, readings to look at again,
    what nothing or hardly anything checks."""
