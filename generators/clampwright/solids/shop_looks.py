"""Which way the eye looks at a part in each view of a drawing. Of plain numbers."""

from __future__ import annotations

from clampwright.solids.place import Place

LOOKS = {
    "front": Place(x=(1.0, 0.0, 0.0), z=(0.0, 0.0, 1.0)),
    "top": Place(x=(1.0, 0.0, 0.0), z=(0.0, 1.0, 0.0)),
    "bottom": Place(x=(1.0, 0.0, 0.0), z=(0.0, -1.0, 0.0)),
    "right": Place(x=(0.0, 0.0, -1.0), z=(1.0, 0.0, 0.0)),
    "left": Place(x=(0.0, 0.0, 1.0), z=(-1.0, 0.0, 0.0)),
    "back": Place(x=(-1.0, 0.0, 0.0), z=(0.0, 0.0, -1.0)),
}
"""Frame of each picture in the part's frame (x right, y up, z towards the eye of the front view).

They are the same in both angles of projection; what differs is where on the sheet they stand. "right" is
what is seen from the right of the front view.
"""

ALONG_THE_BORE = Place(x=(0.0, 0.0, 1.0), z=(0.0, 1.0, 0.0))
"""Picture of a turned part whose bore is its z: the bore runs across, its lower end on the left."""
END_ON = Place()
"""Picture of a turned part's upper end: the bore seen square on."""
