"""Faults of an accessory plate's recipe that no key has by itself."""

from __future__ import annotations

from clampwright.quantities import show_length
from clampwright.recipe.clamp_faults import clamp_faults
from clampwright.recipe.fastener_faults import holes_apart, nut_fits_bolt
from clampwright.recipe.fields import Values
from clampwright.recipe.polygon import crossing_sides, on_a_line, repeated_corner
from clampwright.recipe.written import Entry, quoted
from clampwright.structure.tubes import Structure
from clampwright.trade.holes import hole_window
from clampwright.trade.tables import rule


def cross_check(entry: Entry, values: Values, structure: Structure | None) -> None:
    """Note what does not fit together. Values that could not be read are not judged again."""
    zone, fastener, plate = (values.get(key) or {} for key in ("zone", "fastener", "plate"))
    nut_fits_bolt(entry.inside("fastener"), fastener, zone)
    _outline(entry.inside("plate"), plate)
    _margin(entry.inside("plate"), plate, fastener)
    _components(entry.inside("carries"), values.get("carries") or ())
    clamp_faults(entry.inside("clamps"), values.get("clamps") or {}, structure)


def _outline(entry: Entry, values: Values) -> None:
    if not {"outline", "points"} <= values.keys():
        return
    points, is_polygon = values["points"], values["outline"] == "polygon"
    if is_polygon and not points:
        entry.inside("points").wrong(
            "the corners of the polygon", "such as points = [[-4, -3], [4, -3], [0, 3]]"
        )
    elif points and not is_polygon:
        hint = 'for these corners write outline = "polygon"; else delete points'
        entry.inside("points").wrong(f'no points with outline = "{values["outline"]}"', hint, at_key=True)
    elif is_polygon:
        _corners(entry.inside("points"), points)
    if is_polygon and values.get("margin") is not None:
        hint = "a polygon is cut as its points say: delete margin"
        entry.inside("margin").wrong('no margin with outline = "polygon"', hint, at_key=True)


def _corners(entry: Entry, points: tuple[tuple[float, float], ...]) -> None:
    apart = rule("recipe-hole-apart-least").value
    repeat = repeated_corner(points, apart)
    if repeat is not None:
        hint = "the last corner joins the first by itself: delete one of the two"
        late, early = (repeat, repeat - 1) if repeat else (len(points) - 1, 0)
        said = f"corner {late + 1} on corner {early + 1}"
        entry.inside(late).wrong(f"corners at least {show_length(apart, entry.units)} apart", hint, said=said)
        return
    if on_a_line(points, apart):
        entry.wrong("corners with an area between them", "they all lie on one line", said="no area")
        return
    crossing = crossing_sides(points)
    if crossing is not None:
        one, two = (f"the side from corner {i + 1} to {(i + 1) % len(points) + 1}" for i in crossing)
        said = f"{one} meets {two}"
        entry.wrong(
            "an outline that does not cross itself", "give the corners in order round the plate", said=said
        )


def _margin(entry: Entry, values: Values, fastener: Values) -> None:
    """The edge must not cut into the clamp holes."""
    if values.get("margin") is None or not {"bolt", "hole"} <= fastener.keys():
        return
    diameter = fastener["hole"] or hole_window(fastener["bolt"]).drill.diameter_mm
    if values["margin"] <= diameter / 2:
        expected = f"a margin larger than half a clamp hole, {show_length(diameter / 2, entry.units)}"
        hint = "the margin counts from hole centres; leave it out for a proper edge distance"
        entry.inside("margin").wrong(expected, hint)


def _components(entry: Entry, carried: tuple[Values, ...]) -> None:
    names: dict[str, int] = {}
    for i, values in enumerate(carried):
        here = entry.inside(i)
        if "name" in values and names.setdefault(values["name"].casefold(), i) != i:
            here.inside("name").wrong(
                "a name of its own for each component", "number them, such as coil 1, coil 2"
            )
        holes_apart(here.inside("holes"), values.get("holes") or ())
        _centre_of_gravity(here.inside("cg_height"), values)


def _centre_of_gravity(entry: Entry, values: Values) -> None:
    height, body = values.get("cg_height"), values.get("body")
    if height is None or body is None or height <= body[2]:
        return
    name = quoted(values["name"]) if "name" in values else "the component"
    expected = f"a height within {name}, at most {show_length(body[2], entry.units)}"
    entry.wrong(expected, "body is length, width, height")
