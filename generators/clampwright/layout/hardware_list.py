"""The order list: clamps, bolts, nuts, washers, shims and bushings, grouped by part."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from clampwright.layout.joined import Joint, Loop
from clampwright.layout.placed import ClampPlace, HardwareLine, Hole, PlacedComponent, Stack, StackItem
from clampwright.trade.bolts import bolt, bolt_names
from clampwright.trade.tables import load

KINDS = ("clamp", "bolt", "screw", "nut", "washer", "shim", "bushing")
"""Order of the list."""

_BOUGHT = {"washer": "washer", "washers": "washer", "shim": "shim", "bushing": "bushing"}


@dataclass(frozen=True, slots=True)
class _Piece:
    kind: str
    part: str
    what: str
    where: str
    mass_kg: float | None
    source: str
    torque_nm: tuple[float, float] | None = None
    count: int = 1


def hardware(
    clamps: Sequence[ClampPlace], components: Sequence[PlacedComponent], holes: Sequence[Hole] = ()
) -> tuple[HardwareLine, ...]:
    """The order list, the same whatever the order of its input.

    Parameters
    ----------
    clamps, components
        Of the layout, with their stacks. A bolt or screw without a chosen length is listed with "length not
        known", its nut and washers as they are.
    holes
        Of the layout; with them the screws of components without stacks are listed too.

    Notes
    -----
    The torque window stands with the nut, at which it is measured. Quantities are what is fitted, no spares.
    """
    return _listed([*_clamp_pieces(clamps), *_component_pieces(components, holes)])


def joined_hardware(loops: Sequence[Loop], joints: Sequence[Joint]) -> tuple[HardwareLine, ...]:
    """The order list where bolts are not counted hole by hole: every loop, and every joint's stack."""
    pieces = [_clamp_piece(loop) for loop in loops]
    for joint in joints:
        pieces += _stack_pieces(joint.stack, joint.label)
    return _listed(pieces)


def _listed(pieces: Sequence[_Piece]) -> tuple[HardwareLine, ...]:
    groups: dict[tuple[str, str, str], list[_Piece]] = {}
    for piece in pieces:
        groups.setdefault((piece.kind, piece.part, piece.what), []).append(piece)
    ordered = sorted(groups, key=lambda key: (KINDS.index(key[0]), natural(key[1]), key[2]))
    return tuple(_line(groups[key]) for key in ordered)


def natural(text: str) -> tuple[tuple[int, float, str], ...]:
    """Sorting key that puts AN3-6A before AN3-10A.

    Examples
    --------
    >>> sorted(["AN3-10A", "AN3-6A", "B1", "A10", "A2"], key=natural)
    ['A2', 'A10', 'AN3-6A', 'AN3-10A', 'B1']
    """
    runs = re.findall(r"\d+(?:\.\d+)?|\D+", text)
    return tuple((0, float(run), "") if run[0].isdigit() else (1, 0.0, run) for run in runs)


def _clamp_pieces(clamps: Iterable[ClampPlace]) -> Iterator[_Piece]:
    for place in clamps:
        yield _clamp_piece(place)
        yield from _stack_pieces(place.stack, place.label)


def _clamp_piece(loop: Loop) -> _Piece:
    clamp = loop.clamp
    what = f"cushioned loop clamp, {clamp.band}, {clamp.cushion} cushion"
    return _Piece("clamp", clamp.part, what, loop.label, clamp.mass_kg, clamp.source)


def _component_pieces(components: Iterable[PlacedComponent], holes: Sequence[Hole]) -> Iterator[_Piece]:
    screws = {hole.label: hole.fastener for hole in holes if hole.purpose == "component"}
    for component in components:
        stacks = component.stacks or component.screw_stacks
        for label, stack in zip(component.holes, stacks, strict=False):
            yield from _stack_pieces(stack, label)
        for label in component.holes[len(stacks) :]:
            if label in screws:
                yield _Piece(
                    "screw",
                    screws[label],
                    "screw, length not known",
                    label,
                    None,
                    _size_source(screws[label]),
                )


def _stack_pieces(stack: Stack, where: str) -> Iterator[_Piece]:
    if stack.chosen is None:
        kind = "bolt" if stack.bolt in bolt_names() else "screw"
        what = f"{kind}, length not known"
        yield _Piece(kind, stack.bolt, what, where, None, _size_source(stack.bolt))
    else:
        length = stack.chosen.length
        yield _Piece("bolt", length.part, "bolt", where, length.mass_kg, length.source)
    nut, torque = stack.nut, stack.torque
    window = None if torque is None else (torque.low_nm, torque.high_nm)
    yield _Piece("nut", nut.part, f"lock nut, {nut.locking}", where, nut.mass_kg, nut.source, window)
    for item in stack.items:
        if item.name in _BOUGHT:
            yield _item_piece(item, where)


def _size_source(fastener: str) -> str:
    """Source of a size whose lengths are not known."""
    if fastener in bolt_names():
        return bolt(fastener).source
    return next((row.source() for row in load("screws").rows if row.text("name") == fastener), "assumed")


def _item_piece(item: StackItem, where: str) -> _Piece:
    kind = _BOUGHT[item.name]
    return _Piece(kind, item.part, kind, where, item.mass_kg, item.source, count=item.count)


def _line(pieces: Sequence[_Piece]) -> HardwareLine:
    first = min(pieces, key=lambda piece: (piece.source, piece.mass_kg or 0.0))
    windows = sorted({piece.torque_nm for piece in pieces if piece.torque_nm is not None})
    places = sorted({piece.where for piece in pieces}, key=natural)
    return HardwareLine(
        part=first.part,
        what=first.what,
        quantity=sum(piece.count for piece in pieces),
        torque_nm=windows[0] if windows else None,
        mass_each_kg=first.mass_kg,
        where=", ".join(places),
        source=first.source,
    )
