"""What a shop would ring up about, answered before it does."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.files.pack.contents import Contents
from clampwright.files.pack.plain_text import paragraph, title
from clampwright.layout.shop.told import FlatPart
from clampwright.quantities import show_angle
from clampwright.sheets.both_units import both


def questions(contents: Contents) -> Iterator[str]:
    """Each question with its answer."""
    yield from title("QUESTIONS, ANSWERED BEFORE YOU ASK")
    for question, answer in _asked(contents):
        yield ""
        yield question
        yield from paragraph(answer, indent=3)


def _asked(contents: Contents) -> Iterator[tuple[str, str]]:
    yield (
        "May I use another material, temper or thickness?",
        "No, not even a better one: bolt lengths and bushings are worked out for this thickness, the checks "
        "for this material. If you have the same alloy and temper to an equal specification, or cannot get "
        "it at all, ask.",
    )
    if contents.flat:
        yield "Are the holes final size? Pilot holes?", _holes(contents.flat)
        yield "Punched, drilled, waterjet, laser?", _how(contents)
        yield "Which way does the grain run?", _grain(contents.flat)
        yield "Bend radius?", _bends(contents.flat)
    yield "Edges?", _edges(contents)
    if contents.turned:
        yield "Bushings: what matters?", _turned(contents)
    if contents.flat:
        yield (
            "May I nest the parts otherwise, on other sheets?",
            _nested(contents),
        )
    yield (
        "Is this a part for a certified aircraft?",
        "No. It is for an experimental, amateur-built one. Nothing is to be certified but "
        "the material, where the drawing asks for it: send its certificate along.",
    )
    yield (
        "What if one comes out wrong?",
        "Do not weld, plug or bush a hole that is off, and do not straighten a bend back. Make it again, or "
        "ask.",
    )


def _holes(flat: tuple[FlatPart, ...]) -> str:
    said = "All holes are at final size unless marked as a pilot; no allowance is left for anything."
    pilots = [
        f"{part.number}: {', '.join(hole.label for hole in part.holes if hole.piloted)}"
        for part in flat
        if any(hole.piloted for hole in part.holes)
    ]
    if not pilots:
        return f"{said} There are no pilot holes."
    return (
        f"{said} Pilots, which the builder opens to size on the aircraft: {'; '.join(pilots)}. Leave those "
        "at the pilot size of the hole table; the cutting files have them so, the solids are at final size."
    )


def _how(contents: Contents) -> str:
    kerfs = [sheet.stock.kerf_mm for sheet in (contents.nest.sheets if contents.nest else ())]
    units = contents.flat[0].units
    between = f"; the nests leave {both(min(kerfs), units)} or more between parts" if kerfs else ""
    return (
        "As you like, as long as the holes come out within the drawing's limits: where your machine does not "
        "hold them, cut small and drill or ream to size. The cutting files are the true contour, no kerf "
        f"taken off{between}. Remove dross and heat-tinted metal."
    )


def _grain(flat: tuple[FlatPart, ...]) -> str:
    ways = {part.number: part.shop.grain for part in flat}
    if set(ways.values()) == {"any"}:
        return "Any way: nothing is asked."
    words = {
        "any": "any way",
        "along": "long side along the rolling direction",
        "across": "long side across the rolling direction",
    }
    return "; ".join(f"{number}: {words[way]}" for number, way in ways.items()) + "."


def _bends(flat: tuple[FlatPart, ...]) -> str:
    bent = [part for part in flat if part.bends]
    if not bent:
        return "There are no bends: every part is flat."
    said = [
        f"{part.number} {bend.label}: {show_angle(bend.angle_rad)} {bend.direction}, inside "
        f"{both(bend.inside_radius_mm, part.units)}"
        for part in bent
        for bend in part.bends
    ]
    return f"{'; '.join(said)}. Bend over the radius drawn, never sharper; scribe no line on the bend."


def _nested(contents: Contents) -> str:
    if contents.not_nested:
        numbers = ", ".join(part.number for part in contents.flat)
        return (
            f"You must: none is nested here, for the program that packed this failed at it ({numbers}: "
            f"{contents.not_nested}). Lay the flat patterns out yourself, and keep the grain where one is "
            "asked for. The order list has a blank for each part."
        )
    nests = contents.nest is not None and bool(contents.nest.sheets)
    offer = "Yes. The nested sheets are an offer; keep" if nests else "As you like, no nest is here: keep"
    said = f"{offer} the grain where one is asked for."
    left = contents.nest.left_out if contents.nest is not None else ()
    return " ".join((said, *(f"Not nested: {number}, {why}." for number, why in left)))


def _edges(contents: Contents) -> str:
    units = {job.recipe.shop.edge_break_mm: job.recipe.units for job in contents.bay.jobs[::-1]}
    breaks = [both(size, units[size]) for size in sorted(units)]
    sharp = breaks[0] if len(breaks) == 1 else f"{' or '.join(breaks)}, as each drawing says,"
    return (
        f"Deburr everything, holes on both sides. Break sharp edges by {sharp} at most; no nicks and no "
        "scribe lines: cracks begin there."
    )


def _turned(contents: Contents) -> str:
    said = (
        "Length, and ends square to the bore: they carry the bolt's pull. Part them off, then face both "
        "ends. One line of the turning sheet is one kind; bag each with its number (T1, T2 ...)."
    )
    long = [group.number for group in contents.turned if group.trim]
    if not long:
        return said
    return (
        f"{said} {', '.join(long)} {'is' if len(long) == 1 else 'are'} made longer on purpose: the builder "
        "trims each to its gap. Do not shorten them."
    )
