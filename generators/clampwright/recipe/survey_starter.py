"""A commented starter survey: it reads and solves as it stands, and shows every key there is."""

from __future__ import annotations

import json

from clampwright.recipe.faults import Fault, RecipeFaults
from clampwright.recipe.starter_lines import Shown, Written, table_lines
from clampwright.recipe.survey_fields import SURVEY
from clampwright.recipe.survey_file import read_survey_text
from clampwright.recipe.tubes import SURVEY_KIND

_HEAD = """\
# A starter survey. Tubes, points and distances are invented: put your own in their place.
# F1, F2 and F3 are marks on the firewall, F4 one straight below F3; A and B are rings round the upper tube,
# C and D round the lower; M1 is a pen mark on the upper one.
# What begins with # is not read. A text may carry its unit, such as "20-3/32 in" or "510 mm"; bare numbers
# are in `units`. clampwright survey prints how to measure; survey solve makes tubes of this file.
"""
_ROUGH = {"mm": "[190, 100, 480]", "in": "[7.5, 4, 19]"}
_OD = {"mm": '"19 mm"', "in": '"3/4 in"'}
_BEYOND = {"mm": '["51 mm", "51 mm"]', "in": '["2 in", "2 in"]'}
_DISTANCES = (
    # from, to, inches, millimetres
    ("F1", "F2", "26", 660),
    ("F1", "F3", "26-7/16", 671),
    ("F2", "F3", "26-7/16", 671),
    ("F1", "A", "20", 508),
    ("F2", "A", "30-3/4", 780),
    ("F3", "A", "11-1/8", 283),
    ("F1", "B", "24-13/16", 631),
    ("F2", "B", "30-15/16", 785),
    ("F3", "B", "18-1/8", 461),
    ("F1", "C", "4-7/8", 124),
    ("F2", "C", "22-5/16", 567),
    ("F3", "C", "22-3/4", 577),
    ("F1", "D", "17-7/8", 454),
    ("F2", "D", "25-1/2", 648),
    ("F3", "D", "25-1/2", 648),
    ("A", "B", "14-7/8", 377),
    ("C", "D", "14-1/2", 368),
    ("A", "D", "21-3/8", 543),
    ("B", "C", "21-1/8", 537),
    ("A", "C", "17-1/2", 445),
    ("B", "D", "13-9/16", 344),
    # the mark below F3, and the pen mark
    ("F1", "F4", "13", 330),
    ("F2", "F4", "13", 330),
    ("F3", "F4", "23", 584),
    ("F4", "B", "24-13/16", 631),
    ("F4", "D", "17-13/16", 452),
    ("F1", "M1", "21-1/4", 540),
    ("F2", "M1", "30-1/4", 768),
    ("F3", "M1", "12-1/4", 311),
    ("B", "M1", "8-13/16", 224),
)
_SHOWN = {
    # list under [measured]: in inches, in millimetres; each agrees with the distances
    "heights": ('[["A", "B", -2]]', '[["A", "B", -50]]'),
    "levels": ('[["F1", "F2"]]', '[["F1", "F2"]]'),
    "offsets": ('[["F1", "A", "x", "1-7/8"]]', '[["F1", "A", "x", 48]]'),
    "slopes": ('[["upper-left", "-7.6 deg"]]', '[["upper-left", "-7.6 deg"]]'),
    "angles": ('[["upper-left", "lower-left", "16 deg"]]', '[["upper-left", "lower-left", "16 deg"]]'),
}
_NOT_SHOWN = Shown("")


def starter(units: str, name: str) -> str:
    """The text of a starter survey called `name`, in "mm" or "in".

    Raises
    ------
    RecipeFaults
        The name or the units are none.

    Examples
    --------
    >>> print(starter("in", "my-mount").split("\\n")[6])
    kind = "tape survey"                        # What this file is.
    """
    if units not in _OD:
        raise RecipeFaults((Fault("new", 1, 1, "units", '"mm" or "in"', f'"{units}"', ""),))
    head = {"kind": f'"{SURVEY_KIND}"', "name": json.dumps(name), "units": f'"{units}"'}
    text = "\n".join((_HEAD, *table_lines(SURVEY, head | dict(_written(units)), units), ""))
    read_survey_text(text)
    return text


def _written(units: str) -> Written:
    """What the starter writes out, as TOML by key; every other key stands in it as a comment."""
    return {
        "about": '"What was measured"',
        "tubes": {
            "upper-left": {
                "from": '"A"',
                "to": '"B"',
                "od": _OD[units],
                "mark": Shown('"M1"'),
                "beyond": _BEYOND[units],
            },
            "lower-left": {
                "from": '"C"',
                "to": '"D"',
                "od": _OD[units],
                "mark": Shown('"C"'),
                "beyond": _BEYOND[units],
            },
        },
        "points": {
            "M1": {"skin": '"upper-left"', "on": _NOT_SHOWN, "rough": Shown(_ROUGH[units])},
            "F4": dict.fromkeys(("on", "skin", "rough"), _NOT_SHOWN),
            "D": {"on": Shown('"lower-left"'), "skin": _NOT_SHOWN, "rough": _NOT_SHOWN},
        },
        "datum": {
            "origin": '"F1"',
            "along": '["y", "F2"]',
            "level": Shown("false"),
            "plane": '["z", "F3"]',
            "sides": '[["B", "forward of", "F1"], ["D", "forward of", "F1"]]',
        },
        "measured": {"distances": _distances(units), "plumb": '[["F3", "F4"]]'}
        | {key: Shown(shown[units == "mm"]) for key, shown in _SHOWN.items()},
    }


def _distances(units: str) -> str:
    """The distances as a list in TOML, a row each."""
    rows = (
        f'  ["{a}", "{b}", {json.dumps(inch) if units == "in" else mm}],' for a, b, inch, mm in _DISTANCES
    )
    return "\n".join(("[", *rows, "]"))
