"""The kind "accessory plate" and its keys: a flat plate on loop clamps that carries components."""

from __future__ import annotations

from clampwright.recipe.blocks import Blocks
from clampwright.recipe.clamp_fields import CODE, TUBE_NAME, fastener, sizes
from clampwright.recipe.component_fields import MASS
from clampwright.recipe.direction import Direction
from clampwright.recipe.fields import LEFT_OUT, NEEDED, Assumed, ByRule, Field, LeftOut, Needed, Table
from clampwright.recipe.kind import Kind
from clampwright.recipe.measures import Angle, Increment, Length
from clampwright.recipe.plate_faults import cross_check
from clampwright.recipe.plate_job import job
from clampwright.recipe.plate_starter import starter
from clampwright.recipe.readers import HoleSize, OneOf, Several, Text, Whole, counted, one_of, point
from clampwright.trade.fasteners import fastener_names
from clampwright.trade.materials import material_names

_SIDE = one_of("inboard", "outboard")

_TURNS = 'such as ["left", "right"]; on one tube a plate is free to turn'
_FASTENER = fastener("Hole in the plate for a clamp bolt.")
_MEASURED = sizes("plate")

_CLAMP_AT = Table(
    (
        Field("tube", TUBE_NAME, "The tube that this clamp is on.", NEEDED, '"upper"'),
        Field(
            "station",
            Length("station"),
            "Distance of the clamp's middle from the tube's start.",
            LeftOut(None, "the tool chooses"),
            '"150 mm" | "6 in"',
        ),
        Field(
            "side",
            _SIDE,
            "Hole towards the other tubes, or away.",
            LeftOut(None, "as clamps.side"),
            '"outboard"',
        ),
        *_MEASURED,
    )
)

_CLAMPS = Table(
    (
        Field(
            "on",
            counted(TUBE_NAME, "on", "names of tubes", _TURNS, no_repeats=True),
            "Tubes that carry the plate.",
            LeftOut(None, "every tube of the structure, if they are few"),
            '["upper", "lower"]',
        ),
        Field(
            "each",
            Whole("each"),
            "Clamps that the tool sets on each tube.",
            LeftOut(None, "two"),
            "2",
        ),
        Field(
            "side",
            _SIDE,
            "Holes towards the other tubes, or away from them.",
            Assumed("inboard", "the smaller plate", "assumed"),
            '"inboard"',
        ),
        CODE,
        *_MEASURED,
        Field(
            "at",
            Blocks(_CLAMP_AT, "clamps", "clamps.at", "one clamp leaves a plate free to turn"),
            "One block for each clamp. Where there is any, the tool sets only these.",
            LeftOut(()),
        ),
    ),
    "The clamps: measured sizes are better than the family's.",
)

_LIGHTENING = Table(
    (
        Field(
            "at",
            point("place", 2, "xy"),
            "Middle of the hole.",
            LeftOut(None, "where there is most room"),
            "[0, 0]",
        ),
        Field(
            "diameter",
            Length("lightening"),
            "Its diameter.",
            LeftOut(None, "the largest that keeps its distances"),
            '"25 mm" | "1 in"',
        ),
    )
)

_PLATE = Table(
    (
        Field(
            "material",
            OneOf(material_names, "a sheet material"),
            "Alloy and temper.",
            Assumed("6061-T6", "common for flat plates", "practice"),
            '"6061-T6"',
        ),
        Field(
            "thickness",
            Length("thickness"),
            "Thickness of the sheet.",
            ByRule("plate-thickness-default", "plate-thickness-default", "stiff enough for small components"),
            '"2.5 mm" | "0.090 in"',
        ),
        Field(
            "outline",
            one_of("rounded rectangle", "rounded hull", "polygon"),
            "Shape of the plate.",
            Assumed("rounded rectangle", "the easiest to mark and cut", "assumed"),
            '"rounded hull"',
        ),
        Field(
            "points",
            counted(
                point("place", 2, "xy"),
                "points",
                "corners [x, y]",
                "such as [[-80, -50], [80, -50], [80, 50]]",
            ),
            "Corners of a polygon, counted from the middle of the clamp holes.",
            LeftOut(()),
            "[[-100, -60], [100, -60], [100, 60], [-100, 60]] | [[-4, -2.5], [4, -2.5], [4, 2.5], [-4, 2.5]]",
        ),
        Field(
            "margin",
            Length("margin"),
            "Plate beyond hole centres and footprints.",
            LeftOut(None, "by the edge distance"),
            '"10 mm" | "3/8 in"',
        ),
        Field(
            "corner_radius",
            Length("corner-radius"),
            "Radius of the plate's corners.",
            LeftOut(None, "by rule"),
            '"6 mm" | "1/4 in"',
        ),
        Field(
            "toward",
            Direction(),
            "Where the component side looks, in the world.",
            LeftOut(None, "upwards"),
            "[0, 0, 1]",
        ),
        Field(
            "stand_off",
            Length("stand-off"),
            "Gap kept between the plate and the highest clamp foot, filled by bushings.",
            LeftOut(0.0, "none"),
            '"6 mm" | "1/4 in"',
        ),
        Field(
            "round_to",
            Increment("round-to"),
            "Increment of sizes and hole places; 0 leaves them exact.",
            ByRule("round-to-metric", "round-to-inch", "what a person can mark"),
            '"0.5 mm" | "1/64 in"',
        ),
        Field(
            "lightening",
            Blocks(_LIGHTENING, "lightenings", "plate.lightening"),
            "One block for each lightening hole.",
            LeftOut(()),
        ),
        Field(
            "sheet",
            Several(Length("sheet"), 2, 2, "lengths [x, y]", "such as [24, 24]"),
            "Stock sheet that it is cut from.",
            LEFT_OUT,
            "[600, 600] | [24, 24]",
        ),
    ),
    "The plate.",
)

_CARRIED = Table(
    (
        Field("name", Text("the component's name"), "What it is.", NEEDED, '"coil pack"'),
        MASS,
        Field(
            "at",
            point("place", 2, "xy"),
            "Its origin, counted from the middle of the clamp holes.",
            LeftOut(None, "the tool places it"),
            "[0, 0]",
        ),
        Field(
            "turn",
            Angle("turn"),
            "Turn on the plate, counter-clockwise seen from the component side.",
            LeftOut(0.0, "none"),
            '"90 deg"',
        ),
        Field(
            "holes",
            counted(point("place", 2, "xy"), "holes", "places [x, y]", "such as [[-1, 0], [1, 0]]"),
            "Its mounting holes, counted from its own origin.",
            NEEDED,
            "[[-40, -25], [40, -25], [40, 25], [-40, 25]] | [[-1.5, -1], [1.5, -1], [1.5, 1], [-1.5, 1]]",
        ),
        Field(
            "bolt",
            OneOf(fastener_names, "a bolt or screw size"),
            "What goes through its holes.",
            Assumed("AN3", "as the clamps", "assumed"),
            '"AN3"',
        ),
        Field(
            "hole", HoleSize(), "Their size in the plate.", LeftOut(None, "the drill for the bolt"), '"#11"'
        ),
        Field("lug", Length("lug"), "Thickness of its mounting lug.", LEFT_OUT, '"3 mm" | "1/8 in"'),
        Field(
            "body",
            Several(Length("body"), 3, 3, "lengths [length, width, height]", "such as [4, 3, 2.2]"),
            "Length, width and height of the box round it, with its origin in the middle.",
            LEFT_OUT,
            "[100, 75, 55] | [4, 3, 2.2]",
        ),
        Field(
            "cg_height",
            Length("cg-height"),
            "Height of its centre of gravity above the plate.",
            LeftOut(None, "half its height"),
            '"28 mm" | "1.1 in"',
        ),
    )
)

KIND = Kind(
    "accessory plate",
    "A flat plate on cushioned loop clamps on two or more tubes, carrying components.",
    (
        Field("fastener", _FASTENER, _FASTENER.about, LeftOut()),
        Field("clamps", _CLAMPS, _CLAMPS.about, LeftOut()),
        Field("plate", _PLATE, _PLATE.about, LeftOut()),
        Field(
            "carries",
            Blocks(_CARRIED, "components", "carries"),
            "What the plate carries: one block for each component.",
            Needed("what the plate carries decides its size and whether it will do"),
        ),
    ),
    cross_check,
    job,
    starter,
)
