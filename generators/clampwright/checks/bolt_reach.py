"""What a bolt length does in a stack, and which stacks a length suits: plain numbers."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.layout.bolt_choice import Limits, limits
from clampwright.layout.placed import Stack
from clampwright.trade.bolts import BoltLength, bolt
from clampwright.trade.tables import rule


@dataclass(frozen=True, slots=True)
class Reach:
    """What a bolt length does in a stack, worked out anew from grip, length and nut."""

    shank_past_mm: float
    threads_hidden: float
    threads_showing: float | None
    """None where the nut's height is not known."""
    end_past_mm: float
    """Bolt past the stack: what is left for the nut."""


def reach_of(length: BoltLength, stack: Stack) -> Reach:
    """Shank past the stack, threads hidden in it and threads past the nut.

    ``past = grip - stack``, ``hidden = (stack - grip) / pitch``,
    ``showing = (length - stack - nut) / pitch``.
    """
    pitch = bolt(length.bolt).pitch_mm
    past = length.grip_mm - stack.thickness_mm
    height = stack.nut.height_mm
    showing = None if height is None else (length.length_mm - stack.thickness_mm - height) / pitch
    return Reach(past, -past / pitch, showing, length.length_mm - stack.thickness_mm)


def rules_for(stack: Stack) -> Limits:
    """The rules that the stack solver holds a bolt against (see `layout.bolt_choice.limits`)."""
    return limits(bolt(stack.bolt).metric, stack.nut.height_mm)


def nut_height_mm(stack: Stack) -> float:
    """Height of the stack's nut, mm; where it is not known, the least that a lock nut is taken to have."""
    if stack.nut.height_mm is not None:
        return stack.nut.height_mm
    return rule("nut-height-least").value * bolt(stack.bolt).nominal_mm


def stack_range(length: BoltLength, stack: Stack) -> tuple[float, float]:
    """Least and greatest stack that a bolt length suits, mm: the greater is below the lesser where none.

    From the grip to the grip and the threads that may be hidden (where hidden threads decide), and no more
    than leaves a thread past the nut.
    """
    held, pitch = rules_for(stack), bolt(length.bolt).pitch_mm
    most = length.length_mm - nut_height_mm(stack) - held.showing_least * pitch
    if held.hidden_decide:
        most = min(most, length.grip_mm + held.hidden_most * pitch)
    return length.grip_mm, most


def tallest_nut(length: BoltLength, stack: Stack) -> float:
    """Greatest height of a nut that still shows a thread on this bolt, mm."""
    least_out = rule("threads-showing-least").value * bolt(length.bolt).pitch_mm
    return length.length_mm - stack.thickness_mm - least_out
