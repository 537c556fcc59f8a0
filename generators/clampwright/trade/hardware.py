"""Washers, lock nuts and torque."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from clampwright.trade.fasteners import nominal_mm, thread
from clampwright.trade.masses import nut_kg, washer_kg
from clampwright.trade.naming import did_you_mean
from clampwright.trade.tables import Row, load


@dataclass(frozen=True, slots=True)
class Washer:
    """A flat washer. `kind` is "regular", "thin" or "large" (large outside diameter)."""

    part: str
    bolt: str
    kind: str
    id_mm: float
    od_mm: float
    thickness_mm: float
    mass_kg: float
    source: str


@dataclass(frozen=True, slots=True)
class Nut:
    """A lock nut for one bolt size. `height_mm` is None where no document gave it."""

    part: str
    series: str
    bolt: str
    locking: str
    """"insert" (fibre or nylon) or "all-metal"."""
    max_temperature_c: float
    height_mm: float | None
    across_flats_mm: float
    mass_kg: float
    source: str
    height_source: str
    temperature_source: str = ""
    use: str = "tension"
    """"tension" or "shear": the column of the torque table."""


@dataclass(frozen=True, slots=True)
class Torque:
    """Tightening torque window at the nut in newton metres, for nuts in `use` ("tension" or "shear")."""

    thread: str
    use: str
    low_nm: float
    high_nm: float
    source: str


def washer(bolt: str, kind: str = "regular") -> Washer | None:
    """The flat washer of this kind for a bolt or screw size, or None.

    Examples
    --------
    >>> washer("AN3").part, washer("AN3", "thin").part, washer("AN7", "thin")
    ('AN960-10', 'AN960-10L', None)
    """
    return next((each for each in _washers() if each.bolt == bolt and each.kind == kind), None)


def washers(bolt: str) -> tuple[Washer, ...]:
    """Every washer for a bolt or screw size, thinnest first.

    Examples
    --------
    >>> [each.kind for each in washers("AN3")]
    ['thin', 'regular', 'large']
    """
    found = [each for each in _washers() if each.bolt == bolt]
    return tuple(sorted(found, key=lambda each: (each.thickness_mm, each.od_mm)))


def nut_series() -> tuple[str, ...]:
    """Series of lock nuts.

    Examples
    --------
    >>> "MS21044" in nut_series()
    True
    """
    return tuple(dict.fromkeys(each.series for each in _nuts()))


def nut(series: str, bolt: str) -> Nut:
    """The nut of a series ("MS21044", "MS21042", ...) for a bolt or screw size.

    Raises
    ------
    LookupError
        Where the tables know no such nut; the message names those that there are.

    Examples
    --------
    >>> nut("MS21044", "AN3").part, round(nut("MS21044", "AN3").max_temperature_c)
    ('MS21044N3', 121)
    """
    for each in _nuts():
        if (each.series, each.bolt) == (series, bolt):
            return each
    if series not in nut_series():
        raise LookupError(f"no series of nuts {series!r}{did_you_mean(series, nut_series())}")
    others = [each.series for each in _nuts() if each.bolt == bolt]
    raise LookupError(f"no {series} for {bolt!r}" + (f"; for it: {', '.join(others)}" if others else ""))


def nut_for(bolt: str, temperature_c: float) -> Nut:
    """The nut that this project takes when the recipe names none.

    The first choice of the table that stands the temperature; where none does, the one that stands most
    (a check then says so).

    Raises
    ------
    LookupError
        Where the tables know no nut for this bolt.

    Examples
    --------
    >>> nut_for("AN3", 100.0).series, nut_for("AN3", 150.0).series
    ('MS21044', 'MS21045')
    """
    choices = [
        each for series in _choices() for each in _nuts() if (each.series, each.bolt) == (series, bolt)
    ]
    if not choices:
        raise LookupError(f"no lock nut for {bolt!r}")
    stands = (each for each in choices if each.max_temperature_c >= temperature_c)
    return next(stands, max(choices, key=lambda each: each.max_temperature_c))


def torque(bolt: str, nut: Nut) -> Torque | None:
    """Torque window for a bolt and nut, or None where no document gives one (metric threads, #6).

    Examples
    --------
    >>> window = torque("AN3", nut("MS21044", "AN3"))
    >>> round(window.low_nm, 2), round(window.high_nm, 2)
    (2.26, 2.82)
    """
    wanted = (thread(bolt), nut.use)
    for row in load("torque").rows:
        if (row.text("thread"), row.text("use")) == wanted:
            return Torque(*wanted, row.number("low"), row.number("high"), row.source())
    return None


@cache
def _washers() -> tuple[Washer, ...]:
    return tuple(_washer(row) for name in ("washers", "washers_metric") for row in load(name).rows)


def _washer(row: Row) -> Washer:
    inside, outside, thick = row.number("id"), row.number("od"), row.number("thickness")
    mass = washer_kg(inside, outside, thick)
    kind = row.text("kind")
    return Washer(row.text("part"), row.text("bolt"), kind, inside, outside, thick, mass, row.source())


@cache
def _series() -> dict[str, Row]:
    rows = [*load("nut_series").rows, *load("nut_series_metric").rows]
    return {row.text("series"): row for row in rows}


@cache
def _choices() -> tuple[str, ...]:
    """Series that the project chooses from, first choice first."""
    chosen = [(row.number("choice"), name) for name, row in _series().items() if row.maybe("choice")]
    return tuple(name for _, name in sorted(chosen))


@cache
def _nuts() -> tuple[Nut, ...]:
    return tuple(_nut(row) for name in ("nuts", "nuts_metric") for row in load(name).rows)


def _nut(row: Row) -> Nut:
    series = _series()[row.text("series")]
    height = row.maybe("height")
    flats = row.number("across_flats")
    return Nut(
        part=row.text("part"),
        series=row.text("series"),
        bolt=row.text("bolt"),
        locking=series.text("locking"),
        max_temperature_c=series.number("max_temperature"),
        height_mm=height,
        across_flats_mm=flats,
        mass_kg=nut_kg(nominal_mm(row.text("bolt")), flats, height),
        source=row.source(),
        height_source=row.source("height"),
        temperature_source=series.source(),
        use=series.text("use"),
    )
