"""Pens, colours and letter sizes of the sheets: black, two greys and one accent."""

from __future__ import annotations

from clampwright.sheets.drawing import Pen

BLACK = "#000000"
GREY = "#6b6b6b"
PALE = "#d9d9d9"
WHITE = "#ffffff"
ACCENT = "#b3261e"

OUTLINE = Pen(0.35)
HOLE = Pen(0.2)
CROSS = Pen(0.1)
FINE = Pen(0.13)
FRAME = Pen(0.25)
TUBE = Pen(0.25, GREY, (4.0, 1.2))
BAND = Pen(0.13, GREY)
FOOTPRINT = Pen(0.13, GREY, (0.6, 1.2))
DATUM = Pen(0.18, BLACK, (5.0, 1.0, 0.8, 1.0))
TRIM = Pen(0.15, GREY, (1.5, 1.5))

BODY = 2.7
SMALL = 2.25
HEAD = 3.2
