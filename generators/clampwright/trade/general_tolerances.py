"""What a size without a tolerance of its own is held to: a class of ISO 2768-1, or inch decimals.

Inch drawings are read by the number of decimals. A drawing here prints three of every linear size: places
and sizes are multiples of 1/64 in or finer, which two decimals do not hold, and a tolerance that went by
the accident of a size ending on a hundredth would mean nothing. A fourth decimal stands only beside limits of
its own, and behind a tube or sheet that is left as supplied.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import radians
from typing import Protocol

from clampwright.quantities import fixed
from clampwright.quantities.kinds import INCH
from clampwright.trade.limits import Limits
from clampwright.trade.tables import Row, load, rule

CLASSES = {"f": "fine", "m": "medium", "c": "coarse", "v": "very_coarse"}
SOURCE = "iso-2768-1"
INCH_DECIMALS = "inch"
WHY = "general tolerance"
NEAREST = {"f": "fmcv", "m": "mfcv", "c": "cmfv", "v": "vcmf"}
"""Classes in the order in which one stands in where the table gives a class nothing: the next finer first."""

_NONE = "where ISO 2768-"
_SMALLEST_MM = 0.5
_LISTED_UP_TO_MM = 1000.0
"""How far the table is spelled out in a title block: no part here is larger."""


class HasTolerances(Protocol):
    """Anything that says which general tolerance holds: `recipe.model.Shop`."""

    @property
    def tolerances(self) -> str:
        """ "f", "m", "c" or "v" of ISO 2768-1, or "inch"."""


def general_tolerance_mm(length_mm: float, grade: str) -> float:
    """± of a linear size by ISO 2768-1, table 1, mm.

    Parameters
    ----------
    length_mm
        Nominal size, from 0.5 mm up to 4 m.
    grade
        "f", "m", "c" or "v".

    Raises
    ------
    LookupError
        The table gives nothing for that size and class.

    Examples
    --------
    >>> general_tolerance_mm(12.0, "m"), general_tolerance_mm(6.0, "m"), general_tolerance_mm(31.0, "f")
    (0.2, 0.1, 0.15)
    """
    return _deviation("iso2768_1", length_mm, grade)[0]


def general_radius_mm(radius_mm: float, grade: str) -> float:
    """± of an external radius or a chamfer height by ISO 2768-1, table 2, mm.

    Parameters
    ----------
    radius_mm
        Nominal radius or height, from 0.5 mm up.
    grade
        "f", "m", "c" or "v".

    Raises
    ------
    LookupError
        Below 0.5 mm: there a drawing must say it.

    Examples
    --------
    >>> general_radius_mm(6.35, "m"), general_radius_mm(3.0, "c")
    (1.0, 0.4)
    """
    return _deviation("iso2768_1_radii", radius_mm, grade)[0]


def general_angle_deg(shorter_side_mm: float, grade: str) -> float:
    """± of an angle by ISO 2768-1, table 3, degrees: it goes by the angle's shorter side.

    Parameters
    ----------
    shorter_side_mm
        Length of the shorter side of the angle.
    grade
        "f", "m", "c" or "v".

    Examples
    --------
    >>> general_angle_deg(10.0, "m"), general_angle_deg(25.4, "m"), general_angle_deg(500.0, "v")
    (1.0, 0.5, 0.3333333333333333)
    """
    return _deviation("iso2768_1_angles", shorter_side_mm, grade)[0]


def general(shop: HasTolerances, size_mm: float) -> Limits:
    """General tolerance of a linear size, as the shop is told it in the title block.

    Parameters
    ----------
    shop
        Of the recipe.
    size_mm
        Nominal size.

    Notes
    -----
    Where ISO 2768-1 gives nothing for that size and class, the drawing must say a tolerance beside the size.
    Its reason is then `none_given`, not `WHY`: that of the nearest class which has one, and below 0.5 mm or
    above 4 m of the nearest range.

    Examples
    --------
    >>> from clampwright.recipe.shop import usual_shop
    >>> general(usual_shop("mm"), 80.0).over_mm, round(general(usual_shop("in"), 80.0).over_mm, 4)
    (0.3, 0.127)
    """
    if shop.tolerances == INCH_DECIMALS:
        row = _decimals(int(rule("inch-decimals-shown").value))
        return _even(row.number("deviation"), row.source())
    try:
        return _even(*_deviation("iso2768_1", size_mm, shop.tolerances))
    except LookupError:
        return _stand_in(size_mm, shop.tolerances)


def none_given(limits: Limits) -> bool:
    """Whether limits stand in for a general tolerance that ISO 2768-1 does not give.

    Examples
    --------
    Class v begins above 3 mm: that of class c stands in.

    >>> from dataclasses import replace
    >>> from clampwright.recipe.shop import usual_shop
    >>> found = general(replace(usual_shop("mm"), tolerances="v"), 2.5)
    >>> found.over_mm, found.why, none_given(found)
    (0.2, 'where ISO 2768-v gives none', True)
    """
    return limits.why.startswith(_NONE)


def _stand_in(size_mm: float, grade: str) -> Limits:
    rows = load("iso2768_1").rows
    within = min(max(size_mm, _SMALLEST_MM), max(row.number("up_to") for row in rows))
    row = next(row for row in rows if within <= row.number("up_to"))
    off_mm = next(found for other in NEAREST[grade] if (found := row.maybe(CLASSES[other])) is not None)
    return Limits(off_mm, off_mm, f"{_NONE}{grade} gives none", row.source())


def general_radius(shop: HasTolerances, radius_mm: float) -> Limits:
    """General tolerance of a corner radius or a chamfer's height.

    Raises
    ------
    LookupError
        ISO 2768-1 gives nothing below 0.5 mm: the drawing must say a tolerance beside it.

    Examples
    --------
    >>> from clampwright.recipe.shop import usual_shop
    >>> general_radius(usual_shop("mm"), 6.0).over_mm, general_radius(usual_shop("in"), 6.35).over_mm
    (0.5, 0.762)
    """
    if shop.tolerances == INCH_DECIMALS:
        found = rule("inch-general-radius")
        return _even(found.value, found.source)
    return _even(*_deviation("iso2768_1_radii", radius_mm, shop.tolerances))


def is_most(shop: HasTolerances, radius_mm: float) -> bool:
    """Whether a corner radius is told as the largest that will do: no general tolerance holds it.

    ISO 2768-1 gives none below 0.5 mm; one that is as wide as the radius itself says nothing.

    Examples
    --------
    >>> from clampwright.recipe.shop import usual_shop
    >>> is_most(usual_shop("mm"), 0.3), is_most(usual_shop("mm"), 6.0), is_most(usual_shop("in"), 0.5)
    (True, False, True)
    """
    try:
        return general_radius(shop, radius_mm).under_mm >= radius_mm
    except LookupError:
        return True


def general_angle(shop: HasTolerances, shorter_side_mm: float) -> float:
    """General tolerance of an angle, ± radians.

    Examples
    --------
    >>> from math import degrees
    >>> from clampwright.recipe.shop import usual_shop
    >>> round(degrees(general_angle(usual_shop("mm"), 60.0)) * 60), round(
    ...     degrees(general_angle(usual_shop("in"), 60.0))
    ... )
    (20, 1)
    """
    if shop.tolerances == INCH_DECIMALS:
        return radians(rule("inch-general-angle").value)
    return radians(_deviation("iso2768_1_angles", shorter_side_mm, shop.tolerances)[0])


def block_words(shop: HasTolerances, units: str = "") -> tuple[str, ...]:
    """Lines for a title block: the drawing's unit, and the general tolerance once.

    Nothing is said of sizes for which the class gives nothing: below 0.5 mm, and to 3 mm in class v.

    Parameters
    ----------
    shop
        Of the recipe.
    units
        "mm" or "in", of the drawing's figures; "": those that go with the tolerance.

    Examples
    --------
    >>> from clampwright.recipe.shop import usual_shop
    >>> block_words(usual_shop("mm"))[1], block_words(usual_shop("mm"))[2].split(", ")[:2]
    ('General tolerances ISO 2768-m', ['± 0.1 from 0.5 to 6', '± 0.2 over 6 to 30'])
    >>> for line in block_words(usual_shop("in")):
    ...     print(line)
    Sizes in inches
    .X ± .030  .XX ± .010  .XXX ± .005
    Corner radii ± .030, angles ± 1°
    """
    of_inches = shop.tolerances == INCH_DECIMALS
    units = units or ("in" if of_inches else "mm")
    first = f"Sizes in {'inches' if units == 'in' else 'millimetres'}"
    return (first, *(_inch_lines(units) if of_inches else _iso_lines(shop.tolerances, units)))


def _iso_lines(grade: str, units: str) -> Iterator[str]:
    yield f"General tolerances ISO 2768-{grade}"
    spans: dict[float, tuple[float, float]] = {}
    for row in load("iso2768_1").rows:
        found, least, most = row.maybe(CLASSES[grade]), row.number("over"), row.number("up_to")
        if found is not None and most <= _LISTED_UP_TO_MM:
            spans[found] = spans.get(found, (least, most))[0], most
    show = _inches if units == "in" else _plain
    yield ", ".join(
        f"± {show(off)} {'from' if least == _SMALLEST_MM else 'over'} {show(least)} to {show(most)}"
        for off, (least, most) in spans.items()
    )


def _inch_lines(units: str) -> Iterator[str]:
    radius, angle = rule("inch-general-radius").value, rule("inch-general-angle").value
    if units == "in":
        rows = load("inch_decimals").rows
        yield "  ".join(f".{'X' * r.whole('decimals')} ± {_inches(r.number('deviation'))}" for r in rows)
        yield f"Corner radii ± {_inches(radius)}, angles ± {angle:g}°"
    else:
        row = _decimals(int(rule("inch-decimals-shown").value))
        off = row.number("deviation")
        yield f"Linear sizes ± {_exact(off)} ({_inches(off)} in)"
        yield f"Corner radii ± {_exact(radius)}, angles ± {angle:g}°"


def _plain(mm: float) -> str:
    return f"{mm:g}"


def _exact(mm: float) -> str:
    """As it is checked: thousandths of an inch end at the fourth decimal of a millimetre."""
    return fixed(mm, 4).rstrip("0")


def _inches(mm: float) -> str:
    return fixed(mm / float(INCH), 3).removeprefix("0")


def _even(off_mm: float, source: str) -> Limits:
    return Limits(off_mm, off_mm, WHY, source)


def _decimals(count: int) -> Row:
    return next(row for row in load("inch_decimals").rows if row.whole("decimals") == count)


def _deviation(table: str, size_mm: float, grade: str) -> tuple[float, str]:
    """The cell of a size and class, and its source."""
    for row in load(table).rows:
        least, most = row.number("over"), row.maybe("up_to")
        above = size_mm > least or size_mm == least == _SMALLEST_MM or size_mm == least == 0
        if above and (most is None or size_mm <= most):
            found = row.maybe(CLASSES[grade])
            if found is not None:
                return found, row.source()
    raise LookupError(f"ISO 2768-1 gives no deviation of class {grade} for {size_mm:g} mm")
