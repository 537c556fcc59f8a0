"""Scales that pictures are drawn to, and how they are written."""

from __future__ import annotations

from fractions import Fraction

from clampwright.quantities import Vec2

SCALES = (Fraction(5), Fraction(2), Fraction(1), *(Fraction(1, n) for n in (2, 3, 4, 5, 10, 20, 50)))
"""Largest first: those of ISO 5455, and 1:3 and 1:4, which rules for inches have."""


def scale_to_fit(size_mm: Vec2, room: Vec2) -> float:
    """The largest of the scales at which something fits into the room; smaller than all where none does.

    Examples
    --------
    >>> scale_to_fit((20.0, 30.0), (50.0, 70.0)), scale_to_fit((200.0, 30.0), (50.0, 70.0))
    (2.0, 0.25)
    """
    most = min(have / need for need, have in zip(size_mm, room, strict=True) if need > 0)
    return next((float(scale) for scale in SCALES if float(scale) <= most + 1e-9), most)


def scale_words(scale: float) -> str:
    """A scale as drawings state it.

    Examples
    --------
    >>> scale_words(2.0), scale_words(0.25), scale_words(1.0), scale_words(0.013)
    ('2:1', '1:4', '1:1', '1:76.9')
    """
    exact = next((each for each in SCALES if abs(float(each) - scale) < 1e-9), None)
    if exact is None:
        return f"1:{1 / scale:.1f}" if scale < 1 else f"{scale:.2f}:1"
    return f"{exact.numerator}:{exact.denominator}"
