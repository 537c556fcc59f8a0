"""Where every body of a layout goes when the tubes are not where they were measured, cause by cause."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache

from clampwright.layout.bodies import bound
from clampwright.layout.causes import USUAL, Cause, causes_of
from clampwright.layout.clash_bodies import tube_body
from clampwright.layout.drift import Drift, of_tube, rigid
from clampwright.layout.joined import Joined, Named
from clampwright.layout.joint_solids import joint_bodies, loop_bodies
from clampwright.layout.own_causes import OwnCause
from clampwright.layout.rides_on import ends_of, on_spacer, owners_of
from clampwright.layout.settled import Settled
from clampwright.structure.uncertainty import coverage


@dataclass(frozen=True, slots=True, eq=False)
class Drifts:
    """The drifts of a layout's bodies, and how sure what stands beside the tubes is.

    Panels and keep-outs are measured on their own: each errs by the recipe's measuring error, apart from all
    others, whichever way the tubes were measured.
    """

    part: Drift
    clamps: Mapping[str, Drift]
    tubes: Mapping[str, Drift]
    owners: Mapping[str, Drift]
    """By the `owner` of a body that the layout adds: labels of clamps and bolts, components, lines."""
    ends: Mapping[str, Drift]
    """Heads and nuts, by `head_of` and `nut_of`."""
    own_mm: float
    """One standard deviation of a panel or keep-out, any way."""
    own_default: str
    """Why that is a guess; "" where the recipe gives its measuring error."""
    causes: tuple[Cause, ...]
    """One a column."""
    most_mm: float
    """± (95 %), any way, that no place of a tube, or of what the layout adds, exceeds."""
    most_of: Mapping[tuple[str, str], float]
    """The same of each, by its `what` and `owner`."""

    def most(self, named: Named) -> float:
        """± (95 %), any way, that no place of a body exceeds, mm."""
        known = self.most_of.get((named.what, named.owner))
        if known is not None:
            return known
        drift = self.of(named)
        return coverage() * (self.own_mm if drift is None else drift.most(*bound(named.body)))

    def of(self, named: Named) -> Drift | None:
        """The drift of a body; None for a panel or keep-out."""
        if named.what == f"tube {named.owner}":
            return self.tubes.get(named.owner)
        end = self.ends.get(named.what) or self.ends.get(named.owner)
        return end or self.owners.get(named.owner)


def drifts_from(settled: Settled, layout: Joined, own: Sequence[OwnCause] = ()) -> Drifts:
    """The drifts of every body of a layout, from how its part and clamps settle.

    Parameters
    ----------
    settled
        How they settle.
    layout
        The layout.
    own
        The layout's own causes: the columns after those of the tubes' uncertainty.
    """
    part = rigid(settled.part)
    each = {label: rigid(twist) for label, twist in settled.clamps.items()}
    clamps = on_spacer(each, layout)
    structure, sure = layout.recipe.structure, settled.uncertainty
    tubes = {t.name: of_tube(t, sure, settled.causes) for t in structure.tubes if t.name in sure.tubes}
    measuring = layout.recipe.measuring
    own_mm = measuring.error_mm / coverage()
    owners, ends = owners_of(part, clamps, layout), ends_of(part, clamps, layout)
    most_of = _most(owners, ends, tubes, own_mm, layout)
    return Drifts(
        part=part,
        clamps=clamps,
        tubes=tubes,
        owners=owners,
        ends=ends,
        own_mm=own_mm,
        own_default="" if measuring.given else USUAL,
        causes=causes_of(settled, own),
        most_mm=max(most_of.values()),
        most_of=most_of,
    )


def _most(
    owners: Mapping[str, Drift],
    ends: Mapping[str, Drift],
    tubes: Mapping[str, Drift],
    own_mm: float,
    layout: Joined,
) -> dict[tuple[str, str], float]:
    """The worst drift of every body: of a tube that of its worse end, of any other over the ball round it."""
    bodies = [named for loop in layout.loops for named in loop_bodies(loop)]
    bodies += [named for joint in layout.joints for named in joint_bodies(joint)]
    bodies += [*layout.parts, *(Named(line.name, line.name, tube_body(line)) for line in layout.lines)]
    most = {("", ""): coverage() * own_mm}
    for named in bodies:
        drift = ends.get(named.what) or owners[named.owner]
        most[named.what, named.owner] = coverage() * drift.most(*bound(named.body))
    for tube in layout.recipe.structure.tubes:
        if tube.name in tubes:
            worse = max(tubes[tube.name].most(end, tube.od_mm / 2) for end in (tube.start, tube.end))
            most[f"tube {tube.name}", tube.name] = coverage() * worse
    return most


@dataclass(frozen=True, slots=True, eq=False)
class _Same:
    """A layout as itself, not as its values: what is worked out for it once is found again."""

    layout: Joined

    def __hash__(self) -> int:
        return id(self.layout)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and other.layout is self.layout


def drifts(layout: Joined) -> Drifts:
    """The drifts of every body of a layout; worked out once for the same layout."""
    return _worked_out(_Same(layout))


@lru_cache(maxsize=2)
def _worked_out(same: _Same) -> Drifts:
    from clampwright.layout.settling import settling

    found = settling(same.layout)
    factor = found.inputs.factor(found.sure)
    clamps = {label: twist @ factor for label, twist in found.clamps.items()}
    settled = Settled(found.sure, factor.shape[1], found.part @ factor, clamps)
    return drifts_from(settled, same.layout, found.inputs.own)
