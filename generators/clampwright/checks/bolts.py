"""Bolts: length for each stack by grip and threads, and how many washers stand in it."""

from __future__ import annotations

from functools import partial

from clampwright.checks.asked import SAME_MM, Check
from clampwright.checks.bolt_advice import by_hand, doubts, refit, with_shank
from clampwright.checks.bolt_reach import Reach, nut_height_mm, reach_of, rules_for
from clampwright.checks.finding import Finding
from clampwright.checks.wording import shown
from clampwright.layout.joined import Joined, Joint
from clampwright.layout.placed import BoltChoice, PlacedComponent, PlateLayout, Stack
from clampwright.recipe.model import PlateJob
from clampwright.trade.bolts import bolt, bolt_lengths
from clampwright.trade.tables import rule

_length = partial(Finding, "BOLT-1", "bolt length")
_washers = partial(Finding, "BOLT-2", "washers")

_RULES = ("threads-showing-least", "threads-showing-most", "threads-hidden-most")


def bolt_length(layout: Joined) -> tuple[Finding, ...]:
    """BOLT-1: in every stack the shank ends in it and at least a thread stands past the nut."""
    return (*(_lengthed(joint, layout) for joint in layout.joints), *_screws(layout))


def _screws(layout: Joined) -> tuple[Finding, ...]:
    """A plate's components that are held by screws without a stack."""
    if not isinstance(layout, PlateLayout):
        return ()
    return tuple(_without_stack(c, layout) for c in layout.components if c.holes and not c.stacks)


def _lengthed(one: Joint, layout: Joined) -> Finding:
    stack, choice = one.stack, one.stack.chosen
    if choice is None:
        return _unchosen(one, layout)
    reach = reach_of(choice.length, stack)
    wrong, poor = _faults(reach, stack, layout)
    part, thick = choice.length.part, shown(stack.thickness_mm, layout)
    found = partial(
        _length,
        where=one.label,
        value=reach.threads_showing,
        limit=rule("threads-showing-least").value,
        unit="threads",
        sources=_sources(choice.length.source, *_height_source(stack)),
    )
    if wrong:
        says = f"{part} in a stack of {thick}: {'; '.join(wrong + poor)}."
        return found(verdict="fail", says=says, change=refit(stack, layout))
    threaded = choice.length.grip_mm <= 0
    if poor:
        says, change = f"{part} in a stack of {thick}: {'; '.join(poor)}.", refit(stack, layout)
    elif threaded:
        says, change = _threaded(part, thick, reach), with_shank(stack, layout)
    else:
        says, change = f"{part} fits the stack of {thick}: {_fit(reach, stack)}.", ""
        says += _neighbours(stack, layout)
    open_ = doubts(one, choice, layout)
    verdict = "unknown" if open_ else "caution" if change else "pass"
    says = " ".join([says, *(why for why, _ in open_)])
    change = " ".join(part for part in (change, *(ask for _, ask in open_)) if part)
    return found(verdict=verdict, says=says, change=change)


def _height_source(stack: Stack) -> tuple[str, ...]:
    return (rule("nut-height-least").source,) if stack.nut.height_mm is None else ()


def _threaded(part: str, thick: str, reach: Reach) -> str:
    past = "threads past the nut not known"
    if reach.threads_showing is not None:
        past = f"{reach.threads_showing:.1f} threads past the nut"
    return (
        f"{part} reaches through the stack of {thick}, {past}; it is threaded to the head, so thread and "
        "not shank bears in the holes."
    )


def _sources(*more: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys((*(rule(key).source for key in _RULES), *more)))


def _faults(reach: Reach, stack: Stack, layout: Joined) -> tuple[list[str], list[str]]:
    """What is wrong and what is only poor, each in words, by the rules of the stack solver.

    More threads past the nut than usual are no fault by themselves: where the shank ends in the stack,
    they follow from the length of the bolt's thread.
    """
    held = rules_for(stack)
    wrong: list[str] = []
    poor: list[str] = []
    if reach.shank_past_mm > SAME_MM:
        past = shown(reach.shank_past_mm, layout)
        wrong.append(
            f"{past} of smooth shank stand past the stack, so the nut runs out of thread before it clamps"
        )
    if reach.threads_showing is None:
        wrong += _too_short_for_any(reach, stack, layout)
    elif reach.threads_showing < held.showing_least - SAME_MM:
        wrong.append(_short(reach.threads_showing, held.showing_least))
    if held.hidden_decide and reach.threads_hidden > held.hidden_most + SAME_MM:
        poor.append(
            f"{reach.threads_hidden:.1f} threads lie hidden in the stack where {held.hidden_most:g} may"
        )
    return wrong, poor


def _too_short_for_any(reach: Reach, stack: Stack, layout: Joined) -> list[str]:
    """What is wrong where no nut is low enough for what stands past the stack, whatever its height."""
    if reach.end_past_mm <= SAME_MM:
        return [f"the bolt ends {shown(-reach.end_past_mm, layout)} short of the nut"]
    need = nut_height_mm(stack) + rule("threads-showing-least").value * bolt(stack.bolt).pitch_mm
    if reach.end_past_mm >= need - SAME_MM:
        return []
    return [
        f"the bolt stands only {shown(reach.end_past_mm, layout)} past the stack, and even a low nut with a "
        f"thread past it needs {shown(need, layout)}"
    ]


def _short(showing: float, least: float) -> str:
    if showing < 0:
        return f"the bolt ends {-showing:.1f} threads inside the nut"
    return f"only {showing:.1f} threads stand past the nut where {least:g} must"


def _fit(reach: Reach, stack: Stack) -> str:
    held = rules_for(stack)
    steps = reach.threads_hidden > held.hidden_most + SAME_MM
    hidden = f"{max(0.0, reach.threads_hidden) + 0.0:.1f} threads hidden"
    if steps:
        hidden += " (more than usual: metric shanks come in coarse steps)"
    if reach.threads_showing is None:
        return f"{hidden}, threads past the nut not known"
    long = reach.threads_showing > rule("threads-showing-most").value
    why = " (long thread; the grip is right)" if long else ""
    return f"{hidden}, {reach.threads_showing:.1f} past the nut{why}"


def _neighbours(stack: Stack, layout: Joined) -> str:
    """What the next dash below and above would do."""
    told = [_would(c, stack, layout) for c in (stack.below, stack.above) if c is not None]
    return f" {'; '.join(told)}." if told else ""


def _would(choice: BoltChoice, stack: Stack, layout: Joined) -> str:
    reach, part = reach_of(choice.length, stack), choice.length.part
    if reach.shank_past_mm > SAME_MM:
        return f"{part} would leave {shown(reach.shank_past_mm, layout)} of shank past the stack"
    if reach.threads_showing is not None and reach.threads_showing < rule("threads-showing-least").value:
        if reach.threads_showing < 0:
            return f"{part} would end {-reach.threads_showing:.1f} threads inside the nut"
        return f"{part} would show {reach.threads_showing:.1f} threads"
    return f"{part} would hide {reach.threads_hidden:.1f} threads"


def _unchosen(one: Joint, layout: Joined) -> Finding:
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
    lug = next((c.lug_mm for c in layout.recipe.asked(PlateJob).carries if c.name == part.name), None)
    says = f"The tables have no lengths of {fastener}: choose the screws by hand."
    change = by_hand(fastener, lug, layout)
    return _length(part.name, "unknown", None, None, "threads", says, change, _sources())


def washer_count(layout: Joined) -> tuple[Finding, ...]:
    """BOLT-2: no more washers on a bolt than may adjust its grip, and one under what is turned."""
    return tuple(_counted(joint, layout) for joint in layout.joints)


def _counted(one: Joint, layout: Joined) -> Finding:
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
        rules=(*_RULES, "nut-height-least"),
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
