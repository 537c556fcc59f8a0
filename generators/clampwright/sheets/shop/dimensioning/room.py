"""What stands on a page already, and whether a text or a line may come beside it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np

from clampwright.quantities import Vec2
from clampwright.sheets.collisions import Array, Flags
from clampwright.sheets.drawing import Box, Item, Text
from clampwright.sheets.shop.dimensioning.standing import Standing
from clampwright.sheets.shop.dimensioning.strokes import Segment, Strokes, box_of, circles, segments
from clampwright.sheets.shop.dimensioning.style import AIR

_REACH = 2.0
"""What stands farther than so many millimetres from a box touches nothing in it."""


@dataclass(slots=True)
class Room:
    """A window of the page.

    No text may touch anything. A `line` of a dimension may cross outlines (`thin`) and, where it must,
    extension lines, but no other dimension's line (`firm`) and no text.
    """

    window: Box
    texts: list[Box] = field(default_factory=list)
    thin: list[Segment] = field(default_factory=list)
    extension: list[Segment] = field(default_factory=list)
    firm: list[Segment] = field(default_factory=list)
    rings: list[tuple[float, float, float]] = field(default_factory=list)
    _arrays: dict[str, Array] = field(default_factory=dict)

    def add_items(self, items: Iterable[Item]) -> None:
        """Outlines, tables and whatever else is drawn already."""
        held = list(items)
        self.texts += [box_of(item) for item in held if isinstance(item, Text)]
        self.thin += segments(held)
        self.rings += circles(held)

    def add(self, strokes: Strokes) -> None:
        """A dimension that has found its place."""
        self.texts += [box_of(text) for text in strokes.texts]
        self.extension += segments(strokes.extension)
        self.firm += segments((*strokes.lines, *strokes.heads))

    def take_in(self, other: Room) -> None:
        """What stands in another room, too."""
        self.texts += other.texts
        self.thin += other.thin
        self.extension += other.extension
        self.firm += other.firm
        self.rings += other.rings

    def shifted(self, by: Vec2) -> Room:
        """The same elsewhere on the page; its window stays."""
        dx, dy = by

        def four(held: Sequence[Segment]) -> list[Segment]:
            return [(a + dx, b + dy, c + dx, d + dy) for a, b, c, d in held]

        rings = [(x + dx, y + dy, r) for x, y, r in self.rings]
        texts, thin = four(self.texts), four(self.thin)
        return Room(self.window, texts, thin, four(self.extension), four(self.firm), rings)

    def copy(self) -> Room:
        """One to try things in."""
        texts, thin, extension, firm = self.texts[:], self.thin[:], self.extension[:], self.firm[:]
        return Room(self.window, texts, thin, extension, firm, self.rings[:], dict(self._arrays))

    def standing(self, box: Box | None = None) -> Standing:
        """All that stands here, or what may touch something inside a box."""
        lines = [self._array(name, 4) for name in ("texts", "thin", "extension", "firm")]
        rings = self._array("rings", 3)
        if box is not None:
            x0, y0, x1, y1 = (side + off for side, off in zip(box, _AROUND, strict=True))
            lines = [
                held[
                    (np.maximum(held[:, 0], held[:, 2]) >= x0)
                    & (np.minimum(held[:, 0], held[:, 2]) <= x1)
                    & (np.maximum(held[:, 1], held[:, 3]) >= y0)
                    & (np.minimum(held[:, 1], held[:, 3]) <= y1)
                ]
                for held in lines
            ]
            x, y, r = rings.T
            rings = rings[(x + r >= x0) & (x - r <= x1) & (y + r >= y0) & (y - r <= y1)]
        texts, thin, extension, firm = lines
        return Standing(self.window, texts, thin, extension, firm, rings)

    def free(self, boxes: Array, air: float = AIR) -> Flags:
        """Boxes (n, 4) for a text that touch nothing."""
        return self.standing().free(boxes, air)

    def takes(self, strokes: Strokes, rays: Sequence[Segment] = ()) -> bool:
        """Whether a dimension may stand where it is; `rays`: lines that will come, and no text may meet."""
        return self.standing().takes(strokes, rays)

    def _array(self, name: str, wide: int) -> Array:
        """One of the lists, which only grow, as rows."""
        held, known = getattr(self, name), self._arrays.get(name)
        if known is None or len(known) != len(held):
            start = 0 if known is None else len(known)
            more = np.array(held[start:], dtype=float).reshape(-1, wide)
            known = more if known is None else np.concatenate([known, more])
            self._arrays[name] = known
        return known


_AROUND = (-_REACH, -_REACH, _REACH, _REACH)
