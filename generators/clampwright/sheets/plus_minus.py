"""How sure the figures on a sheet are, in words and cells: every ± at 95 %, and where it comes from."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.layout.cut_long import gap_known
from clampwright.layout.joined import Joined
from clampwright.layout.known_to import KnownTo, known
from clampwright.quantities import show_length
from clampwright.sheets.figures import distance

STAR = "*"
"""Behind a ± that rests on a default nobody measured."""

DEFAULT = "± a default nobody measured"
UNKNOWN, NOTHING = "?", "-"
STANDS = f"{NOTHING}: the part stands on that clamp or takes its place from it."
START_THERE = (
    "A station is where to start: a clamp slides along its tube until its bolt goes in, and may come to "
    "rest anywhere within the ±."
)
HOLE_AND_CLAMP = (
    "A hole's place on the plate is as exact as it is drilled. What is ± is where its clamp's bolt comes: ± "
    "to its clamp, across the tube, where no sliding helps."
)


def cell(mm: float, units: str, *, given: bool) -> str:
    """A ± for a column: the length, a star where it rests on a default, a dash where it is none.

    Examples
    --------
    >>> cell(2.54, "in", given=True), cell(2.54, "in", given=False), cell(0.0, "in", given=False)
    ('0.100', '0.100*', '-')
    """
    shown = distance(mm, units)
    if not float(shown):
        return NOTHING
    return shown if given else shown + STAR


def cells(each: KnownTo, units: str) -> tuple[str, str, str]:
    """± of a clamp's station, of its bolt across the tube, and of its gap, for columns."""
    return (
        cell(each.station_mm, units, given=each.given),
        cell(each.across_mm, units, given=each.across_given),
        cell(each.gap_mm, units, given=each.gap_given),
    )


def station_cell(label: str, layout: Joined) -> str:
    """± of a clamp's station for a column."""
    each = known(label, layout.known_to)
    return UNKNOWN if each is None else cells(each, layout.recipe.units)[0]


def across_cell(label: str, layout: Joined) -> str:
    """± of where a clamp's bolt comes against its hole, for a column."""
    each = known(label, layout.known_to)
    return UNKNOWN if each is None else cells(each, layout.recipe.units)[1]


def gap_cell(where: str, layout: Joined) -> str:
    """± of the gap at a clamp or joint, for a column."""
    each = gap_known(where, layout.known_to)
    return UNKNOWN if each is None else cells(each, layout.recipe.units)[2]


def behind_station(label: str, layout: Joined) -> str:
    """ " ± 0.083 in*" behind a station in a sentence; "" where nothing is known, or nothing errs."""
    said, units = station_cell(label, layout), layout.recipe.units
    if said in (UNKNOWN, NOTHING):
        return ""
    return f" ± {said.removesuffix(STAR)} {units}{STAR if said.endswith(STAR) else ''}"


def in_words(mm: float, units: str, *, given: bool) -> str:
    """A ± in a sentence, with what it rests on where nobody measured that.

    Examples
    --------
    >>> in_words(2.54, "in", given=False)
    '± 0.100 in (± a default nobody measured)'
    """
    said = f"± {distance(mm, units)} {units}"
    return said if given else f"{said} ({DEFAULT})"


def where_from(layout: Joined) -> str:
    """Where every ± of a layout comes from, in a few sentences; "" where none is known."""
    return " ".join(from_sentences(layout))


def from_sentences(layout: Joined) -> tuple[str, ...]:
    """The same, sentence by sentence."""
    return tuple(_sentences(layout)) if layout.known_to else ()


def _sentences(layout: Joined) -> Iterator[str]:
    yield _tubes(layout)
    most: dict[str, dict[str, None]] = {}
    for each in layout.known_to:
        for what in filter(None, (each.most_from, each.gap_most_from)):
            most.setdefault(what, {})[each.clamp] = None
    if most:
        said = (f"{', '.join(at)}, {what}" for what, at in most.items())
        yield f"Most of it: {'; '.join(said)}."
    shown = [each for known_to in layout.known_to for each in cells(known_to, layout.recipe.units)]
    if any(each.endswith(STAR) for each in shown):
        yield f"{STAR}: {DEFAULT}."
    if NOTHING in shown:
        yield STANDS


def _tubes(layout: Joined) -> str:
    surveyed, measuring = layout.recipe.structure.uncertainty, layout.recipe.measuring
    if surveyed is not None:
        said = "" if surveyed.given else ", in it a default nobody measured"
        return f"± at 95 %, from {surveyed.said}{said}."
    error = show_length(measuring.error_mm, layout.recipe.units)
    how = "as the recipe says" if measuring.given else "a default nobody measured"
    return f"± at 95 %, from tubes measured to ± {error} in each coordinate: {how}."
