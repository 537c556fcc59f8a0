"""Everything on one bolt from head to nut, and the bolt length that fits it."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations_with_replacement

from clampwright.layout.bolt_choice import (
    Joint,
    Limits,
    breaks,
    choice,
    fits,
    hidden,
    limits,
    misfit,
)
from clampwright.layout.packing import flat_washers, washer_item
from clampwright.layout.placed import BoltChoice, Stack, StackItem
from clampwright.trade import bolts, hardware
from clampwright.trade.bolts import BoltLength
from clampwright.trade.hardware import Nut, Torque
from clampwright.trade.tables import rule

MEASURED = ""
"""Source key of a nut height that no document gave: the builder measured it."""
SWAPPED, ADDED, LEFT_OUT = 1, 2, 3
"""What changing the washers costs: the solver takes the cheapest change that makes a bolt fit."""

Items = tuple[StackItem, ...]


def plain_items(middle: Items, bolt: str) -> Items:
    """Layers with a washer under the head and one under the nut, as a solver starts from.

    The washer under the head is thin, that under the nut regular, where the tables have them. Washers
    among the layers count towards the most a bolt may have, so with two of them none lies under the head.

    Examples
    --------
    >>> [item.part for item in plain_items((StackItem("parts", "", 12.0),), "AN3")]
    ['AN960-10L', '', 'AN960-10']
    """
    room = int(rule("washers-most").value) - count_washers(middle)
    head = _washer(bolt, "thin") if room > 1 else ()
    return (*head, *middle, *_washer(bolt, "regular"))


def clamp_items(thickness_mm: float, packing: Items, feet_mm: float, bolt: str) -> Items:
    """A clamp's stack from the head: washer, plate, packing, clamp feet, washer under the nut.

    Examples
    --------
    >>> [item.name for item in clamp_items(2.286, (), 2.54, "AN3")]
    ['washer', 'plate', 'clamp feet', 'washer']
    """
    plate, feet = StackItem("plate", "plate", thickness_mm), StackItem("clamp feet", "clamp feet", feet_mm)
    return plain_items((plate, *packing, feet), bolt)


def component_items(lug_mm: float | None, thickness_mm: float, bolt: str) -> Items:
    """A component's stack from the head: washer, lug, plate, washer under the nut.

    A lug of unknown thickness (None) is left out: the stack is then too thin by just that lug.

    Examples
    --------
    >>> [item.name for item in component_items(3.175, 2.286, "AN3")]
    ['washer', 'component lug', 'plate', 'washer']
    """
    lug = () if lug_mm is None else (StackItem("component lug", "component lug", lug_mm),)
    return plain_items((*lug, StackItem("plate", "plate", thickness_mm)), bolt)


def screw_items(lug_mm: float | None, thickness_mm: float, screw: str) -> Items:
    """A screw's stack from the head: lug, plate, and a washer under the nut, which is what is turned.

    Examples
    --------
    >>> [item.name for item in screw_items(3.175, 2.286, "#8")]
    ['component lug', 'plate', 'washer']
    """
    lug = () if lug_mm is None else (StackItem("component lug", "component lug", lug_mm),)
    return (*lug, StackItem("plate", "plate", thickness_mm), *_washer(screw, "regular"))


def thickness_mm(items: Iterable[StackItem]) -> float:
    """Sum of the layers, mm.

    Examples
    --------
    >>> thickness_mm([StackItem("plate", "plate", 2.0), StackItem("washers", "W", 0.5, count=2)])
    3.0
    """
    return sum(item.thickness_mm * item.count for item in items)


def count_washers(items: Iterable[StackItem]) -> int:
    """Washers among the layers, those of a packing included.

    Examples
    --------
    >>> count_washers([StackItem("washer", "W", 0.8), StackItem("washers", "W", 0.8, count=2)])
    3
    """
    return sum(item.count for item in items if item.name in ("washer", "washers"))


def build_stack(
    bolt: str, items: Sequence[StackItem], nut: Nut, *, nut_height_mm: float | None = None
) -> Stack:
    """The stack with the bolt length that fits, and the dashes next below and above it.

    For a stack of thickness S, a bolt of grip G and length L, a thread of pitch p and a nut of height H:
    threads hidden (S - G)/p must lie between 0 and `threads-hidden-most`; threads showing
    (L - S - H)/p must be `threads-showing-least` or more (see `bolt_choice.fits` on the most, and
    `bolt_choice.limits` on metric bolts). Where
    no length does it, the washers under head and nut are changed: swapped thin for regular, one added
    under the nut, the one under the head left out, never more than `washers-most` and never the packing.
    Where that fails too, `chosen` is the best compromise and does not fit.

    Parameters
    ----------
    bolt
        Bolt size; one without known lengths gives a stack with nothing chosen.
    items
        Layers from the head, as `clamp_items` or `component_items` give them.
    nut
        Lock nut.
    nut_height_mm
        Measured height, in place of the table's. Without either, threads showing stay unknown and the
        grip alone decides.
    """
    height = nut_height_mm if nut_height_mm is not None else nut.height_mm
    if nut_height_mm is not None:
        nut = replace(nut, height_mm=nut_height_mm, height_source=MEASURED)
    lengths = _lengths(bolt)
    torque = hardware.torque(bolt, nut)
    if not lengths:
        return _unchosen(bolt, tuple(items), nut, torque)
    size = bolts.bolt(bolt)
    held = limits(size.metric, height)
    dressed, index = _best(list(_dressings(tuple(items), bolt)), lengths, size.pitch_mm, height, held)
    joint = Joint(thickness_mm(dressed.items), size.pitch_mm, height)

    def at(i: int) -> BoltChoice | None:
        return choice(lengths[i], joint, held) if 0 <= i < len(lengths) else None

    return Stack(
        bolt=bolt,
        items=dressed.items,
        thickness_mm=joint.thickness_mm,
        nut=nut,
        chosen=at(index),
        below=at(index - 1),
        above=at(index + 1),
        torque=torque,
        adjusted=dressed.words if dressed.cost else "",
    )


@dataclass(frozen=True, slots=True)
class _Dressing:
    """The layers with one choice of washers under head and nut, and what that choice costs."""

    items: Items
    cost: int
    words: str
    bare_head: bool = False
    """Whether the washer under the head is left out."""


def _washer(bolt: str, kind: str) -> Items:
    flat = flat_washers(bolt)
    found = [w for w in flat if w.kind == kind] or list(flat)
    return tuple(washer_item(w) for w in found[:1])


def _lengths(bolt: str) -> tuple[BoltLength, ...]:
    try:
        return bolts.bolt_lengths(bolt)
    except LookupError:
        return ()


def _unchosen(bolt: str, items: Items, nut: Nut, torque: Torque | None) -> Stack:
    return Stack(bolt, items, thickness_mm(items), nut, None, None, None, torque)


def _dressings(items: Items, bolt: str) -> Iterator[_Dressing]:
    """Every allowed choice of washers under head and nut, the given one first."""
    head = items[:1] if len(items) > 1 and items[0].name == "washer" else ()
    foot = items[-1:] if len(items) > 1 and items[-1].name == "washer" else ()
    core = items[len(head) : len(items) - len(foot)]
    flat = [washer_item(w) for w in flat_washers(bolt)]
    most = max(count_washers(items), int(rule("washers-most").value)) - count_washers(core)
    yield _Dressing(items, 0, "")
    for under_head in _under_head(head, flat):
        for under_nut in _under_nut(foot, flat):
            cost, bare = _cost(head, under_head) + _cost(foot, under_nut), bool(head) and not under_head
            if cost and len(under_head) + len(under_nut) <= most:
                words = f"{_said(under_head)} under the head, {_said(under_nut)} under the nut"
                yield _Dressing((*under_head, *core, *under_nut), cost, f"washers changed: {words}", bare)


def _under_head(given: Items, flat: Sequence[StackItem]) -> Iterator[Items]:
    yield given
    if given:
        yield ()
        yield from ((washer,) for washer in flat)


def _under_nut(given: Items, flat: Sequence[StackItem]) -> Iterator[Items]:
    yield given
    if given:
        for count in (1, 2):
            yield from combinations_with_replacement(flat, count)


def _cost(given: Items, taken: Items) -> int:
    """Washers swapped, added and left out, weighed."""
    kept = len(given) - sum(item.part not in [t.part for t in taken] for item in given)
    swapped = min(len(given), len(taken)) - kept
    more = len(taken) - len(given)
    return SWAPPED * swapped + (ADDED * more if more > 0 else -LEFT_OUT * more)


def _said(pieces: Items) -> str:
    return " and ".join(piece.part for piece in pieces) or "none"


def _best(
    dressings: Sequence[_Dressing],
    lengths: Sequence[BoltLength],
    pitch_mm: float,
    nut_height_mm: float | None,
    held: Limits,
) -> tuple[_Dressing, int]:
    """The washers and the length: what fits first, then a washer under the head, the fewest rules broken,
    the cheapest change of washers, the fewest washers, the fewest threads hidden, the shorter bolt."""

    def rank(dressed: _Dressing, index: int) -> tuple[float, ...]:
        length, joint = lengths[index], joints[dressed]
        found = breaks(length, joint, held)
        unfit = not fits(found, held)
        far = misfit(length, joint, held)
        return (
            unfit,
            *far,
            dressed.bare_head,
            len(found),
            dressed.cost,
            len(dressed.items),
            hidden(length, joint),
            index,
        )

    joints = {d: Joint(thickness_mm(d.items), pitch_mm, nut_height_mm) for d in dressings}
    pairs = ((d, index) for d in dressings for index in _near(lengths, joints[d], held))
    return min(pairs, key=lambda pair: rank(*pair))


def _near(lengths: Sequence[BoltLength], joint: Joint, held: Limits) -> range:
    """The lengths between too short for the nut and too long in the shank, with one to either side."""
    nut = (joint.nut_height_mm or 0.0) + held.showing_least * joint.pitch_mm
    long_enough = bisect_left(lengths, joint.thickness_mm + nut, key=lambda each: each.length_mm)
    past = bisect_right(lengths, joint.thickness_mm, key=lambda each: each.grip_mm)
    first, last = min(long_enough, past) - 1, max(long_enough, past) + 1
    return range(max(0, first), min(len(lengths), last))
