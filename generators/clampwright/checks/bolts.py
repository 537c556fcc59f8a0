"""Bolts: length for each stack by grip and threads, and how many washers stand in it."""

from __future__ import annotations

from functools import partial

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.bolt_advice import by_hand, doubts, refit
from clampwright.checks.bolt_reach import Reach, reach_of
from clampwright.checks.finding import Finding
from clampwright.checks.stacks import Bolted, bolted
from clampwright.checks.wording import shown
from clampwright.layout.placed import BoltChoice, PlacedComponent, PlateLayout, Stack
from clampwright.trade.bolts import bolt_lengths
from clampwright.trade.tables import rule

_length = partial(Finding, "BOLT-1", "bolt length")
_washers = partial(Finding, "BOLT-2", "washers")

_RULES = ("threads-showing-least", "threads-showing-most", "threads-hidden-most")


def bolt_length(layout: PlateLayout) -> tuple[Finding, ...]:
    """BOLT-1: in every stack the shank ends in it and at least a thread stands past the nut."""
    screwed = (part for part in layout.components if part.holes and not part.stacks)
    return (
        *(_lengthed(b, layout) for b in bolted(layout)),
        *(_without_stack(part, layout) for part in screwed),
    )


def _lengthed(one: Bolted, layout: PlateLayout) -> Finding:
    stack, choice = one.stack, one.stack.chosen
    if choice is None:
        return _unchosen(one, layout)
    reach = reach_of(choice.length, stack)
    wrong, poor = _faults(reach, layout)
    part, thick = choice.length.part, shown(stack.thickness_mm, layout)
    found = partial(
        _length,
        where=one.label,
        value=reach.threads_showing,
        limit=rule("threads-showing-least").value,
        unit="threads",
        sources=_sources(choice.length.source),
    )
    if wrong or poor:
        says = f"{part} in a stack of {thick}: {'; '.join(wrong + poor)}."
        return found(verdict="fail" if wrong else "caution", says=says, change=refit(stack, layout))
    says = f"{part} fits the stack of {thick}: {_fit(reach)}.{_neighbours(stack, layout)}"
    open_ = doubts(one, choice, layout)
    if not open_:
        return found(verdict="pass", says=says, change="")
    says = " ".join([says, *(why for why, _ in open_)])
    return found(verdict="unknown", says=says, change=" ".join(ask for _, ask in open_))


def _sources(*more: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*(rule(key).source for key in _RULES), *more)))


def _faults(reach: Reach, layout: PlateLayout) -> tuple[list[str], list[str]]:
    """What is wrong and what is only poor, each in words.

    More threads past the nut than usual are no fault by themselves: where the shank ends in the stack,
    they follow from the length of the bolt's thread.
    """
    least, hidden = rule("threads-showing-least").value, rule("threads-hidden-most").value
    wrong: list[str] = []
    poor: list[str] = []
    if reach.shank_past_mm > SAME_MM:
        past = shown(reach.shank_past_mm, layout)
        wrong.append(
            f"{past} of smooth shank stand past the stack, so the nut runs out of thread before it clamps"
        )
    if reach.threads_showing is not None and reach.threads_showing < least - SAME_MM:
        wrong.append(_short(reach.threads_showing, least))
    if reach.threads_showing is None and reach.end_past_mm <= SAME_MM:
        wrong.append(f"the bolt ends {shown(-reach.end_past_mm, layout)} short of the nut")
    if reach.threads_hidden > hidden + SAME_MM:
        poor.append(f"{reach.threads_hidden:.1f} threads lie hidden in the stack where {hidden:g} may")
    return wrong, poor


def _short(showing: float, least: float) -> str:
    if showing < 0:
        return f"the bolt ends {-showing:.1f} threads inside the nut"
    return f"only {showing:.1f} threads stand past the nut where {least:g} must"


def _fit(reach: Reach) -> str:
    hidden = f"{max(0.0, reach.threads_hidden) + 0.0:.1f} threads hidden"
    if reach.threads_showing is None:
        return f"{hidden}, threads past the nut not known"
    long = reach.threads_showing > rule("threads-showing-most").value
    why = " (long thread; the grip is right)" if long else ""
    return f"{hidden}, {reach.threads_showing:.1f} past the nut{why}"


def _neighbours(stack: Stack, layout: PlateLayout) -> str:
    """What the next dash below and above would do."""
    told = [_would(c, stack, layout) for c in (stack.below, stack.above) if c is not None]
    return f" {'; '.join(told)}." if told else ""


def _would(choice: BoltChoice, stack: Stack, layout: PlateLayout) -> str:
    reach, part = reach_of(choice.length, stack), choice.length.part
    if reach.shank_past_mm > SAME_MM:
        return f"{part} would leave {shown(reach.shank_past_mm, layout)} of shank past the stack"
    if reach.threads_showing is not None and reach.threads_showing < rule("threads-showing-least").value:
        if reach.threads_showing < 0:
            return f"{part} would end {-reach.threads_showing:.1f} threads inside the nut"
        return f"{part} would show {reach.threads_showing:.1f} threads"
    return f"{part} would hide {reach.threads_hidden:.1f} threads"


def _unchosen(one: Bolted, layout: PlateLayout) -> Finding:
    """A stack without a bolt: none of the known lengths was taken, or no length is known."""
    stack = one.stack
    thick = shown(stack.thickness_mm, layout)
    if _known(stack.bolt):
        says = f"No length of {stack.bolt} fits a stack of {thick}."
        return _length(one.label, "fail", None, None, "threads", says, refit(stack, layout), _sources())
    says = f"The tables have no lengths of {stack.bolt}: choose one by hand for a stack of {thick}."
    change = f"Take {stack.bolt} with a grip of {thick} or up to a thread less."
    return _length(one.label, "unknown", None, None, "threads", says, change, _sources())


def _known(name: str) -> bool:
    try:
        return bool(bolt_lengths(name))
    except LookupError:
        return False


def _without_stack(part: PlacedComponent, layout: PlateLayout) -> Finding:
    """A component held by screws that the tables have no lengths for."""
    fastener = next(h.fastener for h in layout.holes if h.label == part.holes[0])
    lug = next((c.lug_mm for c in layout.recipe.job.carries if c.name == part.name), None)
    says = f"The tables have no lengths of {fastener}: choose the screws by hand."
    change = by_hand(fastener, lug, layout)
    return _length(part.name, "unknown", None, None, "threads", says, change, _sources())


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
        sources=("bolt-length-law", "bolt-grip-chart", "iso-888"),
    ),
    Check(
        "BOLT-2",
        "washers",
        "Washers on each bolt, packing included, and whether one lies under the nut.",
        washer_count,
        rules=("washers-most",),
    ),
)
