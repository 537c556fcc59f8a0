"""Whether the lengths of a survey can be those of an engine bay: a slipped unit shows in all of them."""

from __future__ import annotations

from statistics import median

from clampwright.quantities import show_length
from clampwright.recipe.fields import Values
from clampwright.recipe.measures import bare_numbers
from clampwright.recipe.written import Entry
from clampwright.trade.tables import rule


def unit_makes_sense(entry: Entry, values: Values, tubes: dict[str, Values]) -> bool:
    """Whether distances, taken together, look like those of this unit; notes where they do not."""
    lengths = [row.cells[2] for row in values.get("distances") or () if row.whole]
    thickest = max((tube["od"] for tube in tubes.values() if "od" in tube), default=None)
    if not lengths or thickest is None:
        return True
    middle, longest = median(lengths), max(lengths)
    most, least = rule("survey-median-most").value, rule("survey-longest-least").value * thickest
    here = entry.inside("distances")
    if middle > most:
        _noted(here, f"half of them over {_shown(middle, here)}", f"distances of up to {_shown(most, here)}")
    elif longest < least:
        _noted(here, f"none over {_shown(longest, here)}", f"a distance longer than {_shown(least, here)}")
    else:
        return True
    return False


def _noted(here: Entry, said: str, expected: str) -> None:
    hint = f"is the unit right? {bare_numbers(here)}"
    here.wrong(expected, hint, said=said, at_key=True)


def _shown(mm: float, here: Entry) -> str:
    return show_length(mm, here.units)
