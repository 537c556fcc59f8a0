"""What stands round the tubes, as it is written: panels, bodies to keep away from, an engine that moves."""

from __future__ import annotations

import math

from clampwright.quantities import Vec3
from clampwright.quantities.directions import unit
from clampwright.recipe.blocks import Named
from clampwright.recipe.direction import Direction
from clampwright.recipe.fields import LEFT_OUT, Assumed, ByRule, Field, LeftOut, Table, Values
from clampwright.recipe.measures import Length
from clampwright.recipe.readers import OneOf, one_of, point
from clampwright.recipe.written import Entry
from clampwright.structure.surroundings import KeepOut, Panel
from clampwright.trade.materials import material_names
from clampwright.trade.sources import source
from clampwright.trade.tables import rule

DISTANCES = {
    "hot": ("keep-out-hot", "usual for a hot pipe without a shield"),
    "control": ("keep-out-control", "usual for a moving control"),
    "fuel": ("keep-out-fuel", "the least for a fuel line"),
    "other": ("component-clearance", "as from any component"),
}
"""For each kind of keep-out the rule for the distance from it, and what that is."""


def _panel_materials() -> tuple[str, ...]:
    return (*material_names(), "other")


_PANEL = Table(
    (
        Field(
            "point",
            point("coordinate", 3, "xyz"),
            "A point of the face that things are held on.",
            example="[0, 0, 0]",
        ),
        Field("normal", Direction(), "Where that face looks: out of the panel.", example="[1, 0, 0]"),
        Field(
            "thickness",
            Length("panel-thickness"),
            "Thickness of the panel where it is drilled, doubler and all.",
            ByRule("panel-thickness-default", "panel-thickness-default", "the thinnest accepted firewall"),
            '"0.5 mm" | "0.018 in"',
        ),
        Field(
            "material",
            OneOf(_panel_materials, "a sheet material"),
            "What it is made of.",
            Assumed("304", "usual for firewalls", "practice"),
            '"304"',
        ),
    )
)
_KEEP_OUT = Table(
    (
        Field(
            "from",
            point("coordinate", 3, "xyz"),
            "One end of its axis; of a box one corner.",
            example="[200, 0, -400] | [8, 0, -16]",
        ),
        Field(
            "to",
            point("coordinate", 3, "xyz"),
            "The other end; of a box the opposite corner.",
            example="[200, 300, -400] | [8, 12, -16]",
        ),
        Field(
            "od",
            Length("keep-out-od", "the outside diameter, lagging and all"),
            "Its outside diameter.",
            LeftOut(None, "it is a box along the world's axes"),
            '"45 mm" | "1-3/4 in"',
        ),
        Field(
            "distance",
            Length("keep-out-distance"),
            "Distance to keep from it.",
            LeftOut(None, "by rule for its kind"),
            '"60 mm" | "2-1/2 in"',
        ),
        Field(
            "rides_on",
            one_of("engine", "mount", "firewall", "cowl"),
            "What it is fixed to. What rides on the engine moves with it.",
            Assumed("engine", "the harder case", "assumed"),
            '"engine"',
        ),
        Field(
            "kind",
            one_of("hot", "control", "fuel", "other"),
            "What it is: a hot pipe, a moving control, a fuel line, or anything else.",
            Assumed("other", "the recipe does not say", "assumed"),
            '"hot"',
        ),
    )
)
SURROUNDINGS = (
    Field(
        "engine_moves",
        Length("engine-moves"),
        "How far the engine moves on its isolators, any way.",
        LeftOut(None, "not known"),
        '"8 mm" | "5/16 in"',
    ),
    Field(
        "panels",
        Named(_PANEL, "panels", "panel", "firewall"),
        "Flat panels, such as the firewall, each under its name.",
        LEFT_OUT,
    ),
    Field(
        "keep_outs",
        Named(_KEEP_OUT, "keep-outs", "keep-out", "exhaust"),
        "Bodies to keep away from, each under its name.",
        LEFT_OUT,
    ),
)
"""Keys that stand beside the tubes, in a recipe and in a shared file."""


def panels_of(values: Values) -> tuple[Panel, ...] | None:
    """The panels of a [structure] or a shared file; None where one of them has faults."""
    if "panels" not in values:
        return None
    panels = []
    for name, read in (values["panels"] or {}).items():
        if len(read) < len(_PANEL.fields):
            return None
        panels.append(Panel(name, read["point"], unit(read["normal"]), read["thickness"], read["material"]))
    return tuple(panels)


def keep_outs_of(entry: Entry, values: Values) -> tuple[KeepOut, ...]:
    """The keep-outs of a [structure] or a shared file, without those that have faults."""
    inside = entry.inside("keep_outs")
    named = values.get("keep_outs") or {}
    found = (_keep_out(inside.inside(name), name, read) for name, read in named.items())
    return tuple(keep_out for keep_out in found if keep_out is not None)


def _keep_out(entry: Entry, name: str, values: Values) -> KeepOut | None:
    if {"from", "to", "od"} <= values.keys():
        _has_extent(entry, values["from"], values["to"], values["od"])
    if len(values) < len(_KEEP_OUT.fields):
        return None
    distance = values["distance"]
    if distance is None:
        key, why = DISTANCES[values["kind"]]
        row = rule(key)
        shown = Length("keep-out-distance").show(row.value, entry.units)
        entry.inside("distance").assume(f"{shown} ({why}; {source(row.source).status})")
        distance = row.value
    return KeepOut(
        name, values["from"], values["to"], values["od"], distance, values["rides_on"], values["kind"]
    )


def _has_extent(entry: Entry, start: Vec3, end: Vec3, od: float | None) -> None:
    least = rule("recipe-keep-out-length-least").value
    show = Length("coordinate").show(least, entry.units)
    if od is not None:
        if math.dist(start, end) < least:
            hint = "from and to are the two ends of its axis; its round ends come on top"
            entry.inside("to").wrong(f"an axis at least {show} long", hint, said="from and to in one place")
        return
    flat = [axis for axis, a, b in zip("xyz", start, end, strict=True) if abs(a - b) < least]
    if flat:
        hint = "give its od if it is round; from and to of a box are two opposite corners"
        said = f"from and to with the same {' and '.join(flat)}"
        entry.inside("to").wrong(f"a box at least {show} along x, y and z", hint, said=said)
