"""What stands in a part of the page, in arrays: whether texts and lines may come beside it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from clampwright.sheets import collisions
from clampwright.sheets.collisions import Array, Flags
from clampwright.sheets.drawing import Box
from clampwright.sheets.shop.dimensioning.meeting import meet
from clampwright.sheets.shop.dimensioning.strokes import Segment, Strokes, box_of, segments
from clampwright.sheets.shop.dimensioning.style import AIR

ARROW_AIR = 0.3


@dataclass(frozen=True, slots=True)
class Standing:
    """Boxes of texts, lines, and circles (x, y, radius), one a row; `firm` are lines that none may cross."""

    window: Box
    texts: Array
    thin: Array
    extension: Array
    firm: Array
    rings: Array

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
        fine = self.extension_clear(lines)
        return np.asarray(fine & ~meet(lines, self.firm, ARROW_AIR))

    def extension_clear(self, lines: Array) -> Flags:
        """Extension lines (n, 4) that meet no text."""
        return ~collisions.leaders_hit_boxes(lines, self.texts, ARROW_AIR)

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
        hit = np.zeros(len(boxes), dtype=bool)
        for lines in (self.thin, self.extension, self.firm):
            hit |= collisions.segments_hit_boxes(boxes, lines, air)
        return ~hit

    def _off_rings(self, boxes: Array, air: float) -> Flags:
        """Off the circles' lines: wholly outside or wholly inside each."""
        if not len(self.rings):
            return np.ones(len(boxes), dtype=bool)
        c = self.rings[None, :, :]
        b = boxes[:, None, :]
        near = [np.clip(c[..., k], b[..., k], b[..., k + 2]) - c[..., k] for k in (0, 1)]
        far = [np.maximum(abs(c[..., k] - b[..., k]), abs(c[..., k] - b[..., k + 2])) for k in (0, 1)]
        outside = np.hypot(*near) >= c[..., 2] + air
        inside = np.hypot(*far) <= c[..., 2] - air
        return np.asarray((outside | inside).all(axis=1))
