"""A body of the assembly: a shape, its name, colour and place."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.solids.place import Place
from clampwright.solids.shapes import Shape, moved

COLOURS = {
    "plate": "#8fb3d9",
    "bushing": "#d9a441",
    "washer": "#c9c3a3",
    "bolt": "#b3a369",
    "nut": "#a08f57",
    "band": "#a7adb3",
    "cushion": "#4a4a4a",
    "tube": "#76808a",
    "component": "#8bb38b",
    "line": "#5d8aa8",
    "wrap": "#6b4f3a",
    "panel": "#b9bec4",
    "keep-out": "#c4705a",
}
"""Colour of each role in files and pictures, "#rrggbb"."""


INK_SHARE = 60
"""How much of a colour's light its ink keeps, percent."""


@dataclass(frozen=True, slots=True)
class Body:
    """One body. `shape` is in its own frame; bodies of one `product` share one shape.

    `role` is a key of `COLOURS`. Only "plate" and "bushing" are parts to be made; all others are there to
    show where things sit.
    """

    name: str
    product: str
    role: str
    shape: Shape
    place: Place

    @property
    def colour(self) -> str:
        """Colour of its role, "#rrggbb"."""
        return COLOURS[self.role]

    @property
    def ink(self) -> str:
        """The same colour, dark enough for a line on white paper."""
        red, green, blue = (int(self.colour[k : k + 2], 16) * INK_SHARE // 100 for k in (1, 3, 5))
        return f"#{red:02x}{green:02x}{blue:02x}"

    def placed(self) -> Shape:
        """The shape where it sits."""
        return moved(self.shape, self.place)
