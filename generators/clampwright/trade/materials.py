"""Sheet materials, gauges and stock sizes."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.trade.naming import did_you_mean
from clampwright.trade.tables import Row, load


@dataclass(frozen=True, slots=True)
class Material:
    """A sheet material. Strengths in MPa (None where no document gave one)."""

    name: str
    form: str
    density_kg_m3: float
    ftu_mpa: float
    fty_mpa: float
    elastic_gpa: float
    max_temperature_c: float | None
    source: str
    family: str = ""
    """"aluminium", "alloy steel", "stainless steel" or "titanium"."""
    fsu_mpa: float | None = None
    poisson: float = 0.0


@dataclass(frozen=True, slots=True)
class Gauge:
    """A sheet thickness that can be bought."""

    thickness_mm: float
    source: str


def material_names() -> tuple[str, ...]:
    """Names of the sheet materials: "6061-T6", "2024-T3 clad", ...

    Examples
    --------
    >>> material_names()[:3]
    ('6061-T6', '2024-T3', '2024-T3 clad')
    """
    return tuple(dict.fromkeys(row.text("name") for row in _sheets()))


def material(name: str, thickness_mm: float | None = None) -> Material:
    """The material by its name or its other name.

    Where its strength goes by thickness, the row for `thickness_mm`; without one, the weakest.

    Raises
    ------
    LookupError
        Where the tables know no such material; the message suggests the nearest name.

    Examples
    --------
    >>> round(material("6061-T6").density_kg_m3), round(material("6061-T6").fty_mpa)
    (2713, 241)
    >>> round(material("2024-T3 clad", 2.0).ftu_mpa), round(material("2024-T3 clad").ftu_mpa)
    (421, 407)
    """
    rows = [row for row in _sheets() if name in (row.text("name"), row.text("also"))]
    if not rows:
        known = [*material_names(), *(row.text("also") for row in _sheets() if row.text("also"))]
        raise LookupError(f"no sheet material {name!r}{did_you_mean(name, known)}")
    fitting = [row for row in rows if thickness_mm is not None and _covers(row, thickness_mm)]
    return _material(min(fitting or rows, key=lambda row: row.number("ftu")))


def gauges(name: str) -> tuple[Gauge, ...]:
    """Thicknesses this material is sold in, thinnest first.

    Raises
    ------
    LookupError
        Where the tables know no such material.

    Examples
    --------
    >>> [round(each.thickness_mm / 25.4, 3) for each in gauges("4130")[:3]]
    [0.025, 0.032, 0.04]
    """
    wanted = material(name).name
    gauge_list = next(row.text("gauge_list") for row in _sheets() if row.text("name") == wanted)
    rows = [row for row in load("gauges").rows if row.text("gauge_list") == gauge_list]
    found = [Gauge(row.number("thickness"), row.source()) for row in rows]
    return tuple(sorted(found, key=lambda each: each.thickness_mm))


def _sheets() -> list[Row]:
    return [row for row in load("materials").rows if row.text("form") == "sheet"]


def _covers(row: Row, thickness_mm: float) -> bool:
    least, most = row.maybe("thickness_least"), row.maybe("thickness_most")
    return (least or 0.0) <= thickness_mm <= (most if most is not None else float("inf"))


def _material(row: Row) -> Material:
    return Material(
        name=row.text("name"),
        form=f"{row.text('form')}, {row.text('condition')}",
        density_kg_m3=row.number("density"),
        ftu_mpa=row.number("ftu"),
        fty_mpa=row.number("fty"),
        elastic_gpa=row.number("elastic"),
        max_temperature_c=row.maybe("max_temperature"),
        source=row.source(),
        family=row.text("family"),
        fsu_mpa=row.maybe("fsu"),
        poisson=row.number("poisson"),
    )
