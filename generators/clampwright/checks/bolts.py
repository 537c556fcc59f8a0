"""Bolts: length for each stack by grip and threads, and how many washers stand in it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.finding import Finding
from clampwright.checks.stacks import Bolted, bolted, feet_thickness
from clampwright.checks.wording import at_least, at_most, shown
from clampwright.layout.placed import BoltChoice, PlateLayout, Stack
from clampwright.trade.bolts import BoltLength, bolt
from clampwright.trade.tables import rule

_length = partial(Finding, "BOLT-1", "bolt length")
_washers = partial(Finding, "BOLT-2", "washers")

_RULES = ("threads-showing-least", "threads-showing-most", "threads-hidden-most")


@dataclass(frozen=True, slots=True)
class Reach:
    """What a bolt length does in a stack, worked out anew from grip, length and nut."""

    shank_past_mm: float
    threads_hidden: float
    threads_showing: float | None


def reach_of(length: BoltLength, stack: Stack) -> Reach:
    """Shank past the stack, threads hidden in it and threads past the nut.

    ``past = grip - stack``, ``hidden = (stack - grip) / pitch``,
    ``showing = (length - stack - nut) / pitch``.
    """
    pitch = bolt(length.bolt).pitch_mm
    past = length.grip_mm - stack.thickness_mm
    height = stack.nut.height_mm
    showing = None if height is None else (length.length_mm - stack.thickness_mm - height) / pitch
    return Reach(past, -past / pitch, showing)


def _faults(reach: Reach, layout: PlateLayout) -> tuple[list[str], list[str]]:
    """What is wrong and what is only not nice, each in words."""
    least, hidden = rule("threads-showing-least").value, rule("threads-hidden-most").value
    wrong: list[str] = []
    poor: list[str] = []
    if reach.shank_past_mm > SAME_MM:
        past = shown(reach.shank_past_mm, layout)
        wrong.append(
            f"{past} of smooth shank stand past the stack, so the nut runs out of thread before it clamps"
        )
    if reach.threads_hidden > hidden + SAME_MM:
        poor.append(f"{reach.threads_hidden:.1f} threads lie hidden in the stack where {hidden:g} may")
    if reach.threads_showing is not None and reach.threads_showing < least - SAME_MM:
        wrong.append(_short(reach.threads_showing, least))
    return wrong, poor


def _short(showing: float, least: float) -> str:
    if showing < 0:
        return f"the bolt ends {-showing:.1f} threads inside the nut"
    return f"only {showing:.1f} threads stand past the nut where {least:g} must"


def bolt_length(layout: PlateLayout) -> tuple[Finding, ...]:
    """BOLT-1: in every stack the shank ends in it and at least a thread stands past the nut."""
    return (*(_lengthed(b, layout) for b in bolted(layout)), *_without_lengths(layout))


def _lengthed(one: Bolted, layout: PlateLayout) -> Finding:
    stack, choice = one.stack, one.stack.chosen
    sources = tuple(dict.fromkeys(rule(key).source for key in _RULES))
    thick = shown(stack.thickness_mm, layout)
    if choice is None:
        says = f"No {stack.bolt} length is known for a stack of {thick}."
        return _length(one.label, "fail", None, None, "threads", says, _pad(stack, layout), sources)
    reach = reach_of(choice.length, stack)
    wrong, poor = _faults(reach, layout)
    part = choice.length.part
    found = partial(
        _length,
        where=one.label,
        value=reach.threads_showing,
        limit=rule("threads-showing-least").value,
        unit="threads",
        sources=tuple(dict.fromkeys((*sources, choice.length.source))),
    )
    if wrong or poor:
        says = f"{part} in a stack of {thick}: {'; '.join(wrong + poor)}."
        return found(verdict="fail" if wrong else "caution", says=says, change=_pad(stack, layout))
    doubt = _doubt(one, choice, layout)
    says = f"{part} fits the stack of {thick}: {_fit(reach)}{_neighbours(stack, layout)}."
    if doubt is None:
        return found(verdict="pass", says=says, change="")
    return found(verdict="unknown", says=f"{says} {doubt[0]}", change=doubt[1])


def _fit(reach: Reach) -> str:
    hidden = f"{max(reach.threads_hidden, 0.0):.1f} threads hidden"
    if reach.threads_showing is None:
        return f"{hidden}, threads past the nut not known"
    long = reach.threads_showing > rule("threads-showing-most").value
    return f"{hidden}, {reach.threads_showing:.1f} past the nut{' (long thread; the grip is right)' if long else ''}"


def _doubt(one: Bolted, choice: BoltChoice, layout: PlateLayout) -> tuple[str, str] | None:
    """What nobody measured in this stack, and what to measure."""
    if one.stack.nut.height_mm is None:
        return f"No document gave the height of {one.stack.nut.part}.", _ask_height(one, choice, layout)
    if not one.feet_measured:
        return "The thickness of the feet is a default.", _feet(one, choice, layout)
    if not one.lug_known:
        low, high = (edge - one.stack.thickness_mm for edge in stack_range(choice.length, one.stack))
        fits = (
            f"{choice.length.part} fits a lug of {at_least(max(low, 0.0), layout)} to {at_most(high, layout)}"
        )
        return (
            "The lug's thickness is not given and counts as nothing.",
            f"Measure the lug and write it (lug): {fits}.",
        )
    return None


def _neighbours(stack: Stack, layout: PlateLayout) -> str:
    """What the next dash below and above would do, in brackets."""
    told = [_would(c, stack, layout) for c in (stack.below, stack.above) if c is not None]
    return f" ({'; '.join(told)})" if told else ""


def _would(choice: BoltChoice, stack: Stack, layout: PlateLayout) -> str:
    reach = reach_of(choice.length, stack)
    wrong, poor = _faults(reach, layout)
    return f"{choice.length.part}: {(wrong + poor + ['would do as well'])[0]}"


def stack_range(length: BoltLength, stack: Stack) -> tuple[float, float]:
    """Least and greatest stack that a bolt length fits, mm: the greater is below the lesser where none."""
    pitch = bolt(length.bolt).pitch_mm
    most = length.grip_mm + rule("threads-hidden-most").value * pitch
    if stack.nut.height_mm is not None:
        least_out = rule("threads-showing-least").value * pitch
        most = min(most, length.length_mm - stack.nut.height_mm - least_out)
    return length.grip_mm, most


def _pad(stack: Stack, layout: PlateLayout) -> str:
    """The least change of the stack that makes one of the three lengths fit."""
    options: list[tuple[float, str]] = []
    for choice in (stack.chosen, stack.above, stack.below):
        if choice is None:
            continue
        low, high = stack_range(choice.length, stack)
        part = choice.length.part
        if stack.thickness_mm < low <= high:
            more = low - stack.thickness_mm
            options.append(
                (more, f"Take {part} with {at_least(more, layout)} more of washers under the nut.")
            )
        elif low <= high < stack.thickness_mm:
            less = stack.thickness_mm - high
            options.append(
                (less, f"Take {part} with {at_least(less, layout)} less in the stack (thinner washers).")
            )
        elif low <= high:
            options.append((0.0, f"Take {part}."))
    if options:
        return min(options)[1]
    return f"Choose a bolt with a grip near {shown(stack.thickness_mm, layout)} by hand."


def _ask_height(one: Bolted, choice: BoltChoice, layout: PlateLayout) -> str:
    stack = one.stack
    least_out = rule("threads-showing-least").value * bolt(stack.bolt).pitch_mm
    tallest = choice.length.length_mm - stack.thickness_mm - least_out
    return (
        f"Measure the nut's height with calipers and write it (nut_height): "
        f"{choice.length.part} serves a nut up to {at_most(tallest, layout)} high."
    )


def _feet(one: Bolted, choice: BoltChoice, layout: PlateLayout) -> str:
    low, high = stack_range(choice.length, one.stack)
    feet = feet_thickness(one.stack)
    rest = one.stack.thickness_mm - feet
    return (
        f"Squeeze both feet together and measure: {choice.length.part} fits feet of "
        f"{at_least(max(low - rest, 0.0), layout)} to {at_most(high - rest, layout)}; {shown(feet, layout)} was taken."
    )


def _without_lengths(layout: PlateLayout) -> list[Finding]:
    """Components whose screws the tables have no lengths for."""
    kinds = {h.owner: h.fastener for h in layout.holes if h.purpose == "component"}
    return [
        _length(
            where=part.name,
            verdict="unknown",
            value=None,
            limit=None,
            unit="threads",
            says=f"The tables have no lengths of {kinds[part.name]}: choose the screw by hand.",
            change=(
                f"Add lug, plate ({shown(layout.thickness_mm, layout)}), washers, nut and "
                f"{rule('threads-showing-least').value:g} to {rule('threads-showing-most').value:g} threads."
            ),
            sources=(rule("threads-showing-least").source,),
        )
        for part in layout.components
        if part.holes and not part.stacks
    ]


def washer_count(layout: PlateLayout) -> tuple[Finding, ...]:
    """BOLT-2: no more washers on a bolt than may adjust its grip, and one under what is turned."""
    return tuple(_counted(b, layout) for b in bolted(layout))


def _counted(one: Bolted, layout: PlateLayout) -> Finding:
    most = rule("washers-most")
    count = sum(i.count for i in one.stack.items if i.name in ("washer", "washers"))
    last = one.stack.items[-1].name if one.stack.items else ""
    found = partial(
        _washers,
        where=one.label,
        value=float(count),
        limit=most.value,
        unit="washers",
        sources=(most.source,),
    )
    if count > most.value:
        says = f"{count} washers on one bolt where {most.value:g} may be."
        change = f"Take a shim or bushing for {count - int(most.value)} of the washers, or another dash."
        return found(verdict="fail", says=says, change=change)
    if last not in ("washer", "washers"):
        says = "No washer under the nut: turning it scores the part."
        return found(verdict="caution", says=says, change="Put 1 washer under the nut.")
    return found(verdict="pass", says=f"{count} washers, one of them under the nut.", change="")


CHECKS = (
    Check(
        "BOLT-1",
        "bolt length",
        "Grip and length of each bolt against its stack and nut: shank within the stack, threads hidden and "
        "showing; with the next dash below and above.",
        bolt_length,
        rules=_RULES,
    ),
    Check(
        "BOLT-2",
        "washers",
        "Washers on each bolt, packing included, and whether one lies under the nut.",
        washer_count,
        rules=("washers-most",),
    ),
)
