"""Bolts whose stack holds something measured: whether the bolt chosen still fits, and which would."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from clampwright.layout.as_made import LengthFit, Refit
from clampwright.layout.as_made_lengths import length_at
from clampwright.layout.bolt_choice import Joint as Tried
from clampwright.layout.bolt_choice import choice, limits
from clampwright.layout.joined import Joined, Joint
from clampwright.layout.placed import Stack, StackItem
from clampwright.layout.stacks import build_stack, thickness_mm
from clampwright.trade.bolts import bolt


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
        joint.label, stack, made, False, build_stack(stack.bolt, items, stack.nut, nut_height_mm=height)
    )


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
