"""What may stand behind a measurement: its own ±, how it was taken, with what, and over which tubes."""

from __future__ import annotations

import re
from dataclasses import dataclass

from clampwright.recipe.faults import listed, nearest
from clampwright.recipe.measures import Measure
from clampwright.recipe.written import Entry, Wrong
from clampwright.structure.survey.model import CENTRE, INSIDE, OUTSIDE

_HOW = {
    CENTRE: CENTRE,
    "center": CENTRE,
    OUTSIDE: OUTSIDE,
    INSIDE: INSIDE,
    **{f"{word} to {word}": word for word in (CENTRE, OUTSIDE, INSIDE)},
    "center to center": CENTRE,
}
TAPE, CALIPERS = "tape", "calipers"
_WITH = {TAPE: TAPE, CALIPERS: CALIPERS, "calliper": CALIPERS, "callipers": CALIPERS, "caliper": CALIPERS}
_OVER = "over "
_ERROR = re.compile(r"\s*(?:±|\+\s*/?\s*-|\+/−|\+−)\s*(.*)", re.DOTALL)
WITH_ERROR = re.compile(r"\s*(.+?)\s*(?:±|\+\s*/?\s*-)\s*(.+?)\s*", re.DOTALL)
"""A value with its ± in one text."""
_NOTHING = ("", "-", "nothing")


@dataclass(frozen=True, slots=True)
class Words:
    """What stood behind a measurement; None for what was not said."""

    error: float | None = None
    how: str | None = None
    with_what: str | None = None
    over: tuple[str, ...] | None = None
    """Names as written, "" for nothing."""
    over_at: Entry | None = None
    """Where they stand."""


def read_words(entry: Entry, places: range, error: Measure | None, over_tubes: bool) -> tuple[Words, bool]:
    """The words behind a row's values, and whether all of them could be made out; notes what could not."""
    found: dict[str, object] = {}
    right = True
    for place in places:
        here = entry.inside(place)
        try:
            said = _word(here, error, over_tubes)
        except Wrong:
            right = False
            continue
        if found.keys() & said.keys():
            here.wrong("each thing said once", "delete one of the two")
            right = False
        found = said | found
    return Words(**found), right  # type: ignore[arg-type]


def _word(here: Entry, error: Measure | None, over_tubes: bool) -> dict[str, object]:
    text = " ".join(here.value.split()) if isinstance(here.value, str) else ""
    plain = text.casefold()
    if error is not None and (match := _ERROR.fullmatch(text)):
        return {"error": error.read(Entry(here.written, here.path, match[1]))}
    if over_tubes and plain in _HOW:
        return {"how": _HOW[plain]}
    if over_tubes and plain in _WITH:
        return {"with_what": _WITH[plain]}
    if over_tubes and plain.startswith(_OVER):
        names = tuple(name.strip() for name in text[len(_OVER) :].split(","))
        return {"over": tuple("" if n in _NOTHING else n for n in names), "over_at": here}
    raise here.wrong(*_expected(here, over_tubes))


def _expected(here: Entry, over_tubes: bool) -> tuple[str, str]:
    """What may stand here, and a hint."""
    if not over_tubes:
        return 'a plus or minus such as "± 1/8", or nothing', _sign(here)
    words = (CENTRE, OUTSIDE, INSIDE, CALIPERS, "± 1/8", "over TUBE", "over TUBE, TUBE")
    match = nearest(here.value, (*_HOW, *_WITH)) if isinstance(here.value, str) else None
    return listed(words), f'did you mean "{match}"?' if match else _sign(here)


def _sign(here: Entry) -> str:
    number = isinstance(here.value, int | float) and not isinstance(here.value, bool)
    digits = isinstance(here.value, str) and here.value[:1].isdigit()
    return "write a plus or minus as a text with its sign" if number or digits else ""
