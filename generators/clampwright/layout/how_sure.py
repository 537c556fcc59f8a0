"""What each clamp of a layout is known to, from how the layout settles."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from clampwright.layout.joined import Joined, Loop
from clampwright.layout.known_to import Apart, KnownTo
from clampwright.layout.on_feet import reference_tube, stands_on
from clampwright.layout.own_causes import REACH, SEAT, OwnCause
from clampwright.layout.placed import ClampPlace
from clampwright.layout.settling import Settling, settling
from clampwright.structure.uncertainty import coverage

Array = npt.NDArray[np.float64]

_NOTHING = 1e-6
"""Millimetres that are only noise."""
_EVEN = 6
"""Decimals of a millimetre to which equal shares are equal, and the clamp's own tube counts."""


def known_to(layout: Joined) -> tuple[KnownTo, ...]:
    """± (95 %) of every clamp's station, bolt and gap, in the order of the layout's clamps.

    The figures are those of `settling`; of a layout that carries them already, those.

    Examples
    --------
    Two parallel tubes, ends known to ± 1 mm, clamps at their middles: there an end's error counts half, the
    distance between both tubes √(4 · ½²) = 1 mm.

    >>> from clampwright.layout.lay_out import lay_out
    >>> from clampwright.recipe.read import read_text
    >>> lines = [
    ...     'kind = "accessory plate"',
    ...     'name = "relay-plate"',
    ...     "measuring.error = 1",
    ...     "clamps.at = [",
    ...     "  { tube = 'low', station = 150, reach = 20 }, { tube = 'low', station = 350, reach = 20 },",
    ...     "  { tube = 'high', station = 250, reach = 20 },",
    ...     "]",
    ...     "plate.round_to = 0",
    ...     "structure.tubes.low = { start = [0, 0, 0], end = [500, 0, 0], od = 19.05 }",
    ...     "structure.tubes.high = { start = [0, 150, 0], end = [500, 150, 0], od = 19.05 }",
    ...     'carries = [{ name = "relay", mass = "0.1 kg", holes = [[-15, 0], [15, 0]] }]',
    ... ]
    >>> a1, a2, b1 = known_to(lay_out(read_text("\\n".join(lines))))
    >>> round(a1.across_mm, 6), round(b1.across_mm, 2), round(b1.gap_mm, 6)
    (0.0, 1.02, 0.0)
    """
    return layout.known_to or worked_out(layout)


def worked_out(layout: Joined) -> tuple[KnownTo, ...]:
    """The same, worked out anew whatever the layout carries."""
    found = settling(layout)
    view = _View(found, found.inputs.factor(found.sure), reference_tube(layout.loops), _carrying(layout))
    return tuple(_of_clamp(loop, layout.loops, view) for loop in layout.loops)


@dataclass(frozen=True, slots=True)
class _View:
    """What every clamp's figures are made from."""

    found: Settling
    factor: Array
    reference: str
    carry: tuple[str, ...]

    def parts(self, row: Array) -> dict[str, float]:
        """Sum of squares of one figure (one standard deviation) by what it comes from."""
        sums: dict[str, float] = {}
        inputs = self.found.inputs
        for i, tube in enumerate(inputs.tubes):
            mine = [*range(6 * i, 6 * i + 6)]
            mine += [inputs.slip_column(tube.name)] if tube.name in inputs.marked else []
            moved = row[mine] @ self.factor[mine]
            sums[f"the place of {tube.name}"] = float(moved @ moved)
        for value, cause in self.own(row):
            sums[cause.said] = sums.get(cause.said, 0.0) + float(value * cause.sigma_mm) ** 2
        return sums

    def own(self, row: Array) -> Iterator[tuple[float, OwnCause]]:
        """What each of the layout's own causes does to one figure."""
        inputs = self.found.inputs
        first = 6 * len(inputs.tubes)
        return zip(row[first : first + len(inputs.own)].tolist(), inputs.own, strict=True)

    def size(self, row: Array) -> float:
        """± of one figure; nothing where it is only noise."""
        found = coverage() * float(np.linalg.norm(row @ self.factor))
        return found if found > _NOTHING else 0.0

    def unmeasured(self, row: Array, kind: str = "") -> float:
        """± of one figure from defaults that nobody measured, all or of one kind."""
        squares = [
            float(value * cause.sigma_mm) ** 2
            for value, cause in self.own(row)
            if not cause.given and kind in ("", cause.kind)
        ]
        found = coverage() * float(sum(squares)) ** 0.5
        return found if found > _NOTHING else 0.0

    def given(self, row: Array) -> bool:
        """Whether all that a figure rests on was stated or measured."""
        causes = self.found.sure.causes
        tubes = float(np.linalg.norm(row @ self.factor[:, :causes])) * coverage()
        return not self.unmeasured(row) and (self.found.sure.given or tubes <= _NOTHING)

    def most(self, row: Array, tube: str) -> str:
        """What the most of one figure comes from; "" of nothing."""
        if not self.size(row):
            return ""
        sums = self.parts(row)
        own = f"the place of {tube}"
        return max(sums, key=lambda said: (round(coverage() * sums[said] ** 0.5, _EVEN), said == own))


def _of_clamp(loop: Loop, loops: Sequence[Loop], view: _View) -> KnownTo:
    found = view.found
    across, gap, station = (rows[loop.label] for rows in (found.across, found.gap, found.station))
    of_gap, of_across = view.most(gap, loop.tube), view.most(across, loop.tube)
    return KnownTo(
        clamp=loop.label,
        station_mm=view.size(station),
        across_mm=view.size(across),
        gap_mm=view.size(gap),
        given=all(view.given(row) for row in (across, gap, station)),
        most_from=of_across or of_gap,
        across_given=view.given(across),
        gap_given=view.given(gap),
        gap_most_from=of_gap,
        reach_mm=view.unmeasured(across, REACH),
        seat_mm=view.unmeasured(gap, SEAT),
        carries=loop.label in view.carry,
        apart=_apart(loop, loops, across, view),
    )


def _apart(loop: Loop, loops: Sequence[Loop], across: Array, view: _View) -> Apart | None:
    """The distance from the reference tube to this clamp's, abreast of it."""
    names = [tube.name for tube in view.found.inputs.tubes]
    if loop.tube == view.reference or loop.tube not in names or view.reference not in names:
        return None
    inputs = view.found.inputs
    reference = inputs.tubes[names.index(view.reference)]
    station = reference.station(loop.centre)
    away = np.array(loop.centre) - np.array(reference.point(station))
    distance = float(np.linalg.norm(away))
    if distance < _NOTHING:
        return None
    share = station / reference.length_mm
    ends = inputs.ends(reference.name)
    row = away / distance @ (view.found.centres[loop.label] - (1.0 - share) * ends[:3] - share * ends[3:])
    known, off = row @ view.factor, across @ view.factor
    return Apart(
        one=reference.name,
        other=loop.tube,
        station_mm=loop.station_mm,
        distance_mm=distance,
        spread_mm=view.size(row),
        shared_mm2=coverage() ** 2 * float(known @ off),
        mark_mm=inputs.tubes[names.index(loop.tube)].mark_mm,
    )


def _carrying(layout: Joined) -> tuple[str, ...]:
    """Labels of the feet that a part stands on with its packing as listed; none of a stand-off."""
    from clampwright.layout.bushing_placed import BushingLayout
    from clampwright.layout.placed import PlateLayout
    from clampwright.recipe.bushing_model import BushingJob

    if isinstance(layout, BushingLayout) and layout.recipe.asked(BushingJob).pose.fixed:
        return ()
    if isinstance(layout, PlateLayout | BushingLayout):
        clamps: tuple[ClampPlace, ...] = layout.clamps
        return stands_on(clamps)
    return ()
