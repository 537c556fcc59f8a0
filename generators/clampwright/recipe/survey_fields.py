"""The keys of a tape survey."""

from __future__ import annotations

from clampwright.recipe.blocks import Named
from clampwright.recipe.common import FolderName
from clampwright.recipe.fields import Field, LeftOut, Needed, Table
from clampwright.recipe.measures import Angle, Length
from clampwright.recipe.readers import Flag, Text, one_of, point
from clampwright.recipe.survey_beyond import Beyond
from clampwright.recipe.survey_measuring import MEASURING
from clampwright.recipe.survey_names import POINT, TUBE, OneOrSeveral
from clampwright.recipe.survey_rows import ANGLE_ERROR, Pair, Rows
from clampwright.recipe.survey_sides import DIRECTIONS, FROM_THE_SEAT, LOOKING_AFT, SIDE_WORDS
from clampwright.recipe.tubes import SURVEY_KIND, UNITS

_AXIS = one_of("x", "y", "z")
_POINT_OF_AXIS = "an axis and a point on its positive side"

_TUBE = Table(
    (
        Field("from", POINT, "The point that it starts at, on its axis.", example='"A"'),
        Field("to", POINT, "The point that it ends at, on its axis.", example='"B"'),
        Field(
            "od",
            Length("tube-od", "the outside diameter, not the wall or the radius"),
            "Outside diameter, over paint or sleeve.",
            example='"19.05 mm" | "3/4 in"',
        ),
        Field(
            "mark",
            POINT,
            "A point on it that its stations are to be counted from.",
            LeftOut(None, "from its start"),
            '"A"',
        ),
        Field(
            "beyond",
            Beyond(),
            "How far it runs on beyond from and beyond to, along itself, to where axes meet or it ends.",
            LeftOut(None, "it ends at both"),
            '["50 mm", "40 mm"] | ["2 in", "1-1/2 in"]',
        ),
    )
)
_MORE_OF_A_POINT = Table(
    (
        Field(
            "on",
            OneOrSeveral(TUBE),
            "The tube on whose axis it lies: the middle of a ring drawn round the tube.",
            LeftOut((), "as the tubes' ends say, or on no tube"),
            '"upper-left"',
        ),
        Field(
            "skin",
            TUBE,
            "The tube on whose skin it lies: a pen mark on the paint.",
            LeftOut(None, "on no skin"),
            '"upper-left"',
        ),
        Field(
            "rough",
            point("coordinate", 3, "xyz"),
            "Where it is by eye, in the frame of the datum.",
            LeftOut(None, "found without"),
            "[450, -150, 150] | [18, -6, 6]",
        ),
    )
)
_DATUM = Table(
    (
        Field("origin", POINT, "The point at [0, 0, 0].", Needed('such as origin = "F1"'), '"F1"'),
        Field(
            "along",
            Pair((_AXIS, POINT), _POINT_OF_AXIS, '["y", "F2"]'),
            "An axis of the frame, and a point that it runs toward from the origin.",
            Needed('such as along = ["y", "F2"]'),
            '["y", "F2"]',
        ),
        Field("level", Flag(), "Whether z is plumb; else plane is needed.", LeftOut(False, "false"), "true"),
        Field(
            "plane",
            Pair((_AXIS, POINT), _POINT_OF_AXIS, '["z", "F3"]'),
            "Where z is not plumb: a second axis, and a point on its side of the first, in their plane.",
            LeftOut(None, "level says it"),
            '["z", "F3"]',
        ),
        Field(
            "x",
            one_of(*DIRECTIONS),
            "Where x points, for what sides says.",
            LeftOut(None, "forward"),
            '"forward"',
        ),
        Field("z", one_of(*DIRECTIONS), "Where z points, for what sides says.", LeftOut(None, "up"), '"up"'),
        Field(
            "left_right",
            one_of(FROM_THE_SEAT, LOOKING_AFT),
            "Left and right as one sits in the aircraft, or as one stands before its nose.",
            LeftOut(None, "asked for where it matters"),
            f'"{LOOKING_AFT}"',
        ),
        Field(
            "sides",
            Rows(
                (POINT, one_of(*SIDE_WORDS), POINT),
                "sides [point, word, point]",
                '["A", "forward of", "F1"]',
                None,
            ),
            "What lies on which side of what, as you see it: it tells the figure from its mirror image.",
            LeftOut((), "asked for where it matters"),
            '[["A", "forward of", "F1"]]',
        ),
    ),
    "The frame that the tubes are to be given in. It is right-handed.",
)
_MEASURED = Table(
    (
        Field(
            "distances",
            Rows(
                (POINT, POINT, Length("survey-distance")),
                "distances [from, to, length]",
                '["F1", "A", "20-3/32"]',
                over_tubes=True,
            ),
            'From point to point; then what is so of "outside", "inside", "calipers", "± 1/8", "over TUBE".',
            LeftOut((), "none"),
            '[["F1", "A", 510, "± 2"]] | [["F1", "A", "20-3/32", "± 1/8"]]',
        ),
        Field(
            "heights",
            Rows((POINT, POINT, Length("coordinate")), "heights [from, to, rise]", '["A", "B", "-2-1/2"]'),
            "How much higher the second point is than the first.",
            LeftOut((), "none"),
            '[["A", "B", -63.5]] | [["A", "B", "-2-1/2"]]',
        ),
        Field(
            "levels",
            Rows((POINT, POINT), "levels [point, point]", '["F1", "F2"]'),
            "Points at one height.",
            LeftOut((), "none"),
            '[["F1", "F2"]]',
        ),
        Field(
            "plumb",
            Rows((POINT, POINT), "plumb lines [point, point]", '["A", "C"]'),
            "Points straight above one another.",
            LeftOut((), "none"),
            '[["A", "C"]]',
        ),
        Field(
            "offsets",
            Rows(
                (POINT, POINT, _AXIS, Length("coordinate")),
                "offsets [from, to, axis, length]",
                '["F1", "A", "x", 3]',
            ),
            "How much farther along an axis of the frame the second point is, by square.",
            LeftOut((), "none"),
            '[["F1", "A", "x", 76]] | [["F1", "A", "x", 3]]',
        ),
        Field(
            "slopes",
            Rows(
                (TUBE, Angle("survey-slope", "0 is level; positive where it rises to its end")),
                "slopes [tube, angle]",
                '["upper-left", "-8.2 deg"]',
                ANGLE_ERROR,
            ),
            "How much a tube rises from its start to its end, by digital level.",
            LeftOut((), "none"),
            '[["upper-left", "-8.2 deg"]]',
        ),
        Field(
            "angles",
            Rows(
                (TUBE, TUBE, Angle("survey-angle")),
                "angles [tube, tube, angle]",
                '["upper-left", "lower-left", "14 deg"]',
                ANGLE_ERROR,
            ),
            "The angle between two tubes, each looked along from its start to its end.",
            LeftOut((), "none"),
            '[["upper-left", "lower-left", "14 deg"]]',
        ),
    ),
    "What was measured, a row each; a row may end in a ± of its own.",
)
SURVEY = Table(
    (
        Field(
            "kind",
            one_of(SURVEY_KIND),
            "What this file is.",
            Needed(f'write kind = "{SURVEY_KIND}"'),
            f'"{SURVEY_KIND}"',
        ),
        Field(
            "name",
            FolderName("clampwright survey solve"),
            "Names what is made of it.",
            Needed('such as name = "engine-mount"'),
            '"engine-mount"',
        ),
        Field(
            "about", Text("a remark", may_be_empty=True), "What was measured.", LeftOut(""), '"Engine mount"'
        ),
        UNITS,
        Field("measuring", MEASURING, MEASURING.about, LeftOut()),
        Field(
            "tubes",
            Named(_TUBE, "survey-tubes", "tube", all_that_can=True),
            "The tubes, each under its name, between two points.",
            Needed("a table for each tube, such as [tubes.upper-left], with from, to and od"),
        ),
        Field(
            "points",
            Named(_MORE_OF_A_POINT, "survey-points", "point", "M1", all_that_can=True),
            "Points of which there is more to say than that a tube ends there.",
            LeftOut({}, "only the tubes' ends"),
        ),
        Field("datum", _DATUM, _DATUM.about, Needed("write [datum]: origin, along, and level or plane")),
        Field("measured", _MEASURED, _MEASURED.about, LeftOut()),
    ),
    "Tubes between points, and what was measured between the points.",
)
