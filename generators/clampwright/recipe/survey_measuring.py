"""How well a survey is measured: the ± of each sort of measurement, and what stands in for it."""

from __future__ import annotations

from clampwright.recipe.fields import ByRule, Field, Table
from clampwright.recipe.survey_rows import ANGLE_ERROR, LENGTH_ERROR

MEASURING = Table(
    (
        Field(
            "tape",
            LENGTH_ERROR,
            "Plus or minus of one reading of the tape.",
            ByRule("survey-tape-metric", "survey-tape-inch", "usual for a tape over tubes"),
            '"1.5 mm" | "1/16 in"',
        ),
        Field(
            "calipers",
            LENGTH_ERROR,
            "Plus or minus of a distance taken with calipers.",
            ByRule("survey-calipers", "survey-calipers", "usual for long calipers over tubes"),
            '"0.3 mm" | "1/64 in"',
        ),
        Field(
            "height",
            LENGTH_ERROR,
            "Plus or minus of a height or a level, by water level or laser.",
            ByRule("survey-height-metric", "survey-height-inch", "usual for a water level"),
            '"2 mm" | "3/32 in"',
        ),
        Field(
            "offset",
            LENGTH_ERROR,
            "Plus or minus of an offset by square or straightedge.",
            ByRule("survey-offset-metric", "survey-offset-inch", "usual for a square on a panel"),
            '"3 mm" | "1/8 in"',
        ),
        Field(
            "plumb",
            LENGTH_ERROR,
            "Plus or minus of a point straight below another, by plumb bob.",
            ByRule("survey-plumb-metric", "survey-plumb-inch", "usual for a plumb bob"),
            '"2 mm" | "3/32 in"',
        ),
        Field(
            "slope",
            ANGLE_ERROR,
            "Plus or minus of a tube's slope by digital level.",
            ByRule("survey-slope", "survey-slope", "usual for a digital level on paint"),
            '"0.3 deg"',
        ),
        Field(
            "angle",
            ANGLE_ERROR,
            "Plus or minus of the angle between two tubes by bevel.",
            ByRule("survey-angle", "survey-angle", "usual for a bevel set by eye"),
            '"1 deg"',
        ),
    ),
    "How well you measure: the plus or minus that holds 19 times in 20.",
)
