"""Bolts: diameters, threads, and the grips and lengths that exist."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from clampwright.quantities.kinds import INCH
from clampwright.trade.masses import bolt_kg
from clampwright.trade.naming import did_you_mean
from clampwright.trade.tables import Row, load

_EIGHTH_MM = float(INCH / 8)
_PART = re.compile(r"(AN\d+)-(\d+)A?|(M\d+)x(\d+)", re.ASCII | re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Bolt:
    """A bolt size. `name` is "AN3" to "AN8" or "M4" to "M8"."""

    name: str
    nominal_mm: float
    shank_min_mm: float
    shank_max_mm: float
    thread: str
    pitch_mm: float
    head_across_flats_mm: float
    head_height_mm: float
    socket_od_mm: float
    """Outside diameter of the wrench or socket that turns the head or the nut."""
    metric: bool
    source: str
    shank_source: str = ""
    head_source: str = ""
    socket_source: str = ""


@dataclass(frozen=True, slots=True)
class BoltLength:
    """A bolt that can be bought: `part` is "AN3-6A" (A: shank not drilled) or "M5x25".

    `dash` of a metric bolt is its length in mm. `grip_mm` is the shank without thread: 0 where the
    thread runs up to the head.
    """

    part: str
    bolt: str
    dash: int
    grip_mm: float
    length_mm: float
    mass_kg: float
    source: str


class NoSuchBolt(LookupError):  # noqa: N818
    """A bolt or dash that does not exist; the message says why and names the nearest ones."""


def bolt_names() -> tuple[str, ...]:
    """Every bolt size the tables know, smallest first within each family.

    Examples
    --------
    >>> bolt_names()
    ('AN3', 'AN4', 'AN5', 'AN6', 'AN7', 'AN8', 'M4', 'M5', 'M6', 'M8')
    """
    return tuple(_bolts())


def bolt(name: str) -> Bolt:
    """The bolt size.

    Raises
    ------
    NoSuchBolt
        Where the tables know none of that name; the message names the nearest.

    Examples
    --------
    >>> bolt("AN3").thread, bolt("AN3").nominal_mm
    ('10-32', 4.826)
    """
    found = _bolts().get(name)
    if found is None:
        raise NoSuchBolt(f"no bolt {name!r}{did_you_mean(name, _bolts())}")
    return found


@cache
def bolt_lengths(name: str) -> tuple[BoltLength, ...]:
    """Every length of this bolt, shortest first; none where no document gave the lengths (AN7, AN8).

    An AN dash counts inches and eighths, D = 10·inches + eighths; from -4 (AN6: -5) upward length and
    grip lie on a line, length = D + a and grip = D - b, and -3 is special. A metric length l has the grip
    l - b of ISO 4014, or none where ISO 4017 threads it up to the head.

    Raises
    ------
    NoSuchBolt
        Where the tables know no bolt of that name.

    Examples
    --------
    >>> [round(each.grip_mm / 25.4, 4) for each in bolt_lengths("AN3")[:3]]
    [0.0625, 0.125, 0.25]
    >>> bolt_lengths("AN7")
    ()
    """
    size = bolt(name)
    lengths = _metric_lengths(size) if size.metric else _an_lengths(size)
    return tuple(sorted(lengths, key=lambda each: each.length_mm))


def bolt_by_dash(name: str, dash: int) -> BoltLength:
    """One length by its dash number (a metric bolt: its length in mm).

    Raises
    ------
    NoSuchBolt
        For an impossible dash such as -8 or -19, with the reason and the nearest that exist.

    Examples
    --------
    >>> bolt_by_dash("AN3", 14).part, round(bolt_by_dash("AN3", 14).length_mm / 25.4, 3)
    ('AN3-14A', 1.531)
    """
    lengths = bolt_lengths(name)
    for each in lengths:
        if each.dash == dash:
            return each
    raise NoSuchBolt(_why_not(bolt(name), dash, lengths))


def bolt_by_part(part: str) -> BoltLength:
    """One length by its part number, "AN3-6A" or "M5x25"; the A may be left out.

    Raises
    ------
    NoSuchBolt
        Where there is no such part.

    Examples
    --------
    >>> bolt_by_part("AN4-15A").dash, bolt_by_part("M5x25").grip_mm
    (15, 9.0)
    """
    found = _PART.fullmatch(part.strip())
    if found is None:
        raise NoSuchBolt(f"no bolt part {part!r}: written like AN3-6A or M5x25")
    return bolt_by_dash((found[1] or found[3]).upper(), int(found[2] or found[4]))


@cache
def _bolts() -> dict[str, Bolt]:
    rows = [*load("bolts_an").rows, *load("bolts_metric").rows]
    return {row.text("name"): _bolt(row) for row in rows}


def _bolt(row: Row) -> Bolt:
    return Bolt(
        name=row.text("name"),
        nominal_mm=row.number("nominal"),
        shank_min_mm=row.number("shank_min"),
        shank_max_mm=row.number("shank_max"),
        thread=row.text("thread"),
        pitch_mm=row.number("pitch"),
        head_across_flats_mm=row.number("head_across_flats"),
        head_height_mm=row.number("head_height"),
        socket_od_mm=row.number("socket_od"),
        metric=row.table.endswith("_metric"),
        source=row.source(),
        shank_source=row.source("shank"),
        head_source=row.source("head"),
        socket_source=row.source("socket"),
    )


def _an_lengths(size: Bolt) -> Iterator[BoltLength]:
    for row in load("bolt_specials_an").rows:
        if row.text("bolt") == size.name:
            yield _length(size, row.whole("dash"), row.number("grip"), row.number("length"), row.source())
    for law in load("bolt_laws_an").rows:
        if law.text("bolt") == size.name:
            for dash in range(law.whole("first_dash"), law.whole("last_dash") + 1):
                if dash % 10 < 8:
                    yield _on_the_line(size, dash, law)


def _on_the_line(size: Bolt, dash: int, law: Row) -> BoltLength:
    inches, eighths = divmod(dash, 10)
    stands_for = (8 * inches + eighths) * _EIGHTH_MM
    grip = round(stands_for - law.number("grip_under_dash"), 6)
    return _length(size, dash, grip, round(stands_for + law.number("length_over_dash"), 6), law.source())


def _metric_lengths(size: Bolt) -> Iterator[BoltLength]:
    law = next(row for row in load("bolt_laws_metric").rows if row.text("bolt") == size.name)
    for row in load("bolt_lengths_metric").rows:
        length = row.number("length")
        if law.number("shortest") <= length <= law.number("longest"):
            partly = length >= law.number("part_threaded_from")
            grip = length - law.number("thread_length") if partly else 0.0
            yield _length(size, round(length), grip, length, law.source())


def _length(size: Bolt, dash: int, grip_mm: float, length_mm: float, source: str) -> BoltLength:
    mass = bolt_kg(size.nominal_mm, length_mm, size.head_across_flats_mm, size.head_height_mm)
    return BoltLength(_part(size, dash), size.name, dash, grip_mm, length_mm, mass, source)


def _part(size: Bolt, dash: int) -> str:
    return f"{size.name}x{dash}" if size.metric else f"{size.name}-{dash}A"


def _why_not(size: Bolt, dash: int, lengths: tuple[BoltLength, ...]) -> str:
    part = _part(size, dash)
    if not lengths:
        return f"no {part}: no document gave the grips and lengths of {size.name}; measure the bolt"
    why = f"known from {lengths[0].part} to {lengths[-1].part}"
    if not size.metric and dash % 10 > 7:
        why = "a dash counts inches and eighths, so its last digit goes from 0 to 7"
    elif size.metric and lengths[0].dash < dash < lengths[-1].dash:
        why = "not one of the usual lengths"
    near = sorted(lengths, key=lambda each: abs(each.dash - dash))[:2]
    names = " and ".join(each.part for each in sorted(near, key=lambda each: each.dash))
    return f"no {part}: {why}; nearest {names}"
