"""The kind "component bushings" and its keys: a component with mounting holes, held without a plate."""

from __future__ import annotations

from clampwright.recipe.blocks import Named
from clampwright.recipe.bushing_faults import cross_check
from clampwright.recipe.bushing_fields import BUSHINGS
from clampwright.recipe.bushing_job import job
from clampwright.recipe.bushing_starter import starter
from clampwright.recipe.clamp_fields import CODE, TUBE_NAME, fastener, sizes
from clampwright.recipe.component_fields import MASS
from clampwright.recipe.direction import Direction
from clampwright.recipe.fields import LEFT_OUT, NEEDED, Assumed, Field, LeftOut, Needed, Table
from clampwright.recipe.kind import Kind
from clampwright.recipe.limits import limits
from clampwright.recipe.measures import Angle, Length
from clampwright.recipe.readers import Flag, HoleSize, Several, Text, Whole, counted, one_of, point


def _each_lug(of: str, what: str, hint: str) -> Several:
    """A list with a length for each lug."""
    return Several(Length(of), int(limits("lugs").least), int(limits("lugs").most), what, hint)


_COMPONENT = Table(
    (
        Field("name", Text("the component's name"), "What it is.", NEEDED, '"separator"'),
        MASS,
        Field(
            "holes",
            counted(
                point("place", 2, "xy"),
                "lugs",
                "places [x, y]",
                "such as [[-1, 0], [1, 0]]; about one bolt it is free to turn",
            ),
            "Its mounting holes, counted from its own origin; z comes out of it, away from the tubes.",
            NEEDED,
            "[[-40, -25], [40, -25], [0, 25]] | [[-1.5, -1], [1.5, -1], [0, 1]]",
        ),
        Field(
            "lug",
            Length("lug", "lugs = [...] is for lugs that differ"),
            "Thickness of its lugs, where they are alike.",
            LEFT_OUT,
            '"3 mm" | "1/8 in"',
        ),
        Field(
            "lugs",
            _each_lug("lug", "thicknesses, one for each hole", "such as [3, 3, 5]"),
            "Thickness of each lug, where they differ.",
            LEFT_OUT,
            "[3, 3, 5] | [0.125, 0.125, 0.2]",
        ),
        Field(
            "near_faces",
            _each_lug("near-face", "heights, one for each hole", "such as [0, 0, 5]"),
            "Height of each lug's near face, which lies on the bushing, over its own x and y.",
            LeftOut(None, "all 0"),
            "[0, 0, 5] | [0, 0, 0.2]",
        ),
        Field(
            "hole",
            HoleSize(),
            "Diameter of the holes in its lugs, measured.",
            LeftOut(None, "the drill for the bolt"),
            '"5.2 mm" | "0.2 in"',
        ),
        Field(
            "body",
            Several(Length("body"), 3, 3, "lengths [length, width, height]", "such as [4, 3, 2.2]"),
            "Length, width and height of the box round it, with its origin in the middle.",
            LEFT_OUT,
            "[100, 75, 55] | [4, 3, 2.2]",
        ),
        Field(
            "body_base",
            Length("near-face"),
            "Height of the box's underside: below 0 where it hangs below the lugs.",
            LeftOut(0.0, "0"),
            '"-10 mm" | "-3/8 in"',
        ),
        Field(
            "cg",
            point("place", 3, "xyz"),
            "Its centre of gravity, counted from its own origin.",
            LeftOut(None, "half way up over the middle of its holes"),
            "[0, 0, 25] | [0, 0, 1]",
        ),
        Field(
            "rides_on",
            one_of("mount", "engine"),
            "What the tubes that hold it are fixed to.",
            Assumed("mount", "tubes are mostly the mount's", "assumed"),
            '"mount"',
        ),
    ),
    "The component, in its own frame.",
)

_POSE = Table(
    (
        Field(
            "at",
            point("coordinate", 3, "xyz"),
            "Where its origin goes, about; exactly, where it is fixed.",
            LeftOut(None, "wherever it fits"),
            "[250, 0, 130] | [10, 0, 5]",
        ),
        Field(
            "within",
            Length("within"),
            "How far from there it may come to lie, square to up.",
            LeftOut(None, "by rule"),
            '"60 mm" | "2-1/2 in"',
        ),
        Field(
            "up",
            Direction(),
            "Where its z looks, in the world: the side of the tubes that it is on.",
            LeftOut(None, "any side"),
            "[0, 0, 1]",
        ),
        Field(
            "along",
            Direction(),
            "Where its x points, in the world.",
            LeftOut(None, "any way"),
            "[1, 0, 0]",
        ),
        Field(
            "turn_within",
            Angle("turn-within"),
            "How far its x may turn from there.",
            LeftOut(None, "by rule"),
            '"20 deg"',
        ),
        Field(
            "fixed",
            Flag(),
            "Whether at, up and along are exact, and the component does not move.",
            LeftOut(False, "false"),
            "true",
        ),
        Field(
            "stand_off",
            Length("stand-off"),
            "Gap kept between the lowest lug and the highest clamp foot.",
            LeftOut(0.0, "none"),
            '"6 mm" | "1/4 in"',
        ),
    ),
    "What is known of where it goes. The tool finds the rest.",
)

_MEASURED = sizes("bushing or lug")
_CLAMPS = Table(
    (
        Field(
            "on",
            counted(TUBE_NAME, "mount-on", "names of tubes", 'such as ["left", "right"]', no_repeats=True),
            "Tubes that may hold it.",
            LeftOut(None, "every tube of the structure"),
            '["upper", "lower"]',
        ),
        CODE,
        *_MEASURED,
        Field(
            "tubes",
            Named(Table(_MEASURED), "clamp-tubes", "tube", "upper"),
            "Sizes of the clamps of one tube, where they differ, under the tube's name.",
            LEFT_OUT,
        ),
    ),
    "The clamps: measured sizes are better than the family's.",
)
_FASTENER = fastener()

KIND = Kind(
    "component bushings",
    "A component with 2 to 6 mounting holes, each on a cushioned loop clamp with a bushing; no plate.",
    (
        Field(
            "show",
            Whole("show"),
            "How many of the next best answers to show.",
            LeftOut(None, "three"),
            "3",
        ),
        Field(
            "component",
            _COMPONENT,
            _COMPONENT.about,
            Needed("write [component] with its name, mass and holes"),
        ),
        Field("pose", _POSE, _POSE.about, LeftOut()),
        Field("fastener", _FASTENER, _FASTENER.about, LeftOut()),
        Field("clamps", _CLAMPS, _CLAMPS.about, LeftOut()),
        Field("bushings", BUSHINGS, BUSHINGS.about, LeftOut()),
    ),
    cross_check,
    job,
    starter,
)
