"""Where tubes end and where they are welded together: places that must stay visible."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from clampwright.structure.tubes import Node, Structure, Tube
from clampwright.trade.tables import rule

Array = npt.NDArray[np.float64]
_Mark = tuple[float, str]
"""A station, and the name of the tube that is met there; "" for an end of the tube itself."""


def nodes(structure: Structure) -> tuple[Node, ...]:
    """Every tube end, and every place where another tube's end meets this tube.

    Another tube ends on this one where its end comes as near to this axis as half of both outside
    diameters and a fit-up gap (rule `node-gap`). Places nearer together than rule `node-merge` are one.
    In the order of the tubes, and along each tube.

    >>> main = Tube("main", (0.0, 0.0, 0.0), (500.0, 0.0, 0.0), 19.05)
    >>> brace = Tube("brace", (200.0, 0.0, 0.0), (300.0, 250.0, 0.0), 15.875)
    >>> for node in nodes(Structure((main, brace))):
    ...     print(node.tube, round(node.station_mm, 3), node.reason)
    main 0.0 end of the tube
    main 200.0 brace ends here
    main 500.0 end of the tube
    brace 0.0 end of the tube, met by main
    brace 269.258 end of the tube
    """
    if not structure.tubes:
        return ()
    tubes, meetings = structure.tubes, _meetings(structure.tubes)
    return tuple(node for tube in tubes for node in _along(tube, meetings[tube.name]))


def _along(tube: Tube, meetings: list[_Mark]) -> list[Node]:
    """The nodes of one tube, from its ends and from where it meets others."""
    merge = rule("node-merge").value
    groups: list[list[_Mark]] = []
    for mark in sorted([(0.0, ""), *meetings, (tube.length_mm, "")]):
        if groups and mark[0] - groups[-1][0][0] <= merge:
            groups[-1].append(mark)
        else:
            groups.append([mark])
    return [_node(tube.name, group) for group in groups]


def _node(tube: str, group: list[_Mark]) -> Node:
    names = list(dict.fromkeys(name for _, name in group if name))
    ends = [station for station, name in group if not name]
    if ends and not names:
        return Node(tube, ends[0], "end of the tube")
    if ends:
        return Node(tube, ends[0], f"end of the tube, met by {_listed(names)}")
    return Node(tube, group[0][0], f"{_listed(names)} {'ends' if len(names) == 1 else 'end'} here")


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def _meetings(tubes: tuple[Tube, ...]) -> dict[str, list[_Mark]]:
    """For each tube, where it meets another: the other's end on it, or its own end on the other."""
    met: dict[str, list[_Mark]] = {tube.name: [] for tube in tubes}
    stations, touching = _ends_on_tubes(tubes)
    for i, e in np.argwhere(touching).tolist():
        on, ending = tubes[i], tubes[e // 2]
        if on is not ending:
            met[on.name].append((float(stations[i, e]), ending.name))
            met[ending.name].append((ending.length_mm if e % 2 else 0.0, on.name))
    return met


def _ends_on_tubes(tubes: tuple[Tube, ...]) -> tuple[Array, npt.NDArray[np.bool_]]:
    """For each tube (row) and each end of any tube (column): nearest station, and whether they touch."""
    starts, ends = (
        np.array(points, dtype=float) for points in zip(*((t.start, t.end) for t in tubes), strict=True)
    )
    lengths = np.linalg.norm(ends - starts, axis=1)
    axes = (ends - starts) / lengths[:, None]
    points = np.stack([starts, ends], axis=1).reshape(-1, 3)
    away = points[None, :, :] - starts[:, None, :]
    stations = np.clip(np.einsum("ijk,ik->ij", away, axes), 0.0, lengths[:, None])
    distances = np.linalg.norm(away - stations[:, :, None] * axes[:, None, :], axis=2)
    radii = np.array([t.od_mm for t in tubes]) / 2
    reach = radii[:, None] + np.repeat(radii, 2)[None, :] + rule("node-gap").value
    return stations, distances <= reach
