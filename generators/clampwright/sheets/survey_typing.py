"""How what was measured is typed into a survey file: an example, line by line."""

from __future__ import annotations

from clampwright.sheets.drawing import Text
from clampwright.sheets.flow import LEADING, Block, gap, heading, paragraph
from clampwright.sheets.ink import BODY

EXAMPLE = """\
kind = "tape survey"
name = "my-mount"
units = "in"

[tubes.upper-left]
from = "A"
to = "B"
od = "3/4 in"

[tubes.upper-right]
from = "C"
to = "D"
od = "3/4 in"

[datum]
origin = "F1"
along = ["y", "F2"]
plane = ["z", "F3"]

[measured]
distances = [
  ["F1", "A", "20-3/32"],
  ["F2", "A", "27-1/2"],
  ["A", "B", "14-7/8"],
  ["A", "C", "21-11/16", "outside"],
]"""


def typing_blocks(room: float) -> list[Block]:
    """A reading followed from the tape to the file, and a short file."""
    said = (
        "Held at 1 in at F1, read at ring A: 21-1/16; from the other end 21-1/8. Their mean is 21-3/32, "
        "less 1 in is "
        '20-3/32. A reading over or between tubes says so behind its figure: "outside", "inside".'
    )
    lines = [
        Block(
            BODY * LEADING,
            (Text((4.0 + 2.0 * (len(line) - len(line.lstrip())) / 2, -BODY), line.strip(), BODY),),
        )
        for line in EXAMPLE.splitlines()
    ]
    return [
        *heading("An example, from the tape to the file", room),
        *paragraph(said, room),
        gap(1.0),
        *lines,
        gap(4.0),
    ]
