"""What to do about a bolt that does not fit, and what to measure where a stack rests on defaults."""

from __future__ import annotations

from clampwright.checks.bolt_reach import stack_range, tallest_nut
from clampwright.checks.stacks import Bolted, feet_thickness, single_washers
from clampwright.checks.wording import at_least, at_most, shown
from clampwright.layout.placed import BoltChoice, PlateLayout, Stack
from clampwright.trade.bolts import BoltLength
from clampwright.trade.hardware import nut_for, washer
from clampwright.trade.tables import rule


def refit(stack: Stack, layout: PlateLayout) -> str:
    """The least change of washers that makes one of the three lengths fit; else what to look for."""
    tried = (c.length for c in (stack.chosen, stack.above, stack.below) if c is not None)
    options = [o for o in (_option(length, stack, layout) for length in tried) if o is not None]
    if options:
        return min(options)[1]
    thick = shown(stack.thickness_mm, layout)
    return (
        f"No washers put this right: look for {stack.bolt} with a plain shank of {thick} or up to a thread "
        "less, or change the stack."
    )


def _option(length: BoltLength, stack: Stack, layout: PlateLayout) -> tuple[float, str] | None:
    """How much the washers have to change for one length (0: nothing), and the words for it.

    No more than the washers that are there can be added or taken out.
    """
    low, high = stack_range(length, stack)
    now = sum(item.thickness_mm * item.count for item in single_washers(stack))
    more, less = low - stack.thickness_mm, stack.thickness_mm - high
    if low > high or less > now or more > now:
        return None
    if more > 0:
        return more, f"Take {length.part} with {at_least(more, layout)} more of washers under the nut."
    if less > 0:
        return less, f"Take {length.part} with {at_least(less, layout)} less in the stack: thinner washers."
    return 0.0, f"Take {length.part}."


def doubts(one: Bolted, choice: BoltChoice, layout: PlateLayout) -> tuple[tuple[str, str], ...]:
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


def _height(one: Bolted, choice: BoltChoice, layout: PlateLayout) -> str:
    tallest = at_most(tallest_nut(choice.length, one.stack), layout)
    return f"Measure the nut's height and write it (nut_height): {choice.length.part} serves up to {tallest}."


def _feet(one: Bolted, choice: BoltChoice, layout: PlateLayout) -> str:
    feet = feet_thickness(one.stack)
    span = _span(feet, one.stack, choice, layout)
    return (
        f"Squeeze both feet together and measure: {choice.length.part} fits feet of {span}; "
        f"{shown(feet, layout)} was taken."
    )


def _span(layer_mm: float, stack: Stack, choice: BoltChoice, layout: PlateLayout) -> str:
    """Thicknesses of one layer, now `layer_mm`, with which the bolt fits."""
    low, high = (edge - stack.thickness_mm + layer_mm for edge in stack_range(choice.length, stack))
    return f"{at_least(max(low, 0.0), layout)} to {at_most(high, layout)}"


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
