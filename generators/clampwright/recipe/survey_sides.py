"""Forward, left, above: the words for where things are, and the directions of the frame that they mean."""

from __future__ import annotations

from clampwright.quantities import Vec3
from clampwright.quantities.directions import cross, dot

FROM_THE_SEAT, LOOKING_AFT = "from the seat", "looking aft"
"""Where left and right are meant from: as one sits in the aircraft, or as one stands before the nose."""

DIRECTIONS = ("forward", "aft", "left", "right", "up", "down")

SIDES = {
    "forward of": "forward",
    "aft of": "aft",
    "left of": "left",
    "right of": "right",
    "above": "up",
    "below": "down",
}
"""The word between two points, and the direction that it means."""

_AXES = {f"{sign}{axis} of": (axis, sign) for axis in "xyz" for sign in "+-"}
SIDE_WORDS = (*SIDES, *_AXES)

_SEAT: dict[str, Vec3] = {
    "forward": (1.0, 0.0, 0.0),
    "aft": (-1.0, 0.0, 0.0),
    "left": (0.0, 1.0, 0.0),
    "right": (0.0, -1.0, 0.0),
    "up": (0.0, 0.0, 1.0),
    "down": (0.0, 0.0, -1.0),
}
"""The directions as one sits in the aircraft: forward, left and up are right-handed."""


def toward(word: str, x: str, z: str, left_right: str) -> Vec3:
    """Direction in the frame that a word between two points means; of one length.

    `x` and `z` are the directions that those axes of the frame point in, which must not be in one line; y
    follows, for the frame is right-handed.

    >>> toward("forward of", "forward", "up", FROM_THE_SEAT), toward("right of", "forward", "up", LOOKING_AFT)
    ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
    >>> toward("above", "right", "forward", FROM_THE_SEAT)
    (0.0, -1.0, 0.0)
    """
    if word in _AXES:
        axis, sign = _AXES[word]
        one = 1.0 if sign == "+" else -1.0
        return (one if axis == "x" else 0.0, one if axis == "y" else 0.0, one if axis == "z" else 0.0)
    meant = _meant(SIDES[word], left_right)
    along_x, along_z = _meant(x, left_right), _meant(z, left_right)
    return (dot(meant, along_x), dot(meant, cross(along_z, along_x)), dot(meant, along_z))


def y_points(x: str, z: str, left_right: str) -> str:
    """The word for where y points: the frame is right-handed.

    >>> y_points("forward", "up", FROM_THE_SEAT), y_points("forward", "up", LOOKING_AFT)
    ('left', 'right')
    """
    y = cross(_meant(z, left_right), _meant(x, left_right))
    return next(word for word in DIRECTIONS if dot(_meant(word, left_right), y) == 1.0)


def in_one_line(x: str, z: str) -> bool:
    """Whether two directions are the same or opposite.

    >>> in_one_line("up", "down"), in_one_line("up", "left")
    (True, False)
    """
    return dot(_SEAT[x], _SEAT[z]) != 0.0


def _meant(word: str, left_right: str) -> Vec3:
    x, y, z = _SEAT[word]
    return (x, -y if left_right == LOOKING_AFT else y, z)
