"""How to measure slanted tubes alone with a tape, a straightedge and marks that harm nothing: two pages."""

from __future__ import annotations

from collections.abc import Sequence

from clampwright.quantities import show_fraction, show_length
from clampwright.sheets.flow import Block, gap, heading, paragraph, ticked, warning
from clampwright.sheets.ink import SMALL
from clampwright.sheets.lettering import width
from clampwright.sheets.structure_eyes import HANDED
from clampwright.sheets.survey_datum_picture import NAME_MOST, datum_picture
from clampwright.sheets.survey_pictures import (
    ring_picture,
    sag_and_hold_picture,
    strength_picture,
    three_ways_picture,
)
from clampwright.sheets.survey_typing import typing_blocks
from clampwright.structure.survey.model import Datum, Survey
from clampwright.trade.tables import rule

BEFORE = (
    "The kit maker's drawings and instructions come first, then the regulations and licensed practice. Where "
    "the maker gives coordinates, use those, and measure to check them.",
    "Aircraft chocked or on its stands, so that it cannot roll, rock or settle: one that moves spoils every "
    "height and plumb line. Engine cold. Ignition off, key out; treat the propeller as if it could fire and "
    "stay out of its disc.",
    "No centre punch, no scriber, no drill and no file on a tube, not even lightly: a nick in a welded tube "
    "is where a crack begins. Every mark goes on masking tape, or is paint pen on paint.",
    "Never a pencil or anything with carbon on exhaust parts: the carbon goes into the metal when it is hot "
    "and it cracks there (AC 43.13-1B 8-49). No pencil on bare aluminium either.",
    "When done, take off every piece of tape, paper and cord: none of it stays near an exhaust.",
)
DATUM = Datum("F1", "y", "F2", plane_axis="z", in_plane="F3")
"""What the how-to speaks of where there is no survey yet."""

THREE = (
    "Three datum marks on the firewall, {0}, {1} and {2}: as far apart as it allows, not in one line. A "
    "rivet's or bolt's middle will do, or a cross on masking tape. They make the frame: {0} is its origin, "
    "{0} to {1} gives the direction of {axis}, {2} says how the frame lies about that line. With two marks "
    "it could still turn."
)
TWO = (
    "Two datum marks, {0} and {1}: side by side rather than one above the other, as far apart as the "
    "structure allows. A rivet's or bolt's middle will do, or a cross on masking tape. They make the frame: "
    "{0} is its origin, {axis} runs level from it toward {1}, z is plumb: the aircraft has to be levelled as "
    "its maker says, and stay so."
)
MIRRORED = (
    f"{HANDED} Taken the other way round the figure is a mirror image, and so is every part made from it."
)
RINGS = (
    "Two rings on each tube that something is to hang on: as far apart as the tube allows, clear of the "
    "welds, where you get at them. Wrap a strip of paper with straight edges once round, tightly. Where its "
    "edges meet, the ring is square to the tube. Hold it with tape and draw along one edge, on masking tape "
    "or with a paint pen. The ring stands for the point in its middle, on the tube's axis. Give each ring a "
    "letter.",
    "The outside diameter at each ring, over paint or sleeve, with calipers, twice, a quarter turn apart. "
    "And how far the tube runs on beyond each ring, to where the axes meet: beyond in the file.",
)
DISTANCES = (
    "Across (centre to centre), the everyday way: lay the tape along the sides of the tubes so that it "
    "touches each at its ring, both on the same side, and read at the rings. It runs beside the axes and "
    "reads the distance between them: of 3/4 in tubes 10 in apart or more, and from a mark to such a tube, "
    "less than {across} too much.",
    "Outside or inside, over or between both tubes, where the tape cannot touch both on one side: with big "
    "calipers, or against two straightedges held square. Aim at the middle of each tube. The file allows for "
    "the diameters and the slant; half the sum of an outside and an inside reading needs neither.",
    "Alone: hook the end of the tape nowhere, its hook is loose on purpose. Hold its 1 in (or 100 mm) mark "
    "at the first ring; a loop of cord or masking tape pulls the end. Write what you read, and beside it "
    "where the tape was held; subtract at the desk.",
    "Straight: round no other tube, hose or wire. A sag of 1/2 in in 36 in reads {sag} too much.",
    "Every distance twice, the second from its other end. Where the two differ by more than {differ}, do "
    "both again. Type their mean.",
)
CHOICE = (
    "Each new ring: three distances to points already known, and one spare. The distance along the tube "
    "between its two rings counts as one. The spare is what finds the slip: without it a wrong figure "
    "agrees with everything.",
    "Strong: lines that meet at the ring from directions far apart. Weak: the ring nearly in the plane of "
    "the three known points. Then add a fourth point well out of that plane, or a height.",
    "Diagonals: wherever four points make a frame, measure both, as when squaring one. They check more than "
    "another side would.",
    "Three distances fit two places, mirror images of each other in the plane of the three points. Write in "
    "the file on which side the ring lies, or roughly where it is.",
)
PLUMB = (
    "Only where z is to be plumb (level = true in the file): with the aircraft levelled as its maker says.",
    "Heights: a clear hose with water, no bubbles, both ends open: the water stands at one height at both. "
    "Measure from it up or down to each ring's middle.",
    "Plumb line: from the ring to masking tape on the floor. Let the bob hang in a can of water until it is "
    "still. Distances between floor marks are easy and straight.",
    "Slope: digital level on the tube, zeroed on what the aircraft is levelled by. Read it, turn it end for "
    "end, read again, and take the mean: its own error goes.",
)
AFTER = (
    "clampwright survey new FILE writes a file to type into; clampwright survey sheet FILE prints this form "
    "for your own tubes, with what to measure in which order.",
    "clampwright survey solve FILE gives the tubes and their ±. It names a reading that the others "
    "contradict and what it should probably be, and which one to take next: keep the marks on until it is "
    "content.",
)


def how_to_blocks(room: float, survey: Survey | None = None) -> list[Block]:
    """The how-to in a column, with its pictures; a survey's own marks and rings by their names."""
    datum = DATUM if survey is None else survey.datum
    return [
        *_points("Before you start", BEFORE, room),
        *_points("1  Marks", (_marks(datum), MIRRORED), room),
        *_datum_drawn(datum, room),
        *_ticks(RINGS, room),
        *_picture(ring_picture(room)),
        *_points("2  Distances", [text.format(**_figures()) for text in DISTANCES[:2]], room),
        *_picture(three_ways_picture(room)),
        *_ticks([text.format(**_figures()) for text in DISTANCES[2:]], room),
        *_picture(sag_and_hold_picture(room)),
        *_points("3  Which, and how many", CHOICE, room),
        *_picture(strength_picture(room)),
        *_points("4  Heights, plumb lines, slopes", PLUMB, room),
        *_points("5  Afterwards", AFTER, room),
        *typing_blocks(room, survey),
        *_how_good(room),
    ]


def _marks(datum: Datum) -> str:
    """What the marks of a datum are for."""
    said = TWO if datum.level or datum.in_plane is None else THREE
    return said.format(datum.origin, datum.through, datum.in_plane, axis=datum.axis)


def _datum_drawn(datum: Datum, room: float) -> list[Block]:
    """The picture of the marks, where they lie as it shows them and their names are short."""
    names = (datum.origin, datum.through, datum.in_plane or "")
    as_drawn = not datum.level and datum.axis == "y" and datum.plane_axis == "z"
    if not as_drawn or any(width(name, SMALL, True) > NAME_MOST for name in names):
        return []
    return _picture(datum_picture(room, names))


def _picture(block: Block) -> list[Block]:
    return [gap(1.0), block, gap(2.0)]


def _points(title: str, texts: Sequence[str], room: float) -> list[Block]:
    return [*heading(title, room), *_ticks(texts, room), gap(1.5)]


def _ticks(texts: Sequence[str], room: float) -> list[Block]:
    return [block for text in texts for block in ticked(text, room)]


def _figures() -> dict[str, str]:
    """Figures of the text, from the rules; each in inches with millimetres behind it."""
    inch, metric = rule("survey-tape-inch").value, rule("survey-tape-metric").value
    return {
        "across": _both(rule("tape-across-reads-most").value),
        "sag": _both(rule("tape-sag-example").value),
        "differ": f"{show_fraction(inch)} in ({metric:g} mm)",
    }


def _how_good(room: float) -> list[Block]:
    tape, worst = rule("survey-tape-inch").value, rule("survey-how-to-worst").value
    said = (
        f"On the example mount (10 tubes, 18 in deep), with a tape good to ± {show_fraction(tape)} in, "
        f"measured as on this sheet with one spare a ring: the middle of every ring within ± {_both(worst)} "
        "along each axis, 95 times in 100. With a tape good to half as much, half of that. Computed, not "
        "tried on an aircraft; your own figure stands in the report of your survey."
    )
    return [
        *heading("How good it is", room),
        *paragraph(said, room),
        *paragraph(
            "No published method for this was found. Unless a source is named, what stands here is common "
            "practice or the project's own reasoning.",
            room,
        ),
        *warning(
            "A structure measured by hand is not the maker's drawing: fit a paper or card trial first.", room
        ),
    ]


def _both(mm: float) -> str:
    return f"{show_length(mm, 'in')} ({show_length(mm, 'mm')})"
