"""How a part settles when the tubes are not where they were measured.

The model, the same for all three kinds:

* The part (plate or component) is rigid, with its holes where they were designed.
* Tubes are straight. Their ends err together as `structure.uncertainty` says, or each on its own by the
  recipe's measuring error. A station counts from the tube's mark, or start, along the tube as it is.
* A clamp slides along and turns about its tube; its bolt stays as square to the part as the tube allows.
  With c its tube's axis, a the tube's direction, n the part's normal and w = n × a made unit, its bolt lies
  at turn · reach along w from c, and its foot at the seat's height along the bolt.
* So every clamp has three figures against the part: where it ends on its tube (station: sliding takes that
  up), its bolt against its hole along w (across: nothing takes that up), and the length between foot and part
  (gap: bushing, washers or spacer).

A **plate** is set as the drill sheet's order of work says. It stands on three feet with their packing as
listed, two of the reference tube (the tube with most clamps) and the one farthest from them: a rigid part
on three feet does not rock, it only stands a little out of level, and what the tubes are out in height
shows as a gap under every other foot. The reference tube's bolts are in their holes, and its first clamp is
at its station. Where the reference has but one clamp, the plate is turned about it until the other holes lie
as near as can be to their clamps, each at its station.

A **component** stands on three feet likewise; its holes are there already, so that all bolts together come
as near to them as they can (least squares), which may take it along the tubes as far as they splay. Tubes
within rule `tubes-parallel-most` of each other hold no place along them, and the first clamp of the reference
tube keeps its station. A component that is **fixed** in space stays there, as sure as its place was measured;
its gaps take up everything.

**Two clamps on a bolt**: the bolt is square to tube and line where they cross, else square to the tube at
its station; both clamps slide and turn, and the spacer takes up the rest. On a **panel** the bolt is square
to its face, and its hole is drilled before the line is there: across is how far the line then lies beside
it. A line whose spacer is given goes where that puts it.

What errs beside the tubes: each clamp's reach and seat (rule `caliper-error` where measured, each on its own;
rule `reach-error-default` where not, all clamps of one size alike), rounding of a plate's holes, and the
measured place of a line, panel or fixed component. That a station is marked off with a tape is not counted.

All of it is linear about the layout as drawn, with the normal and the places of the bolts that it has:
nothing is chosen anew. One matrix takes every input (a tube's end, a reach) to every figure; times the
factor of the inputs it gives what each cause does, and the root sum square of those, times `coverage-95`, is
the ±.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.layout.inputs import Inputs
from clampwright.layout.joined import Joined
from clampwright.layout.settled import Settled
from clampwright.structure.uncertainty import Uncertainty

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Settling:
    """What each input does to the part and its clamps: matrices with one column an input."""

    sure: Uncertainty
    inputs: Inputs
    part: Array
    """Twist in the world, shape (6, inputs)."""
    clamps: Mapping[str, Array]
    centres: Mapping[str, Array]
    """Displacement of the tube's point at the clamp's station as drawn, shape (3, inputs)."""
    across: Mapping[str, Array]
    """By label, shape (inputs,)."""
    station: Mapping[str, Array]
    gap: Mapping[str, Array]


def settling(layout: Joined) -> Settling:
    """Everything, input by input.

    Raises
    ------
    TypeError
        A layout of a kind that is not known here.
    """
    from clampwright.layout.bushing_placed import BushingLayout
    from clampwright.layout.placed import PlateLayout
    from clampwright.layout.settling_pair import settle_pair
    from clampwright.layout.settling_part import settle_component, settle_plate
    from clampwright.layout.stand_off_placed import StandOffLayout

    if isinstance(layout, PlateLayout):
        return settle_plate(layout)
    if isinstance(layout, BushingLayout):
        return settle_component(layout)
    if isinstance(layout, StandOffLayout):
        return settle_pair(layout)
    raise TypeError(f"how a {type(layout).__name__} settles is not known")


def settled(layout: Joined) -> Settled:
    """How part and clamps move, cause by cause: the model stands at the head of this file.

    Examples
    --------
    Two tubes known to ± 1.96 mm: one standard deviation of the first end of "low" along z lowers one end of
    the plate's reference, and the plate with it.

    >>> from clampwright.layout.lay_out import lay_out
    >>> from clampwright.layout.settled import moved
    >>> from clampwright.recipe.read import read_text
    >>> lines = [
    ...     'kind = "accessory plate"',
    ...     'name = "relay-plate"',
    ...     "measuring.error = 1.96",
    ...     "structure.tubes.low = { start = [0, 0, 0], end = [500, 0, 0], od = 19.05 }",
    ...     "structure.tubes.high = { start = [0, 150, 0], end = [500, 150, 0], od = 19.05 }",
    ...     'carries = [{ name = "relay", mass = "0.1 kg", holes = [[-15, 0], [15, 0]] }]',
    ... ]
    >>> found = settled(lay_out(read_text("\\n".join(lines))))
    >>> round(float(moved(found.part, (125.0, 0.0, 13.0))[2, 2]), 6)
    0.75
    """
    found = settling(layout)
    factor = found.inputs.factor(found.sure)
    return Settled(
        uncertainty=found.sure,
        causes=factor.shape[1],
        part=found.part @ factor,
        clamps={label: twist @ factor for label, twist in found.clamps.items()},
    )
