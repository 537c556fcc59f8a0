"""The kind "stand-off" and its keys: a line held off a tube by a pair of clamps, or off a panel by one."""

from __future__ import annotations

from clampwright.recipe.bushing_fields import BUSHINGS
from clampwright.recipe.clamp_fields import CODE, TUBE_NAME, fastener, sizes
from clampwright.recipe.direction import Direction
from clampwright.recipe.fields import NEEDED, Assumed, Field, LeftOut, Needed, Table
from clampwright.recipe.kind import Kind
from clampwright.recipe.measures import Length
from clampwright.recipe.readers import Several, Text, Whole, counted, one_of, point
from clampwright.recipe.stand_off_faults import cross_check
from clampwright.recipe.stand_off_job import job
from clampwright.recipe.stand_off_starter import starter
from clampwright.recipe.wires import HOSE, Wires

_SUPPORT = Table(
    (
        Field(
            "tube",
            TUBE_NAME,
            "The tube that holds the line.",
            LeftOut(None, "the only one there is"),
            '"upper"',
        ),
        Field(
            "panel",
            Text("a panel's name"),
            "The panel that holds it instead.",
            LeftOut(None, "a tube holds it"),
            '"firewall"',
        ),
        Field(
            "station",
            Length("station"),
            "Where along the tube, for a line parallel to it.",
            LeftOut(None, "the tool chooses"),
            '"150 mm" | "6 in"',
        ),
    ),
    "What holds the line.",
)

_LINE = Table(
    (
        Field("name", Text("the line's name"), "What it is.", NEEDED, '"oil hose"'),
        Field(
            "what",
            one_of("hose", "tube", "cable", "bundle"),
            "Which sort of line.",
            LeftOut(None, "hose or bundle where those keys are given, else tube"),
            '"hose"',
        ),
        Field(
            "od",
            Length("line-od", "the outside diameter"),
            "Its outside diameter, measured.",
            LeftOut(None, "hose or wires says it"),
            '"20 mm" | "0.77 in"',
        ),
        Field(
            "hose",
            HOSE,
            "Dash number of a hose of MIL-H-8794, in place of od.",
            LeftOut(None, "od or wires says it"),
            "8",
        ),
        Field(
            "wires",
            counted(Wires(), "wire-groups", "pairs [count, gauge]", "such as [[7, 20], [2, 16]]"),
            "Wires of a bundle, in place of od: count and gauge, or count and diameter.",
            LeftOut(None, "od or hose says it"),
            '[[7, 20], [2, "3 mm"]] | [[7, 20], [2, "0.12 in"]]',
        ),
        Field(
            "sleeve",
            Length("sleeve"),
            "Wall of a sleeve over it.",
            LeftOut(0.0, "none"),
            '"1 mm" | "0.04 in"',
        ),
        Field(
            "point",
            point("coordinate", 3, "xyz"),
            "A point of its axis; with direction or to.",
            LeftOut(None, "beside or spacer.length says it"),
            "[250, -100, 190] | [10, -4, 7.5]",
        ),
        Field(
            "direction", Direction(), "Where it runs from there.", LeftOut(None, "to says it"), "[0, 1, 0]"
        ),
        Field(
            "to",
            point("coordinate", 3, "xyz"),
            "A second point of its axis, in place of direction.",
            LeftOut(None, "direction says it"),
            "[260, 100, 195] | [10.4, 4, 7.7]",
        ),
        Field(
            "beside",
            Length("beside"),
            "Distance of its axis from that of the tube, to which it runs parallel; from a panel's face.",
            LeftOut(None, "point says it"),
            '"60 mm" | "2-1/4 in"',
        ),
        Field(
            "toward",
            Direction(),
            "The side of the tube on which it runs.",
            LeftOut(None, "upwards"),
            "[0, 0, 1]",
        ),
        Field(
            "next_supports",
            Several(Length("next-support"), 2, 2, "lengths [before, after]", "such as [10, 12]"),
            "Distance along it to the support before this one and the one after.",
            LeftOut(None, "not judged"),
            "[250, 300] | [10, 12]",
        ),
        Field(
            "rides_on",
            one_of("mount", "engine"),
            "What its far end is held on.",
            Assumed("engine", "most lines on a mount go to the engine", "assumed"),
            '"mount"',
        ),
    ),
    "The line: how thick it is, and where it runs.",
)


def _clamp(on: str) -> Table:
    return Table((CODE, *sizes("spacer or other clamp", on)))


_CLAMPS = Table(
    (
        Field("tube", _clamp("tube"), "The clamp on the tube.", LeftOut()),
        Field("line", _clamp("line"), "The clamp on the line.", LeftOut()),
    ),
    "The two clamps: measured sizes are better than the family's.",
)

_SPACER = Table(
    (
        Field(
            "length",
            Length("spacer"),
            "A spacer at hand, 0 for foot to foot: then the line's distance follows from it.",
            LeftOut(None, "by where the line runs"),
            '"12 mm" | "1/2 in"',
        ),
        Field(
            "place",
            Whole("bolt-place"),
            "Which of the bolt's places to build, as check lists them.",
            LeftOut(None, "the best"),
            "1",
        ),
    ),
    "The spacer between the clamps.",
)
_FASTENER = fastener("Hole in the panel for the bolt.")

KIND = Kind(
    "stand-off",
    "A line, hose, cable or bundle held off a tube by a pair of cushioned loop clamps on one bolt, "
    "or off a panel by one.",
    (
        Field("support", _SUPPORT, _SUPPORT.about, LeftOut()),
        Field(
            "line",
            _LINE,
            _LINE.about,
            Needed("write [line]: its name, its thickness, where it runs"),
        ),
        Field("clamps", _CLAMPS, _CLAMPS.about, LeftOut()),
        Field("spacer", _SPACER, _SPACER.about, LeftOut()),
        Field("fastener", _FASTENER, _FASTENER.about, LeftOut()),
        Field("bushings", BUSHINGS, BUSHINGS.about, LeftOut()),
    ),
    cross_check,
    job,
    starter,
)
