"""What hangs under the plate at a bolt: nut and bolt end."""

from __future__ import annotations

import math
from dataclasses import dataclass

from clampwright.layout.placed import Stack
from clampwright.quantities.kinds import INCH
from clampwright.trade.bolts import bolt, bolt_names
from clampwright.trade.fasteners import nominal_mm, thread
from clampwright.trade.tables import rule


@dataclass(frozen=True, slots=True)
class NutUnder:
    """Nut and bolt end under the plate: depths below its near face, and radii."""

    face_mm: float
    """Of the nut's bearing face."""
    end_mm: float
    """Of the lowest place."""
    corners_mm: float
    """Radius over the nut's corners."""
    socket_mm: float
    """Radius of what turns the nut."""


NOTHING = NutUnder(0.0, 0.0, 0.0, 0.0)
"""Under a component that no bolt holds, or whose nut the tables do not know."""


def nut_under(stack: Stack) -> NutUnder:
    """Nut and bolt end of a stack whose plate lies above all that is under it.

    Where the bolt's length is not known, it ends rule `threads-showing-most` past the nut.

    >>> from clampwright.layout.stacks import build_stack, component_items
    >>> from clampwright.trade.hardware import nut
    >>> stack = build_stack("AN3", component_items(3.175, 2.286, "AN3"), nut("MS21044", "AN3"))
    >>> under = nut_under(stack)
    >>> round(under.face_mm, 2), round(under.end_mm, 2), round(under.corners_mm, 2)
    (0.81, 10.39, 5.51)
    """
    names = [item.name for item in stack.items]
    below = stack.items[names.index("plate") + 1 :]
    face = sum(item.thickness_mm * item.count for item in below)
    height = stack.nut.height_mm if stack.nut.height_mm is not None else nominal_mm(stack.bolt)
    if stack.chosen is not None:
        end = face + stack.chosen.length.length_mm - stack.thickness_mm
    else:
        end = face + height + rule("threads-showing-most").value * _pitch(stack.bolt)
    corners = stack.nut.across_flats_mm / math.sqrt(3.0)
    known = stack.bolt in bolt_names()
    socket = bolt(stack.bolt).socket_od_mm / 2 if known else corners
    return NutUnder(face, max(end, face + height), corners, socket)


def _pitch(fastener: str) -> float:
    """Pitch of a bolt, or of a screw by its threads to the inch."""
    if fastener in bolt_names():
        return bolt(fastener).pitch_mm
    return float(INCH) / float(thread(fastener).rsplit("-", 1)[1])
