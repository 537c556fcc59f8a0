"""One panel for each bolt: its stack drawn from head to nut, and all that is needed to set its clamps."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from clampwright.layout.bushing_parts import BushingPart
from clampwright.layout.cut_long import as_marked
from clampwright.layout.joined import Joined, Joint, Loop, line_named
from clampwright.layout.known_to import known
from clampwright.layout.placed import StackItem
from clampwright.quantities import show_length
from clampwright.sheets.bolt_way import bolt_way
from clampwright.sheets.both_units import both
from clampwright.sheets.drawing import Item, Path, Text, moved
from clampwright.sheets.facts import Fact, fact_block
from clampwright.sheets.fit_up_sheet import torque
from clampwright.sheets.flow import Block, paragraph
from clampwright.sheets.ink import FRAME, HEAD
from clampwright.sheets.lettering import shortened
from clampwright.sheets.plus_minus import NOTHING, cells, in_words
from clampwright.sheets.screws import screw_joints, without_stack
from clampwright.sheets.stack_picture import picture_height, stack_picture
from clampwright.sheets.trimming import trim_words
from clampwright.sheets.where_on_tube import (
    clock_words,
    face_clock,
    feet_clock,
    station_words,
    tube_size,
    wrap_words,
)
from clampwright.trade.bolts import bolt_names

_TITLE, _AFTER, _GUTTER = 6.0, 4.0, 4.0
_PICTURE_SHARE = 0.46
DRAG = "on top of the nut's own drag: the torque that turns it on against its lock"


def joint_panels(layout: Joined, room: float) -> list[Block]:
    """A panel a bolt, in the layout's order; equal bolts of one component that hold no clamp share one."""
    panels = [_panel(group, layout, room) for group in grouped((*layout.joints, *screw_joints(layout)))]
    for name, holes in without_stack(layout):
        panels += paragraph(f"{', '.join(holes)}   {name}: no screw, nut or length in the tables.", room)
    return panels


def grouped(joints: Sequence[Joint]) -> list[tuple[Joint, ...]]:
    """The joints, those without clamps together where owner and stack are the same."""
    groups: list[list[Joint]] = []
    for joint in joints:
        like = (g for g in groups if not joint.clamps and not g[0].clamps and _same(g[0], joint))
        found = next(like, None)
        if found is None:
            groups.append([joint])
        else:
            found.append(joint)
    return [tuple(group) for group in groups]


def _same(one: Joint, other: Joint) -> bool:
    return (one.owner, one.stack, one.axis) == (other.owner, other.stack, other.axis)


def _panel(group: tuple[Joint, ...], layout: Joined, room: float) -> Block:
    joint, units = group[0], layout.recipe.units
    wide = room * _PICTURE_SHARE
    names = layer_names(joint, layout)
    said = fact_block(joint_facts(joint, layout), room - wide - _GUTTER)
    high = max(said.height, picture_height(joint.stack, wide, units, names))
    picture = stack_picture(joint.stack, (0.0, 0.0 - high, wide, 0.0), units, names)
    title = shortened(_title(group, layout), room, HEAD, True)
    items: list[Item] = [
        Path(((0.0, 0.0), (room, 0.0)), FRAME),
        Text((0.0, -HEAD - 1.0), title, HEAD, bold=True),
        *moved(picture, (0.0, -_TITLE)),
        *moved(said.items, (wide + _GUTTER, -_TITLE)),
    ]
    return Block(_TITLE + high + _AFTER, tuple(items))


def _title(group: tuple[Joint, ...], layout: Joined) -> str:
    joint = group[0]
    tubes = dict.fromkeys(loop.tube for loop in clamps_of(joint, layout) if loop.tube != joint.owner)
    held = "" if joint.owner in joint.clamps else f"{joint.owner} "
    where = f"on {' and '.join(tubes)}" if tubes else ""
    count = f", {len(group)} off" if len(group) > 1 else ""
    labels = ", ".join(each.label for each in group)
    return f"{labels}   {held}{where}".rstrip() + count


def clamps_of(joint: Joint, layout: Joined) -> tuple[Loop, ...]:
    """The clamps on a bolt, in the order in which their feet lie from the head."""
    found = [loop for loop in layout.loops if loop.label in joint.clamps]
    return tuple(sorted(found, key=lambda loop: _depth(loop, joint)))


def _depth(loop: Loop, joint: Joint) -> float:
    """Depth of the middle of its feet below the head."""
    inside = loop.clamp.seat_mm - loop.clamp.feet_mm / 2
    feet = [c + inside * n for c, n in zip(loop.centre, loop.bolt_axis, strict=True)]
    return sum((f - h) * a for f, h, a in zip(feet, joint.head, joint.axis, strict=True))


def bushings_of(joint: Joint, layout: Joined) -> tuple[BushingPart, ...]:
    """The bushings to be made for a bolt."""
    labels = {joint.label, *joint.clamps}
    return tuple(part for part in as_marked(layout) if any(fill.where in labels for fill in part.fills))


def layer_names(joint: Joint, layout: Joined) -> tuple[str, ...]:
    """What is known of each layer beside its own words: whose feet, which bushing; "" for nothing."""
    units = layout.recipe.units
    feet, marks = iter(clamps_of(joint, layout)), bushings_of(joint, layout)

    def name(item: StackItem) -> str:
        if item.name == "clamp feet":
            loop = next(feet, None)
            thick = show_length(item.thickness_mm, units)
            return f"feet of {loop.label}, {loop.clamp.part}, {thick}" if loop else ""
        if item.name == "bushing" and marks:
            near = min(marks, key=lambda part: abs(part.length_mm - item.thickness_mm))
            return f"bushing {near.mark}, {both(item.thickness_mm, units)} long, {near.material}"
        return ""

    return tuple(name(item) for item in joint.stack.items)


def joint_facts(joint: Joint, layout: Joined) -> tuple[Fact, ...]:
    """Each clamp's place, then bolt, nut, washers, bushing and torque."""
    return (*_clamp_facts(joint, layout), *_bolt_facts(joint, layout))


def _clamp_facts(joint: Joint, layout: Joined) -> Iterator[Fact]:
    units = layout.recipe.units
    for loop in clamps_of(joint, layout):
        tube = line_named(loop.tube, layout)
        first, second = station_words(loop, layout)
        clamp = loop.clamp
        yield Fact("", f"{loop.label} on {loop.tube}, {tube_size(tube, units)}, {loop.side}")
        yield Fact("station", f"{first}; {second}")
        yield Fact("known to", _known(loop, layout))
        yield Fact("clock", f"feet at {clock_words(feet_clock(loop))}")
        yield Fact("flat face", f"looks to {clock_words(face_clock(loop))}")
        size = f"dash {clamp.dash}, loop {show_length(clamp.loop_mm, units)}, {clamp.cushion} cushion"
        yield Fact("clamp", f"{clamp.part} ({size}); {wrap_words(loop, layout)}")


def _bolt_facts(joint: Joint, layout: Joined) -> Iterator[Fact]:
    stack, units = joint.stack, layout.recipe.units
    bolt = stack.chosen.length.part if stack.chosen is not None else stack.bolt
    kind = "Bolt" if stack.bolt in bolt_names() else "Screw"
    yield Fact("", f"{kind} {bolt}, nut {stack.nut.part}")
    yield Fact("goes in", bolt_way(joint, [loop.label for loop in clamps_of(joint, layout)]))
    yield Fact("washers", _washers(stack.items))
    changed = f"; {stack.adjusted}" if stack.adjusted else ""
    yield Fact("bushing", "; ".join(_bushing(part, joint, layout) for part in bushings_of(joint, layout)))
    yield Fact("stack", f"{both(stack.thickness_mm, units)} from head to nut{changed}")
    drag = f", {DRAG}" if stack.torque is not None else ""
    yield Fact("torque", torque(stack, units) + drag)
    if joint.clamps and not joint.feet_measured:
        yield Fact("not measured", "the feet: their thickness is the family's default")
    if not joint.lug_known:
        yield Fact("not known", "the lug's thickness: the stack is thinner here than it will be")


def _known(loop: Loop, layout: Joined) -> str:
    """± of a clamp's station, and of its bolt across the tube."""
    each, units = known(loop.label, layout.known_to), layout.recipe.units
    if each is None:
        return ""
    station, across, _ = cells(each, units)
    said = []
    if station != NOTHING:
        said.append(f"station {in_words(each.station_mm, units, given=each.given)}: where to start")
    if across != NOTHING:
        said.append(f"its bolt {in_words(each.across_mm, units, given=each.across_given)} across {loop.tube}")
    return "; ".join(said) or "the part takes its place from it"


def _bushing(part: BushingPart, joint: Joint, layout: Joined) -> str:
    """Mark, length, and how a bushing whose gap is not sure enough is made to fit."""
    units = layout.recipe.units
    said = f"{part.mark}, {both(part.length_mm, units)} long"
    where = {joint.label, *joint.clamps}
    return "; ".join([said, *(words for _, words in trim_words(part, layout, where))])


def _washers(items: Sequence[StackItem]) -> str:
    """How many of which, in the order from the head."""
    counts: dict[str, int] = {}
    for item in items:
        if item.name in ("washer", "washers"):
            counts[item.part] = counts.get(item.part, 0) + item.count
    return ", ".join(f"{count} x {part}" for part, count in counts.items()) or "none"
