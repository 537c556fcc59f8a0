"""At the engine mount: the fit-up plan, shims to have ready, and every stack from bolt head to nut."""

from __future__ import annotations

from collections.abc import Sequence

from clampwright.layout.from_mark import station_said
from clampwright.layout.on_feet import stands_on
from clampwright.layout.placed import ClampPlace, PlacedComponent, PlateLayout, Stack, StackItem
from clampwright.layout.said import named_list
from clampwright.quantities import show_length, show_torque
from clampwright.sheets.drill_steps import NOW
from clampwright.sheets.figures import figure
from clampwright.sheets.flow import Block, gap, heading, paragraph, ticked
from clampwright.sheets.hole_table import kept
from clampwright.sheets.ink import SMALL
from clampwright.sheets.plus_minus import behind_station, where_from
from clampwright.sheets.stations import marks_said
from clampwright.sheets.table import Heading, table
from clampwright.trade.bolts import bolt_names
from clampwright.trade.tables import rule

_COUNT = {2: "two", 3: "three"}
UNKNOWN_LENGTH = "no lengths of this screw in the tables: choose it by hand"
_UNKNOWN_TORQUE = "not known: ask the maker of bolt or screw"
PLACE_SAYS = (
    "The hole is as exact as it is drilled. Bolt comes ±: how far from it its bolt may come; play ±: what "
    "plate and foot give."
)
Row = tuple[str, str, str, str, str, str, str]
"""Where, what, stack, bolt, threads past the nut, torque, room for a tick."""


def fit_up_steps(layout: PlateLayout) -> tuple[str, ...]:
    """What to do at the mount, in order."""
    ways = {fit.hole: fit.way for fit in layout.fit_up.holes}
    clamps = [clamp.label for clamp in layout.clamps]
    now = [label for label in clamps if ways.get(label, NOW) == NOW]
    later = [label for label in ways if ways[label] != NOW]
    first = ", ".join(now) or "one clamp"
    steps = [
        "Put the clamps on their tubes at their stations, nuts finger tight; welds stay visible. A station "
        "is where to start.",
        f"Hang the plate on {first} and slide the clamps until the bolts drop in.",
        *feet_steps(layout),
    ]
    if later:
        steps.append(
            f"{', '.join(later)}: follow the plan below. A transferred hole is marked through the foot or "
            "lug that it meets, drilled off the mount, wood behind, and deburred on both sides."
        )
    least = rule("threads-showing-least").value
    steps += [
        "Component on, heads on its side, nuts under the plate or the clamp foot; torque the nuts.",
        f"Look: at least {least:g} {'thread' if least == 1 else 'threads'} past each nut, as the table says, "
        "no shank in the nut, nothing touches. Note the stations.",
        "Mark each nut with a line of paint. Check torque and clamps again after the first hours of running.",
    ]
    return tuple(steps)


def feet_steps(layout: PlateLayout) -> tuple[str, ...]:
    """Which feet the plate is set on, and how the gaps at the others are found before they are packed."""
    carry = stands_on(layout.clamps)
    others = tuple(clamp.label for clamp in layout.clamps if clamp.label not in carry)
    if not carry:
        return ()
    feet = "foot" if len(carry) == 1 else f"{_COUNT.get(len(carry), len(carry))} feet"
    set_on = f"Set the plate on the {feet} {named_list(carry)}, packed as listed"
    if not others:
        return (f"{set_on}. Never close a gap with the bolt.",)
    each = "each of them" if len(others) > 1 else "it"
    return (
        f"{set_on}; no packing yet at {named_list(others)}. Press it down on those {feet} by hand, no nut "
        f"tightened, and measure the gap at {named_list(others)} with a feeler gauge.",
        f"Then fill {each}, as the table of shims and bushings below says, to the gap found. Never close a "
        "gap with the bolt.",
    )


def fit_up_blocks(layout: PlateLayout, room: float) -> list[Block]:
    """Steps, plan and shims."""
    plan = layout.fit_up
    units = layout.recipe.units
    blocks = heading("At the engine mount, in this order", room)
    for number, text in enumerate(fit_up_steps(layout), 1):
        blocks += ticked(text, room, number=str(number))
    blocks += [gap(2.0), *heading("Fit-up plan", room), *kept(paragraph(_planned_for(layout), room, SMALL))]
    blocks += kept(paragraph(PLACE_SAYS, room, SMALL))
    headings = (
        Heading("hole", bold=True),
        Heading("way", wraps=True, bold=True),
        Heading(f"bolt comes ± {units}", "right"),
        Heading(f"play ± {units}", "right"),
        Heading("why, and what else would serve", wraps=True),
        Heading("done", "right"),
    )
    rows = [
        (
            fit.hole,
            fit.way,
            figure(fit.uncertainty_mm, units),
            figure(fit.clearance_mm, units),
            f"{fit.why} {f'Or: {fit.otherwise}' if fit.otherwise else ''}".strip(),
            "____",
        )
        for fit in plan.holes
    ]
    blocks += [*table(headings, rows, room, SMALL), gap(4.0)]
    return [*blocks, *_shims(layout, room)]


def _planned_for(layout: PlateLayout) -> str:
    """Where the plan's ± come from."""
    if said := where_from(layout):
        return said
    plan, units = layout.fit_up, layout.recipe.units
    given = "as the recipe says" if plan.error_given else "assumed, nobody stated it"
    return f"Planned for tubes measured to ± {show_length(plan.error_mm, units)} ({given})."


def _shims(layout: PlateLayout, room: float) -> list[Block]:
    units = layout.recipe.units
    if not layout.fit_up.shims:
        return []
    headings = (
        Heading("clamp", bold=True),
        Heading(f"gap {units}", "right"),
        Heading(f"from {units}", "right"),
        Heading(f"to {units}", "right"),
        Heading("have ready", wraps=True),
        Heading("found", "right"),
    )
    rows = [
        (
            shim.clamp,
            *(figure(v, units) for v in (shim.nominal_mm, shim.low_mm, shim.high_mm)),
            shim.advice,
            "________",
        )
        for shim in layout.fit_up.shims
    ]
    return [*heading("Shims and bushings to have ready", room), *table(headings, rows, room, SMALL), gap(4.0)]


def stack_blocks(layout: PlateLayout, room: float) -> list[Block]:
    """Each clamp and each component's bolts: where, stack from head to nut, bolt and torque."""
    units = layout.recipe.units
    headings = (
        Heading("at", bold=True, wraps=True),
        Heading("what", wraps=True),
        Heading("stack, from the bolt head to the nut", wraps=True),
        Heading("bolt", bold=True, wraps=True),
        Heading("threads past nut", "right"),
        Heading("torque", wraps=True),
        Heading("done", "right"),
    )
    rows = [_row(c.label, _clamp(c, layout), c.stack, units) for c in layout.clamps]
    for component in layout.components:
        stacks = component.stacks or component.screw_stacks
        for stack, labels in _same(component.holes, stacks):
            rows.append(_row(", ".join(labels), f"{component.name}, {len(labels)} off", stack, units))
        if component.holes[len(stacks) :]:
            rows.append(_without_stack(layout, component, component.holes[len(stacks) :]))
    text = "Torque at the nut, on top of the nut's own running torque, threads dry unless told otherwise."
    text = f"{text} {marks_said(layout)}".strip()
    return [
        *heading("Clamps and bolts", room),
        *kept(paragraph(text, room, SMALL)),
        *table(headings, rows, room, SMALL),
        gap(4.0),
    ]


def _row(at: str, what: str, stack: Stack, units: str) -> Row:
    return at, what, _layers(stack, units), _bolt(stack), threads_past(stack), torque(stack, units), "____"


def _without_stack(layout: PlateLayout, component: PlacedComponent, labels: Sequence[str]) -> Row:
    """The row of screws for which the tables have neither lengths nor nuts: what the order list has."""
    sizes = sorted({hole.fastener for hole in layout.holes if hole.label in labels})
    ordered = [line for line in layout.hardware if set(line.where.split(", ")) & set(labels)]
    known = "; ".join(line.part for line in ordered if line.part not in sizes)
    with_it = f" From the order list: {known}." if known else ""
    why = f"{UNKNOWN_LENGTH}.{with_it}"
    what = f"{component.name}, {len(labels)} off"
    return ", ".join(labels), what, why, " ".join(sizes), "?", _UNKNOWN_TORQUE, "____"


def _clamp(clamp: ClampPlace, layout: PlateLayout) -> str:
    units = layout.recipe.units
    station = station_said(layout.recipe.structure.tube(clamp.tube), clamp.station_mm, units)
    unsure = behind_station(clamp.label, layout)
    chosen = "" if clamp.station_given else " (station chosen)"
    return f"{clamp.clamp.part} on {clamp.tube} at {station}{unsure}, {clamp.side}{chosen}"


def _layers(stack: Stack, units: str) -> str:
    unknown = [] if stack.chosen or stack.bolt in bolt_names() else [UNKNOWN_LENGTH]
    return "; ".join([*(_layer(item, units) for item in stack.items), f"nut {stack.nut.part}", *unknown])


def _layer(item: StackItem, units: str) -> str:
    """Count, name, part and thickness, none of them twice."""
    count = f"{item.count} x " if item.count > 1 else ""
    name = item.part if item.part.startswith(item.name) else f"{item.name} {item.part}".strip()
    thick = figure(item.thickness_mm, units)
    return f"{count}{name}" if thick in item.part else f"{count}{name} {thick}"


def _bolt(stack: Stack) -> str:
    if stack.chosen is not None:
        return stack.chosen.length.part
    return f"none of {stack.bolt} fits" if stack.bolt in bolt_names() else stack.bolt


def threads_past(stack: Stack) -> str:
    """Full threads expected past the nut, "?" where bolt or height of the nut is not known."""
    showing = None if stack.chosen is None else stack.chosen.threads_showing
    return "?" if showing is None else f"{showing:.1f}"


def torque(stack: Stack, units: str = "mm") -> str:
    """Torque window in both units, the recipe's first, or that none is known."""
    if stack.torque is None:
        return _UNKNOWN_TORQUE
    return show_torque(stack.torque.low_nm, stack.torque.high_nm, units)


def _same(labels: Sequence[str], stacks: Sequence[Stack]) -> list[tuple[Stack, list[str]]]:
    """Equal stacks with the holes that have them."""
    groups: list[tuple[Stack, list[str]]] = []
    for label, stack in zip(labels, stacks, strict=False):
        found = next((held for known, held in groups if known == stack), None)
        if found is None:
            groups.append((stack, [label]))
        else:
            found.append(label)
    return groups
