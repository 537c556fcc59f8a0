"""A bolted stack as text: from the head to the nut, and the dash below and above."""

from __future__ import annotations

from clampwright.layout.placed import BoltChoice, Stack, StackItem
from clampwright.quantities import show_length


def stack_text(stack: Stack, units: str) -> str:
    """The layers in order, the bolt that fits, and what the next shorter and longer one would do."""
    lines = [_layer(item, units) for item in stack.items]
    lines.append(f"  nut: {stack.nut.part}")
    lines.insert(0, f"stack {show_length(stack.thickness_mm, units)}, from the head")
    for word, choice in (("take", stack.chosen), ("below", stack.below), ("above", stack.above)):
        lines.append(f"{word}: {choice_text(choice, units) if choice else 'none in the tables'}")
    return "\n".join(lines)


def _layer(item: StackItem, units: str) -> str:
    """A layer with its part number and thickness, neither said twice."""
    thick = show_length(item.thickness_mm * item.count, units)
    part = item.part.removeprefix(item.name).removeprefix(", ").removesuffix(thick).removesuffix(" x ")
    pieces = f"{item.count} x {part}" if item.count > 1 else part
    return " ".join(word for word in (f"  {item.name}:", pieces, thick) if word)


def choice_text(choice: BoltChoice, units: str) -> str:
    """One bolt length and what it does in the stack."""
    showing = choice.threads_showing
    threads = "nut height not known" if showing is None else f"{showing:.1f} threads past the nut"
    past = choice.shank_past_stack_mm
    shank = (
        f"shank {show_length(past, units)} past the stack: the nut would bottom on it"
        if past > 0
        else f"{choice.threads_in_stack:.1f} threads hidden in the stack"
    )
    fit = "fits" if choice.fits else "does not fit"
    return (
        f"{choice.length.part}, grip {show_length(choice.length.grip_mm, units)}: {threads}, {shank}; {fit}"
    )
