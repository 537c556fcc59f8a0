"""What one bolt length does in a stack: threads hidden, threads showing, shank past the stack."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.layout.placed import BoltChoice
from clampwright.quantities import show_length
from clampwright.trade.bolts import BoltLength
from clampwright.trade.tables import rule

NOISE = 1e-6
"""Threads: differences below this are arithmetic, not metal."""

SHANK = "shank past the stack"
HIDDEN = "threads hidden"
MISSING = "threads missing"
SHOWING = "threads showing"


@dataclass(frozen=True, slots=True)
class Limits:
    """The rules a bolt length is held against, in threads; whether hidden threads decide."""

    hidden_most: float
    showing_least: float
    showing_most: float
    hidden_decide: bool = True


@dataclass(frozen=True, slots=True)
class Joint:
    """What a bolt length is tried in: stack thickness, thread pitch, height of the nut if known."""

    thickness_mm: float
    pitch_mm: float
    nut_height_mm: float | None


def limits(metric: bool, nut_height_mm: float | None) -> Limits:
    """The rules `threads-hidden-most`, `threads-showing-least` and `threads-showing-most`.

    Hidden threads decide, but for metric bolts with a nut of known height: those come in steps of 5 mm,
    four to seven threads, which no washers bridge, or threaded to the head.

    Examples
    --------
    >>> limits(metric=False, nut_height_mm=None)
    Limits(hidden_most=1.0, showing_least=1.0, showing_most=3.0, hidden_decide=True)
    """
    names = ("threads-hidden-most", "threads-showing-least", "threads-showing-most")
    most, least, most_out = (rule(name).value for name in names)
    return Limits(most, least, most_out, not metric or nut_height_mm is None)


def hidden(length: BoltLength, joint: Joint) -> float:
    """Threads hidden in the stack: (stack - grip)/pitch, negative where the shank passes through."""
    return (joint.thickness_mm - length.grip_mm) / joint.pitch_mm


def showing(length: BoltLength, joint: Joint) -> float | None:
    """Threads past the nut, the chamfered end counted: (length - stack - nut)/pitch."""
    if joint.nut_height_mm is None:
        return None
    return (length.length_mm - joint.thickness_mm - joint.nut_height_mm) / joint.pitch_mm


def breaks(length: BoltLength, joint: Joint, held: Limits) -> tuple[str, ...]:
    """The rules that this length does not keep, worst first.

    Without the nut's height, a bolt that does not reach through the stack is still seen.

    Examples
    --------
    >>> five = BoltLength("AN3-5A", "AN3", 5, 6.35, 16.66875, 0.005, "example")
    >>> breaks(five, Joint(6.0, 0.79375, None), Limits(1, 1, 3))
    ('shank past the stack',)
    """
    inside, past = hidden(length, joint), showing(length, joint)
    found = []
    if inside < -NOISE:
        found.append(SHANK)
    if _missing(length, joint, held) > NOISE:
        found.append(MISSING)
    if inside > held.hidden_most + NOISE:
        found.append(HIDDEN)
    if past is not None and past > held.showing_most + NOISE:
        found.append(SHOWING)
    return tuple(found)


def fits(found: tuple[str, ...], held: Limits) -> bool:
    """Whether a bolt fits with these rules broken.

    More threads showing than `showing_most` decide nothing: where the shank ends inside the stack the
    count follows from the length of the bolt's thread alone, and what the rule guards against, a nut run
    up to the shank, has been looked at itself.

    Examples
    --------
    >>> fits(("threads showing",), Limits(1, 1, 3)), fits(("threads hidden",), Limits(1, 1, 3))
    (True, False)
    """
    return not set(found) - ({SHOWING} if held.hidden_decide else {SHOWING, HIDDEN})


def misfit(length: BoltLength, joint: Joint, held: Limits) -> tuple[float, float]:
    """How far a length is from fitting, in threads; smaller is better, compared left to right.

    First what cannot be assembled soundly (shank past the stack, threads missing in the nut), then
    threads hidden over the limit where they decide.
    """
    inside = hidden(length, joint)
    hard = max(0.0, -inside - NOISE) + max(0.0, _missing(length, joint, held) - NOISE)
    return hard, max(0.0, inside - held.hidden_most - NOISE) if held.hidden_decide else 0.0


def _missing(length: BoltLength, joint: Joint, held: Limits) -> float:
    """Threads that the bolt is too short; without the nut's height, as if the nut had none."""
    past = showing(length, joint)
    if past is None:
        past = (length.length_mm - joint.thickness_mm) / joint.pitch_mm
    return held.showing_least - past


def choice(length: BoltLength, joint: Joint, held: Limits) -> BoltChoice:
    """The length as a choice with its numbers and a sentence.

    Examples
    --------
    An AN3-5A (grip 1/4 in, length 21/32 in, 32 threads an inch) in 0.260 in with a nut 0.250 in high:
    0.010 x 32 threads hidden, (0.65625 - 0.260 - 0.250) x 32 showing.

    >>> five = BoltLength("AN3-5A", "AN3", 5, 6.35, 16.66875, 0.005, "example")
    >>> tried = choice(five, Joint(6.604, 0.79375, 6.35), Limits(1, 1, 3))
    >>> round(tried.threads_in_stack, 2), round(tried.threads_showing or 0, 2), tried.fits
    (0.32, 4.68, True)
    """
    found = breaks(length, joint, held)
    return BoltChoice(
        length=length,
        shank_past_stack_mm=length.grip_mm - joint.thickness_mm,
        threads_in_stack=hidden(length, joint),
        threads_showing=showing(length, joint),
        fits=fits(found, held),
        breaks=found,
        says=_sentence(length, joint, held, found),
    )


def _sentence(length: BoltLength, joint: Joint, held: Limits, found: tuple[str, ...]) -> str:
    said = f"{length.part}: {_hidden_words(length, joint)}, {_past_words(length, joint)}"
    if found == (SHOWING,):
        return f"{said} (more than {held.showing_most:g}: long thread; the shank ends inside the stack)"
    return said


def _hidden_words(length: BoltLength, joint: Joint) -> str:
    inside = hidden(length, joint)
    if inside < -NOISE:
        past_mm = length.grip_mm - joint.thickness_mm
        both = f"{show_length(past_mm, 'mm')} ({show_length(past_mm, 'in')})"
        return f"the shank passes {both} through the stack and the nut runs out of thread before it clamps"
    if length.grip_mm <= 0:
        return f"threaded to the head, all {inside:.1f} threads of the stack bear on it"
    return f"{max(0.0, inside):.1f} threads hidden in the stack"


def _past_words(length: BoltLength, joint: Joint) -> str:
    past = showing(length, joint)
    if past is None:
        return "threads past the nut not known (no nut height)"
    if past < 0:
        return f"the bolt ends {-past:.1f} threads inside the nut"
    return f"{past:.1f} threads past the nut"
