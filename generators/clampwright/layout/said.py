"""Directions and lists in words, for sentences that people work by."""

from __future__ import annotations

from clampwright.quantities import Vec3

_SIDES = (("+x", "-x"), ("+y", "-y"))


def from_where(away: Vec3) -> str:
    """From which side something comes that lies along a direction, by its greatest part; z is up.

    >>> from_where((0.0, 0.1, 0.9)), from_where((0.0, 0.0, -1.0)), from_where((-0.9, 0.1, 0.2))
    ('from above', 'from below', 'from the -x side')
    """
    x, y, z = away
    if abs(z) >= max(abs(x), abs(y)):
        return "from above" if z > 0 else "from below"
    axis = 0 if abs(x) >= abs(y) else 1
    return f"from the {_SIDES[axis][0] if away[axis] > 0 else _SIDES[axis][1]} side"


def named_list(names: tuple[str, ...]) -> str:
    """Names in a sentence.

    >>> named_list(("A1",)), named_list(("A1", "A2", "B1"))
    ('A1', 'A1, A2 and B1')
    """
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} and {names[-1]}"
