"""Text to a number and a unit: fractions, mixed numbers, feet and inches, built signs."""

from __future__ import annotations

import difflib
import re
import unicodedata
from fractions import Fraction

from clampwright.quantities.kinds import KINDS, SHOWN_UNITS, TEMPERATURE, Kind
from clampwright.quantities.refusal import NotAQuantity, shown

_PAIRS = (("ft", "in"), ("lb", "oz"))
"""Units that people write one after the other: 2 ft 3 in."""

_TERM = re.compile(
    r"\s*(?P<sign>[+-]?)\s*"
    r"(?:(?:(?P<whole>\d+)(?:\s+|-))?(?P<over>\d+)\s?/\s?(?P<under>\d+)"
    r"|(?P<decimal>(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d{1,2}(?!\d))?))"
    r"\s*(?P<unit>(?:[^\d+\-/,#.]|\.(?!\d))*)",
    re.ASCII | re.IGNORECASE,
)
_LONGEST_TEXT = 80

_LOOKALIKES = str.maketrans(
    {"″": '"', "”": '"', "“": '"', "′": "'", "’": "'", "‘": "'", "−": "-", "–": "-", "‑": "-", "⁄": "/"}
    | {"º": "°", "˚": "°", "\u00b5": "\u03bc", "\u00a0": " ", "\u202f": " ", "\u2009": " "}
)


def read_text(text: str, unit: str, kind: Kind) -> Fraction:
    """A text in the kind's base unit, exactly; a number without a unit is in `unit`.

    Raises
    ------
    NotAQuantity
        For every text that is no such quantity.

    Examples
    --------
    >>> from clampwright.quantities.kinds import LENGTH
    >>> read_text("1-1/4 in", "mm", LENGTH)
    Fraction(127, 4)
    """
    if not text.strip():
        raise NotAQuantity(kind.expected, "an empty text")
    if len(text) > _LONGEST_TEXT:
        raise NotAQuantity(kind.expected, shown(text), f"more than {_LONGEST_TEXT} characters")
    plain = _plain(text)
    terms = _terms(plain)
    if not terms:
        raise NotAQuantity(kind.expected, shown(text), _why_not_read(plain))
    if len(terms) == 2:
        return _compound(terms, text, kind)
    name = _unit_name(terms[0]["unit"], text, kind)
    return to_base(_number(terms[0], text, kind), name or unit, kind)


def _plain(text: str) -> str:
    """The text with lookalike signs and built fractions in ASCII: 1½″ becomes 1 1/2\"."""
    signs = []
    for sign in text:
        if unicodedata.decomposition(sign).startswith("<fraction>"):
            sign = " " + unicodedata.normalize("NFKC", sign)
        signs.append(sign)
    return "".join(signs).translate(_LOOKALIKES).replace("''", '"').strip()


def _terms(plain: str) -> list[re.Match[str]]:
    """One or two number-and-unit terms that together are the whole text, else nothing."""
    terms: list[re.Match[str]] = []
    at = 0
    while at < len(plain) and len(terms) < 2:
        term = _TERM.match(plain, at)
        if term is None:
            return []
        terms.append(term)
        at = term.end()
    return terms if at == len(plain) else []


def _why_not_read(plain: str) -> str:
    if "," in plain:
        return "write decimals with a point"
    if "#" in plain:
        return "a screw size stands alone, such as #10"
    return "write one number and its unit" if any(c.isdigit() for c in plain) else ""


def _number(term: re.Match[str], text: str, kind: Kind) -> Fraction:
    sign = -1 if term["sign"] == "-" else 1
    if term["decimal"] is not None:
        return sign * Fraction(term["decimal"])
    if int(term["under"]) == 0:
        raise NotAQuantity(kind.expected, shown(text), "division by zero")
    part = Fraction(int(term["over"]), int(term["under"]))
    if term["whole"] is not None and part >= 1:
        raise NotAQuantity(
            kind.expected, shown(text), "the fraction after a whole number must be less than one"
        )
    return sign * (int(term["whole"] or 0) + part)


def _unit_name(written: str, text: str, kind: Kind) -> str:
    """The unit as the kind knows it; '' where none was written."""
    name = re.sub(r"^(deg|°)\s+", r"\1", written.strip().casefold().rstrip("."))
    if not name or name in kind.units:
        return name
    raise NotAQuantity(kind.expected, shown(text), _unit_hint(name, kind))


def _unit_hint(name: str, kind: Kind) -> str:
    if kind is TEMPERATURE and name in ("deg", "°"):
        return "degF or degC?"
    for other in KINDS:
        if other is not kind and name in other.units:
            return f"{shown(name)} is a unit of {other.name}"
    close = difflib.get_close_matches(name, kind.units, n=1, cutoff=0.5)
    nearest = SHOWN_UNITS.get(close[0], close[0]) if close else ""
    known = f"did you mean {nearest}?" if close else "units: " + ", ".join(_short_units(kind))
    return f"unknown unit {shown(name)}; {known}"


def _short_units(kind: Kind) -> list[str]:
    first: dict[tuple[Fraction, Fraction], str] = {}
    for name, scale in kind.units.items():
        first.setdefault(scale, SHOWN_UNITS.get(name, name))
    return list(first.values())


def to_base(number: Fraction, unit: str, kind: Kind) -> Fraction:
    """A number in one of the kind's units, in its base unit.

    Examples
    --------
    >>> to_base(Fraction(212), "degF", TEMPERATURE)
    Fraction(100, 1)
    """
    offset, factor = kind.units[unit.casefold()]
    return (number + offset) * factor


def _compound(terms: list[re.Match[str]], text: str, kind: Kind) -> Fraction:
    """Two terms that people write together, such as feet and inches; the sign stands before both."""
    units = [_unit_name(term["unit"], text, kind) for term in terms]
    factors = [kind.units[name][1] for name in units if name]
    pairs = [[kind.units[name][1] for name in pair] for pair in _PAIRS if pair[0] in kind.units]
    if factors not in pairs or terms[1]["sign"]:
        raise NotAQuantity(kind.expected, shown(text), "write one number and its unit")
    total = sum(abs(_number(t, text, kind)) * f for t, f in zip(terms, factors, strict=True))
    return Fraction(-total if terms[0]["sign"] == "-" else total)
