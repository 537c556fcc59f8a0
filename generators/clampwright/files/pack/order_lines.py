"""What is to be bought for a bay: hardware of all recipes by part number, with spares."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from clampwright.files.pack.bay import Bay, Job
from clampwright.layout.hardware_list import natural
from clampwright.layout.placed import HardwareLine
from clampwright.trade.tables import rule

ORDER = ("clamp", "bolt", "screw", "nut", "washer", "shim")
"""Kinds in the order of the list."""
NEVER_WITHOUT = ("nut", "washer")
"""Kinds of which at least rule `spares-least` lie in the bag, whatever percentage is asked for."""
_NO_LENGTH = "length not known"


@dataclass(frozen=True, slots=True)
class Use:
    """Where one recipe needs a part."""

    recipe: str
    quantity: int
    """Fitted, all sets."""
    where: str
    torque_nm: tuple[float, float] | None


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One part number of the order list."""

    kind: str
    part: str
    what: tuple[str, ...]
    fitted: int
    """Of all recipes, each times its sets."""
    spares: int
    mass_each_kg: float | None
    uses: tuple[Use, ...]
    sources: tuple[str, ...]

    @property
    def to_order(self) -> int:
        """Fitted and spare."""
        return self.fitted + self.spares

    @property
    def length_missing(self) -> bool:
        """Whether the tables could not say which length it has."""
        return any(_NO_LENGTH in what for what in self.what)


def order_lines(bay: Bay) -> tuple[OrderLine, ...]:
    """The bought hardware of all recipes, merged by part number; bushings are made and stand elsewhere."""
    held: dict[tuple[str, str], list[tuple[Job, HardwareLine]]] = {}
    for job, line in _bought(bay):
        held.setdefault((kind_of(line.what), line.part), []).append((job, line))
    ordered = sorted(held, key=lambda key: (ORDER.index(key[0]), natural(key[1])))
    return tuple(_line(*key, held[key]) for key in ordered)


def _bought(bay: Bay) -> Iterator[tuple[Job, HardwareLine]]:
    for job in bay.jobs:
        for line in job.layout.hardware:
            if kind_of(line.what) in ORDER:
                yield job, line


def kind_of(what: str) -> str:
    """The kind of a hardware line, by its words; "bushing" for what is made.

    >>> kind_of("lock nut, insert"), kind_of("cushioned loop clamp, stainless steel"), kind_of("bolt")
    ('nut', 'clamp', 'bolt')
    """
    words = what.split(",")[0].split()
    return words[-1] if words else ""


def _line(kind: str, part: str, lines: Sequence[tuple[Job, HardwareLine]]) -> OrderLine:
    uses = tuple(
        Use(job.recipe.name, line.quantity * job.recipe.shop.quantity, line.where, line.torque_nm)
        for job, line in lines
    )
    percents = (job.recipe.shop.spares_percent for job, _ in lines)
    return OrderLine(
        kind=kind,
        part=part,
        what=_once(line.what for _, line in lines),
        fitted=sum(use.quantity for use in uses),
        spares=spares(kind, zip((use.quantity for use in uses), percents, strict=True)),
        mass_each_kg=next((line.mass_each_kg for _, line in lines if line.mass_each_kg is not None), None),
        uses=uses,
        sources=_once(line.source for _, line in lines if line.source),
    )


def _once(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(words))


def spares(kind: str, fitted: Iterable[tuple[int, int]]) -> int:
    """Spares of a part: Σ fitted · percent / 100 over the recipes, rounded up.

    Of nuts and washers never fewer than rule `spares-least`.

    Parameters
    ----------
    kind
        "nut", "washer", "bolt" ...
    fitted
        (pieces fitted, percent) of each recipe.

    Examples
    --------
    >>> spares("bolt", [(4, 10), (7, 10)]), spares("bolt", [(20, 0)]), spares("nut", [(3, 0)])
    (2, 0, 1)
    """
    share = sum((Fraction(count * percent, 100) for count, percent in fitted), Fraction(0))
    least = int(rule("spares-least").value) if kind in NEVER_WITHOUT else 0
    return max(math.ceil(share), least)
