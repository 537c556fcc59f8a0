"""Which band and cushion stands which temperature and which fluids."""

from __future__ import annotations

from clampwright.trade.naming import did_you_mean
from clampwright.trade.tables import Row, load


def clamp_codes() -> tuple[str, ...]:
    """Band and cushion codes, such as "CH" and "DG"; the project's own choices first.

    Examples
    --------
    >>> clamp_codes()[:2]
    ('CH', 'CJ')
    """
    return tuple(row.text("code") for row in load("clamp_codes").rows)


def fluid_names() -> tuple[str, ...]:
    """Fluids that the table of cushions speaks of.

    Examples
    --------
    >>> fluid_names()
    ('fuel', 'oil', 'hydraulic', 'coolant', 'water')
    """
    return tuple(row.text("fluid") for row in load("fluids").rows)


def code_row(code: str) -> Row:
    """The row of a band and cushion code.

    Raises
    ------
    LookupError
        Where the tables know no such code.

    Examples
    --------
    >>> code_row("CH").text("cushion")
    'silicone'
    """
    for row in load("clamp_codes").rows:
        if row.text("code") == code:
            return row
    raise LookupError(f"no band and cushion code {code!r}{did_you_mean(code, clamp_codes())}")


def clamp_code_for(temperature_c: float, fluids: tuple[str, ...]) -> str:
    """The code that this project takes when the recipe names none.

    The first choice that stands the temperature and has nothing against the fluids. Where there is none:
    the one with the fewest objections, grave ones first, among those that stand the temperature, or the
    one that stands most heat (the checks then say what is wrong).

    Raises
    ------
    LookupError
        For a fluid that the tables do not know.

    Examples
    --------
    >>> clamp_code_for(150.0, ()), clamp_code_for(150.0, ("oil",)), clamp_code_for(80.0, ("hydraulic",))
    ('CH', 'CJ', 'CE')
    """
    chosen = [row for row in load("clamp_codes").rows if row.maybe("choice") is not None]
    chosen.sort(key=lambda row: row.number("choice"))
    warm = [row for row in chosen if row.number("max_temperature") >= temperature_c]
    if not warm:
        return max(chosen, key=lambda row: row.number("max_temperature")).text("code")
    codes = [row.text("code") for row in warm]
    return min(codes, key=lambda code: _how_poor(code, fluids))


def _how_poor(code: str, fluids: tuple[str, ...]) -> tuple[int, int]:
    """How many objections are grave, and how many there are."""
    found = _against(code, fluids)
    return sum(row.text("verdict") != "caution" for row in found), len(found)


def cushion_objections(code: str, fluids: tuple[str, ...]) -> tuple[str, ...]:
    """Why this cushion does not suit these fluids; empty where nothing is known against it.

    Raises
    ------
    LookupError
        For a code or a fluid that the tables do not know.

    Examples
    --------
    >>> cushion_objections("CH", ("fuel",)), cushion_objections("CJ", ("fuel",))
    (('silicone and fuel do not go together',), ())
    """
    return tuple(row.text("says") for row in _against(code, fluids))


def objection_verdict(code: str, fluids: tuple[str, ...]) -> str:
    """How grave `cushion_objections` are: "fail", "caution" where the cushion only needs care, else "pass".

    Examples
    --------
    >>> [objection_verdict("CH", fluids) for fluids in (("fuel", "oil"), ("oil",), ("water",))]
    ['fail', 'caution', 'pass']
    """
    grave, found = _how_poor(code, fluids)
    return "fail" if grave else "caution" if found else "pass"


def objection_sources(code: str, fluids: tuple[str, ...]) -> tuple[str, ...]:
    """Keys of the sources of `cushion_objections`.

    Examples
    --------
    >>> objection_sources("CE", ("oil",))
    ('ms21919-article',)
    """
    return tuple(dict.fromkeys(row.source() for row in _against(code, fluids)))


def _against(code: str, fluids: tuple[str, ...]) -> list[Row]:
    for fluid in fluids:
        if fluid not in fluid_names():
            raise LookupError(f"no fluid {fluid!r}{did_you_mean(fluid, fluid_names())}")
    cushion = code_row(code).text("cushion")
    rows = load("cushion_fluids").rows
    return [row for row in rows if row.text("cushion") == cushion and row.text("fluid") in fluids]
