"""Bolts whose stack holds something measured: whether the bolt chosen still fits, and which would."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from clampwright.layout.as_made import LengthFit, Refit
from clampwright.layout.as_made_lengths import length_at
from clampwright.layout.bolt_choice import Joint as Tried
from clampwright.layout.bolt_choice import choice, limits
from clampwright.layout.joined import Joined, Joint
from clampwright.layout.packing import flat_washers, washer_item
from clampwright.layout.placed import Stack, StackItem
from clampwright.layout.stacks import Items, build_stack, count_washers, thickness_mm
from clampwright.trade.bolts import bolt
from clampwright.trade.tables import rule

_SAME = 1e-6


def fit_stacks(
    layout: Joined, lengths: Sequence[LengthFit], plate_mm: float | None = None
) -> tuple[Refit, ...]:
    """Every bolt whose bushing, or plate, was measured."""
    return tuple(
        made
        for joint in layout.joints
        if (made := _refit(joint, _piece(joint, lengths), plate_mm)) is not None
    )


def _piece(joint: Joint, lengths: Sequence[LengthFit]) -> LengthFit | None:
    return next((one for label in (joint.label, *joint.clamps) if (one := length_at(label, lengths))), None)


def _refit(joint: Joint, piece: LengthFit | None, plate_mm: float | None) -> Refit | None:
    stack = joint.stack
    made_of = [_as_made(item, piece, plate_mm) for item in stack.items]
    if all(each is None for each in made_of):
        return None
    items = tuple(each or item for each, item in zip(made_of, stack.items, strict=True))
    made = _tried(stack, items)
    if made.chosen is None or made.chosen.fits:
        return Refit(joint.label, stack, made, True, None)
    height = stack.nut.height_mm
    return Refit(
        label=joint.label,
        planned=stack,
        made=made,
        fits=False,
        better=build_stack(stack.bolt, items, stack.nut, nut_height_mm=height),
        drawn_to=_drawn_to(stack, items, piece),
        washers=_other_washers(made),
    )


def _drawn_to(
    stack: Stack, made: tuple[StackItem, ...], piece: LengthFit | None
) -> tuple[float, float] | None:
    """How far the drawn tolerances of what was measured let the stack come; None: not all is within them."""
    if stack.chosen is None or not stack.chosen.fits:
        return None
    sheet = rule("sheet-thickness-tolerance").value
    thinner = thicker = 0.0
    for planned, found in zip(stack.items, made, strict=True):
        off = found.thickness_mm - planned.thickness_mm
        if found.name == "bushing" and piece is not None and not piece.long_mm:
            under, over = piece.planned_mm - piece.low_mm, piece.high_mm - piece.planned_mm
        elif found.name == "plate":
            under = over = sheet
        else:
            continue
        if not -under - _SAME <= off <= over + _SAME:
            return None
        thinner, thicker = thinner + under, thicker + over
    return thinner, thicker


def _other_washers(made: Stack) -> str:
    """One washer swapped or added, under nut or head, so that the same bolt fits; "" where none does it."""
    flat = [washer_item(each) for each in flat_washers(made.bolt)]
    most = max(count_washers(made.items), int(rule("washers-most").value))
    for words, items in _one_washer_other(made.items, sorted(flat, key=lambda each: each.thickness_mm)):
        if count_washers(items) <= most:
            tried = _tried(made, items).chosen
            if tried is not None and tried.fits:
                return words
    return ""


def _one_washer_other(items: Items, flat: Sequence[StackItem]) -> Iterator[tuple[str, Items]]:
    """Every such change: swaps first, the thinner washer before the thicker one."""
    ends = [(-1, "nut"), *([(0, "head")] if len(items) > 1 else [])]
    for place, where in ends:
        if items[place].name == "washer" and items[place].count == 1:
            for each in flat:
                if each.part != items[place].part:
                    words = f"{each.part} in place of {items[place].part} under the {where}"
                    yield words, _with(items, place, each)
    for _, where in ends:
        for each in flat:
            added = (*items, each) if where == "nut" else (each, *items)
            yield f"one {each.part} more under the {where}", added


def _with(items: Items, place: int, other: StackItem) -> Items:
    changed = list(items)
    changed[place] = other
    return tuple(changed)


def _as_made(item: StackItem, piece: LengthFit | None, plate_mm: float | None) -> StackItem | None:
    """A layer with its measured thickness; None: not measured. A piece left long is trimmed to its gap."""
    if item.name == "bushing" and piece is not None and not piece.long_mm:
        return replace(item, thickness_mm=piece.measured_mm)
    if item.name == "plate" and plate_mm is not None:
        return replace(item, thickness_mm=plate_mm)
    return None


def _tried(stack: Stack, items: tuple[StackItem, ...]) -> Stack:
    """The same bolt and washers round other layers."""
    thick = thickness_mm(items)
    if stack.chosen is None:
        return replace(stack, items=items, thickness_mm=thick)
    size = bolt(stack.bolt)
    tried = Tried(thick, size.pitch_mm, stack.nut.height_mm)
    chosen = choice(stack.chosen.length, tried, limits(size.metric, stack.nut.height_mm))
    return replace(stack, items=items, thickness_mm=thick, chosen=chosen)
