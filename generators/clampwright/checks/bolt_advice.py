"""What to do about a bolt that does not fit, and what to measure where a stack rests on defaults."""

from __future__ import annotations

from operator import itemgetter

from clampwright.checks.bolt_reach import nut_height_mm, stack_range, tallest_nut
from clampwright.checks.stacks import feet_thickness, single_washers
from clampwright.checks.wording import at_least, at_most, shown
from clampwright.layout.joined import Joined, Joint
from clampwright.layout.placed import BoltChoice, PlateLayout, Stack
from clampwright.trade.bolts import BoltLength, bolt, bolt_lengths, bolt_names
from clampwright.trade.hardware import nut_for, washer
from clampwright.trade.tables import rule


def refit(stack: Stack, layout: Joined) -> str:
    """The least change that makes a bolt fit: another length, other washers, else another stack."""
    lengths = bolt_lengths(stack.bolt)
    options = [o for o in (_option(length, stack, layout) for length in lengths) if o is not None]
    if options:
        return min(options, key=itemgetter(0))[1]
    return _another_stack(stack, lengths, layout)


def _option(length: BoltLength, stack: Stack, layout: Joined) -> tuple[float, str] | None:
    """How much the washers have to change for one length (0: nothing), and the words for it.

    No more than the washers that are there can be added; the thinnest of them stays under the nut.
    """
    low, high = stack_range(length, stack)
    pieces = [item.thickness_mm for item in single_washers(stack) for _ in range(item.count)]
    more, less = low - stack.thickness_mm, stack.thickness_mm - high
    if low > high or more > sum(pieces) or less > sum(pieces) - min(pieces, default=0.0):
        return None
    if more > 0:
        return more, f"Take {length.part} with {at_least(more, layout)} more of washers under the nut."
    if less > 0:
        return less, f"Take {length.part} with {at_least(less, layout)} less in the stack: thinner washers."
    return 0.0, f"Take {length.part}."


def _another_stack(stack: Stack, lengths: tuple[BoltLength, ...], layout: Joined) -> str:
    """By how much the stack itself misses the nearest length, where washers cannot make it up."""
    off = []
    for length in lengths:
        low, high = stack_range(length, stack)
        if low <= high:
            more, less = low - stack.thickness_mm, stack.thickness_mm - high
            off.append((max(more, less), "thicker" if more > less else "thinner", length.part))
    if not off:
        return f"Measure the nut: no length of {stack.bolt} suits one {_tall(stack, layout)} high."
    by, way, part = min(off)
    last = f" (the longest {stack.bolt} in the tables)" if part == lengths[-1].part else ""
    return (
        f"Washers cannot put this right: make the stack of {shown(stack.thickness_mm, layout)} "
        f"{at_least(by, layout)} {way}, by its bushing, spacer or plate, and take {part}{last}."
    )


def _tall(stack: Stack, layout: Joined) -> str:
    return shown(nut_height_mm(stack), layout)


def with_shank(stack: Stack, layout: Joined) -> str:
    """A bolt with a plain shank: of the same size where one suits the stack, else of the nearest AN size."""
    for length in bolt_lengths(stack.bolt):
        low, high = stack_range(length, stack)
        if length.grip_mm > 0 and low <= stack.thickness_mm <= high:
            shank = shown(length.grip_mm, layout)
            return f"Prefer {length.part}: its plain shank of {shank} ends in the stack."
    sizes = [bolt(name) for name in bolt_names()]
    plain = [size for size in sizes if not size.metric and bolt_lengths(size.name)]
    nearest = min(plain, key=lambda size: abs(size.nominal_mm - bolt(stack.bolt).nominal_mm))
    return (
        f"It serves to clamp; where the bolt carries shear, prefer one with a plain shank: "
        f'bolt = "{nearest.name}", in the hole for that bolt.'
    )


def doubts(one: Joint, choice: BoltChoice, layout: Joined) -> tuple[tuple[str, str], ...]:
    """What nobody measured in a stack whose bolt fits, each with what to measure."""
    found = []
    if one.stack.nut.height_mm is None:
        found.append((f"No document gave the height of {one.stack.nut.part}.", _height(one, choice, layout)))
    if not one.feet_measured:
        found.append(("The thickness of the feet is a default.", _feet(one, choice, layout)))
    if not one.lug_known:
        found.append(
            (
                "The lug's thickness is not given and counts as nothing.",
                "Measure the lug and write it (lug); the bolt is then chosen for it.",
            )
        )
    return tuple(found)


def _height(one: Joint, choice: BoltChoice, layout: Joined) -> str:
    tallest = at_most(tallest_nut(choice.length, one.stack), layout)
    return f"Measure the nut's height and write it (nut_height): {choice.length.part} serves up to {tallest}."


def _feet(one: Joint, choice: BoltChoice, layout: Joined) -> str:
    feet = feet_thickness(one.stack)
    span = _span(feet, one.stack, choice, layout)
    pairs = sum(item.name == "clamp feet" for item in one.stack.items)
    squeezed = "both feet" if pairs < 2 else "the feet of both clamps"
    return (
        f"Squeeze {squeezed} together and measure: {choice.length.part} fits feet of {span}; "
        f"{shown(feet, layout)} was taken."
    )


def _span(layer_mm: float, stack: Stack, choice: BoltChoice, layout: Joined) -> str:
    """Thicknesses of one layer, now `layer_mm`, with which the bolt fits."""
    low, high = (edge - stack.thickness_mm + layer_mm for edge in stack_range(choice.length, stack))
    most = at_most(high, layout)
    return f"up to {most}" if low <= 0 else f"{at_least(low, layout)} to {most}"


def by_hand(fastener: str, lug_mm: float | None, layout: PlateLayout) -> str:
    """How long a screw without tabulated lengths has to be, from what stands in its stack."""
    layers = [("plate", layout.thickness_mm)]
    layers += [("lug", lug_mm)] if lug_mm is not None else []
    layers += _under(fastener, layout.recipe.zone.temperature_c)
    named = ", ".join(f"{name} {shown(mm, layout)}" for name, mm in layers)
    total = sum(mm for _, mm in layers)
    least, most = rule("threads-showing-least").value, rule("threads-showing-most").value
    lug = "" if lug_mm is not None else " and the lug"
    return (
        f"Take a screw {at_least(total, layout)} ({named}){lug} and {least:g} to {most:g} threads long, "
        "under the head."
    )


def _under(fastener: str, temperature_c: float) -> list[tuple[str, float]]:
    """A washer and a lock nut for a screw, where the tables have them."""
    found = []
    try:
        flat, lock = washer(fastener), nut_for(fastener, temperature_c)
    except LookupError:
        return []
    if flat is not None:
        found.append(("washer", flat.thickness_mm))
    if lock.height_mm is not None:
        found.append((f"nut {lock.part}", lock.height_mm))
    return found
