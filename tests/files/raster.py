"""Measuring printed pages: a PDF page as pixels at 600 dpi, and what a caliper would find on it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pypdfium2
from numpy.typing import NDArray

from clampwright.quantities import Vec2

DPI = 600
POINT_MM = 25.4 / 72


@dataclass(frozen=True)
class Raster:
    """Grey of each pixel, 255 is white, row 0 at the bottom; `mm` is the size of a pixel."""

    grey: NDArray[np.uint8]
    mm: Vec2

    def ink(self, rows: slice | NDArray[np.int64], columns: slice | NDArray[np.int64]) -> NDArray[np.float64]:
        """Darkness, 0 to 1."""
        return np.asarray(1.0 - self.grey[rows, columns] / 255.0)

    def around(
        self, at: Vec2, reach: float
    ) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.float64]]:
        """Pixels near a place: x and y of their centres in mm, and their darkness."""
        x0, x1 = (max(0, int((at[0] + s * reach) / self.mm[0])) for s in (-1, 1))
        y0, y1 = (max(0, int((at[1] + s * reach) / self.mm[1])) for s in (-1, 1))
        ink = self.ink(slice(y0, y1 + 1), slice(x0, x1 + 1))
        x = (x0 + np.arange(ink.shape[1]) + 0.5) * self.mm[0]
        y = (y0 + np.arange(ink.shape[0]) + 0.5) * self.mm[1]
        return *np.meshgrid(x, y), ink

    def circle(self, near: Vec2, radius: float, search: float = 0.8) -> tuple[Vec2, float]:
        """Centre and radius of the circle that is drawn near a place: least squares on its dark pixels.

        Pixels by the arms of the cross and off the expected ring are left out; then again, closer to the
        circle found.
        """
        centre, r = near, radius
        for band in (search, 0.35, 0.25):
            x, y, ink = self.around(centre, r + band)
            off = np.abs(np.hypot(x - centre[0], y - centre[1]) - r)
            arms = np.minimum(np.abs(x - centre[0]), np.abs(y - centre[1])) < 0.45 + band / 2
            weight = np.where((off < band) & ~arms & (ink > 0.3), ink, 0.0)
            assert weight.sum() > 20, f"no circle near {near}"
            matrix = np.stack([2 * x, 2 * y, np.ones_like(x)], axis=-1).reshape(-1, 3)
            w = weight.reshape(-1)
            keep = w > 0
            side = (x * x + y * y).reshape(-1)[keep] * w[keep]
            a, b, c = np.linalg.lstsq(matrix[keep] * w[keep, None], side, rcond=None)[0]
            centre, r = (float(a), float(b)), float(np.sqrt(c + a * a + b * b))
        return centre, r

    def edge(self, start: Vec2, way: Vec2, length: float) -> tuple[float, float]:
        """Where darkness begins and ends along a line, from its start, to a fraction of a pixel."""
        steps = int(length / self.mm[0] * 4)
        t = np.arange(steps) * length / steps
        x, y = (start[0] + way[0] * t) / self.mm[0] - 0.5, (start[1] + way[1] * t) / self.mm[1] - 0.5
        values = self._between(x, y)
        dark = np.flatnonzero(values > 0.5)
        assert len(dark), f"nothing dark from {start}"
        return self._crossing(t, values, dark[0] - 1), self._crossing(t, values, dark[-1])

    def _between(self, x: NDArray[np.float64], y: NDArray[np.float64]) -> NDArray[np.float64]:
        i, j = np.floor(x).astype(int), np.floor(y).astype(int)
        a, b = x - i, y - j
        low = self.ink(j, i) * (1 - a) + self.ink(j, i + 1) * a
        high = self.ink(j + 1, i) * (1 - a) + self.ink(j + 1, i + 1) * a
        return np.asarray(low * (1 - b) + high * b)

    @staticmethod
    def _crossing(t: NDArray[np.float64], values: NDArray[np.float64], n: int) -> float:
        share = (0.5 - values[n]) / (values[n + 1] - values[n])
        return float(t[n] + share * (t[n + 1] - t[n]))


def rasters(pdf: bytes) -> list[Raster]:
    """Every page at 600 dpi."""
    document = pypdfium2.PdfDocument(pdf)
    found = []
    for page in document:
        image = page.render(scale=DPI / 72, grayscale=True).to_numpy()
        grey = np.array(image.reshape(image.shape[0], image.shape[1])[::-1])
        size = page.get_width() * POINT_MM / grey.shape[1], page.get_height() * POINT_MM / grey.shape[0]
        found.append(Raster(grey, size))
        page.close()
    document.close()
    return found
