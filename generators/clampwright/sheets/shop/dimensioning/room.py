"""What stands on a page already, and whether a text or a line may come beside it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np

from clampwright.quantities import Vec2
from clampwright.sheets import collisions
from clampwright.sheets.collisions import Array, Flags
from clampwright.sheets.drawing import Box, Item, Text
from clampwright.sheets.shop.dimensioning.meeting import meet
from clampwright.sheets.shop.dimensioning.strokes import Segment, Strokes, box_of, circles, segments
from clampwright.sheets.shop.dimensioning.style import AIR

_ARROW_AIR = 0.3


@dataclass(slots=True)
class Room:
    """A window of the page.

    No text may touch anything. A `line` of a dimension may cross outlines and extension lines (`thin`), but
    no other dimension's line (`firm`) and no text.
    """

    window: Box
    texts: list[Box] = field(default_factory=list)
    thin: list[Segment] = field(default_factory=list)
    firm: list[Segment] = field(default_factory=list)
    rings: list[tuple[float, float, float]] = field(default_factory=list)

    def add_items(self, items: Iterable[Item]) -> None:
        """Outlines, tables and whatever else is drawn already."""
        held = list(items)
        self.texts += [box_of(item) for item in held if isinstance(item, Text)]
        self.thin += segments(held)
        self.rings += circles(held)

    def add(self, strokes: Strokes) -> None:
        """A dimension that has found its place."""
        self.texts += [box_of(text) for text in strokes.texts]
        self.thin += segments(strokes.extension)
        self.firm += segments((*strokes.lines, *strokes.heads))

    def take_in(self, other: Room) -> None:
        """What stands in another room, too."""
        self.texts += other.texts
        self.thin += other.thin
        self.firm += other.firm
        self.rings += other.rings

    def shifted(self, by: Vec2) -> Room:
        """The same elsewhere on the page; its window stays."""
        dx, dy = by

        def four(held: Sequence[Segment]) -> list[Segment]:
            return [(a + dx, b + dy, c + dx, d + dy) for a, b, c, d in held]

        rings = [(x + dx, y + dy, r) for x, y, r in self.rings]
        return Room(self.window, four(self.texts), four(self.thin), four(self.firm), rings)

    def copy(self) -> Room:
        """One to try things in."""
        return Room(self.window, self.texts[:], self.thin[:], self.firm[:], self.rings[:])

    def free(self, boxes: Array, air: float = AIR) -> Flags:
        """Boxes (n, 4) for a text that touch nothing."""
        fine = collisions.within(boxes, self.window)
        for test in (self._off_texts, self._off_rings, self._off_lines):
            if not fine.any():
                break
            fine[fine] = test(boxes[fine], air)
        return fine

    def lines_clear(self, lines: Array) -> Flags:
        """Dimension lines or leaders (n, 4) that meet no text and cross no other dimension's line."""
        fine = ~collisions.leaders_hit_boxes(lines, self.texts, _ARROW_AIR)
        return np.asarray(fine & ~meet(lines, np.array(self.firm).reshape(-1, 4), _ARROW_AIR))

    def extension_clear(self, lines: Array) -> Flags:
        """Extension lines (n, 4) that meet no text."""
        return ~collisions.leaders_hit_boxes(lines, self.texts, _ARROW_AIR)

    def takes(self, strokes: Strokes, rays: Sequence[Segment] = ()) -> bool:
        """Whether a dimension may stand where it is; `rays`: lines that will come, and no text may meet."""
        boxes = np.array([box_of(text) for text in strokes.texts]).reshape(-1, 4)
        if not self.free(boxes).all() or collisions.segments_hit_boxes(boxes, rays, AIR).any():
            return False
        firm = np.array([*segments((*strokes.lines, *strokes.heads))]).reshape(-1, 4)
        thin = np.array([*segments(strokes.extension)]).reshape(-1, 4)
        return bool(self.lines_clear(firm).all() and self.extension_clear(thin).all())

    def _off_texts(self, boxes: Array, air: float) -> Flags:
        return ~collisions.boxes_hit(boxes, self.texts, air)

    def _off_lines(self, boxes: Array, air: float) -> Flags:
        return ~collisions.segments_hit_boxes(boxes, [*self.thin, *self.firm], air)

    def _off_rings(self, boxes: Array, air: float) -> Flags:
        """Off the circles' lines: wholly outside or wholly inside each."""
        if not self.rings:
            return np.ones(len(boxes), dtype=bool)
        c = np.asarray(self.rings)[None, :, :]
        b = boxes[:, None, :]
        near = [np.clip(c[..., k], b[..., k], b[..., k + 2]) - c[..., k] for k in (0, 1)]
        far = [np.maximum(abs(c[..., k] - b[..., k]), abs(c[..., k] - b[..., k + 2])) for k in (0, 1)]
        outside = np.hypot(*near) >= c[..., 2] + air
        inside = np.hypot(*far) <= c[..., 2] - air
        return np.asarray((outside | inside).all(axis=1))
