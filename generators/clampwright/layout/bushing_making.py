"""Gaps between clamp feet and what they hold, filled: bushings as parts, washers, stacks and cut list."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import pi

from clampwright.layout.bushing_cuts import cut_list
from clampwright.layout.bushing_groups import Washers, Way, fewest_lengths, washer_sets, ways
from clampwright.layout.bushing_parts import BushingPart, CutList, MadeUp
from clampwright.layout.bushing_stock import StockChoice, choose_stock
from clampwright.layout.packing import STEPS, pack, washer_item
from clampwright.layout.placed import Stack, StackItem
from clampwright.layout.stacks import build_stack, count_washers, plain_items
from clampwright.quantities import show_length
from clampwright.recipe.bushing_model import BushingStock
from clampwright.trade.general_tolerances import SOURCE as ISO_2768_1
from clampwright.trade.hardware import Nut
from clampwright.trade.tables import rule

Items = tuple[StackItem, ...]
CUBIC_METRES = 1e-9


@dataclass(frozen=True, slots=True)
class ToFill:
    """A gap on one bolt, and the layers on both sides of it, from the head.

    `above` and `below` are without the washers under head and nut.
    """

    label: str
    gap_mm: float
    above: Items
    below: Items


@dataclass(frozen=True, slots=True)
class Filled:
    """Every gap filled: its packing and its stack by label, and what is to be made."""

    packings: dict[str, Items]
    """From the layers above the gap down: washers, then shim or bushing; empty where nothing is needed."""
    stacks: dict[str, Stack]
    parts: tuple[BushingPart, ...]
    cuts: CutList


def fill(
    gaps: Sequence[ToFill],
    bolt: str,
    nut: Nut,
    stock: BushingStock,
    temperature_c: float,
    units: str,
    *,
    nut_height_mm: float | None = None,
) -> Filled:
    """Packing, stack and bushings for all gaps of a layout, in as few made lengths as can be.

    Small gaps are packed as `packing.pack` does. Where that takes a bushing, a gap is filled by a made
    length under up to `gap-washers-most` washers so that no more than `gap-nothing` is left either way
    (what a person's file adds, `bushing-tolerance`, is the part's own tolerance). Fewest made lengths
    come first, then fewest washers, then least left. Washers with which no bolt fits are not used for
    that gap while others do.

    Parameters
    ----------
    gaps
        Labels must differ.
    bolt, nut, nut_height_mm
        As `build_stack` takes them.
    stock
        As the recipe has it; see `choose_stock`.
    temperature_c
        Of the zone.
    units
        "mm" or "in": increment of made lengths, and the figures in `part`.

    Raises
    ------
    CannotLayOut
        No stock gives the bushings that the recipe asks for, or a bushing is longer than the bar.

    Examples
    --------
    >>> from clampwright.trade.hardware import nut
    >>> lug, feet = StackItem("component lug", "lug", 3.0), StackItem("clamp feet", "clamp feet", 2.604)
    >>> gaps = [ToFill(label, gap, (lug,), (feet,)) for label, gap in (("A1", 12.7), ("B1", 13.5))]
    >>> made = fill(gaps, "AN3", nut("MS21044", "AN3"), BushingStock(None, None, None, 1.5, 305.0), 90, "in")
    >>> [(part.mark, round(part.length_mm, 2), part.quantity) for part in made.parts]
    [('S1', 12.7, 2)]
    >>> [item.part for item in made.packings["B1"]][0]
    'AN960-10L'
    """
    small, tall = _packed(gaps, bolt, nut, temperature_c, units, nut_height_mm)
    if not tall:
        return _filled(gaps, small, (), CutList((), ()))
    chosen = choose_stock(bolt, stock, temperature_c, units)
    step = rule(f"bushing-step-{STEPS[units]}").value
    taken = _chosen_ways(tall, chosen, nut, step, units, nut_height_mm)
    parts = _parts([(gap, way) for gap in tall if (way := taken[gap.label].way)], chosen, step)
    return _filled(
        gaps, {**small, **taken}, parts, cut_list(parts, stock.kerf_mm, stock.stock_length_mm, units)
    )


def bushing_item(chosen: StockChoice, length_mm: float, units: str) -> StackItem:
    """A bushing as a layer of a stack, with everything needed to make it in `part`."""
    od, bore, length = (show_length(v, units) for v in (chosen.od_mm, chosen.id_mm, length_mm))
    return StackItem(
        "bushing",
        f"bushing, {chosen.material.name}, {od} OD x {bore} bore x {length}",
        length_mm,
        od_mm=chosen.od_mm,
        id_mm=chosen.id_mm,
        mass_kg=ring_kg(chosen, length_mm),
        source=chosen.sources[0],
    )


def ring_kg(chosen: StockChoice, length_mm: float) -> float:
    """Mass of a bushing, chamfers not taken off, kg."""
    area = pi / 4 * (chosen.od_mm**2 - chosen.id_mm**2)
    return chosen.material.density_kg_m3 * area * length_mm * CUBIC_METRES


def made_part(mark: str, length_mm: float, chosen: StockChoice, fills: Sequence[MadeUp]) -> BushingPart:
    """One length of bushing as it is to be made, one piece for each gap it fills."""
    tolerance = rule("bushing-tolerance")
    return BushingPart(
        mark=mark,
        length_mm=length_mm,
        tolerance_mm=(tolerance.value, tolerance.value),
        od_mm=chosen.od_mm,
        id_mm=chosen.id_mm,
        id_window_mm=(chosen.window.low_mm, chosen.window.high_mm),
        bolt=chosen.bolt,
        chamfer_mm=rule("bushing-chamfer").value,
        material=chosen.material.name,
        max_temperature_c=chosen.material.max_temperature_c,
        make=chosen.make,
        stock=chosen.says,
        stock_od_mm=chosen.stock_od_mm,
        stock_wall_mm=chosen.stock_wall_mm,
        quantity=len(fills),
        fills=tuple(fills),
        mass_each_kg=ring_kg(chosen, length_mm),
        sources=tuple(dict.fromkeys((*chosen.sources, tolerance.source, ISO_2768_1))),
    )


def made_up(label: str, gap_mm: float, packing: Items) -> MadeUp:
    """How a gap is filled by a packing that holds a bushing."""
    washers = tuple((i.part, i.thickness_mm) for i in packing if i.name == "washers" for _ in range(i.count))
    return MadeUp(label, gap_mm, washers, gap_mm - sum(i.thickness_mm * i.count for i in packing))


@dataclass(frozen=True, slots=True)
class _Taken:
    """What is settled for one gap."""

    packing: Items
    stack: Stack
    way: Way | None = None
    """None where it takes no bushing."""


def _stack(gap: ToFill, packing: Items, bolt: str, nut: Nut, nut_height_mm: float | None) -> Stack:
    items = plain_items((*gap.above, *packing, *gap.below), bolt)
    return build_stack(bolt, items, nut, nut_height_mm=nut_height_mm)


def _serves(stack: Stack) -> bool:
    """Whether its bolt fits, or no document gave the lengths of such bolts."""
    return stack.chosen is None or stack.chosen.fits


def _packed(
    gaps: Sequence[ToFill],
    bolt: str,
    nut: Nut,
    temperature_c: float,
    units: str,
    nut_height_mm: float | None,
) -> tuple[dict[str, _Taken], list[ToFill]]:
    """The gaps that washers or a shim fill, and those that are left for a bushing."""
    small: dict[str, _Taken] = {}
    tall: list[ToFill] = []
    for gap in gaps:
        tries = [
            _Taken(packing, _stack(gap, packing, bolt, nut, nut_height_mm))
            for packing in _small_packings(gap.gap_mm, bolt, temperature_c, units)
        ]
        found = next((each for each in tries if _serves(each.stack)), None)
        if found is None and gap.gap_mm >= rule("bushing-least").value:
            tall.append(gap)
        else:
            small[gap.label] = found or tries[0]
    return small, tall


def _small_packings(gap_mm: float, bolt: str, temperature_c: float, units: str) -> Iterator[Items]:
    """Packings without a bushing: the usual one first, then with fewer and fewer washers."""
    usual = pack(gap_mm, bolt, temperature_c, units)
    tries = [usual] + [
        pack(gap_mm, bolt, temperature_c, units, most_washers=most)
        for most in range(count_washers(usual) - 1, -1, -1)
    ]
    return (packing for packing in tries if not any(item.name == "bushing" for item in packing))


def _chosen_ways(
    gaps: Sequence[ToFill],
    chosen: StockChoice,
    nut: Nut,
    step_mm: float,
    units: str,
    nut_height_mm: float | None,
) -> dict[str, _Taken]:
    """The fewest lengths whose bolts fit: washers that leave a gap without a bolt are ruled out for it."""
    sets = washer_sets(chosen.bolt)
    allowed: dict[str, tuple[Washers, ...]] = {gap.label: sets for gap in gaps}
    last_resort: set[str] = set()
    while True:
        found = fewest_lengths([ways(gap.gap_mm, allowed[gap.label], step_mm) for gap in gaps])
        taken = {}
        for gap, way in zip(gaps, found, strict=True):
            bushing = bushing_item(chosen, way.steps * step_mm, units)
            packing = (*(washer_item(w, "washers") for w in way.washers), bushing)
            taken[gap.label] = _Taken(packing, _stack(gap, packing, chosen.bolt, nut, nut_height_mm), way)
        ways_of = {gap.label: way for gap, way in zip(gaps, found, strict=True)}
        unfit = [g for g in gaps if g.label not in last_resort and not _serves(taken[g.label].stack)]
        if not unfit:
            return taken
        for gap in unfit:
            rest = tuple(s for s in allowed[gap.label] if s != ways_of[gap.label].washers)
            usable = ways(gap.gap_mm, rest, step_mm)
            allowed[gap.label] = rest if usable else ((),)
            last_resort |= set() if usable else {gap.label}


def _parts(
    filled: Sequence[tuple[ToFill, Way]], chosen: StockChoice, step_mm: float
) -> tuple[BushingPart, ...]:
    """One part a made length, the shortest first."""
    parts = []
    for number, steps in enumerate(sorted({way.steps for _, way in filled}), 1):
        fills = [
            MadeUp(
                gap.label,
                gap.gap_mm,
                tuple((washer.part, washer.thickness_mm) for washer in way.washers),
                way.left_mm,
            )
            for gap, way in filled
            if way.steps == steps
        ]
        parts.append(made_part(f"S{number}", steps * step_mm, chosen, fills))
    return tuple(parts)


def _filled(
    gaps: Sequence[ToFill],
    settled: Mapping[str, _Taken],
    parts: tuple[BushingPart, ...],
    cuts: CutList,
) -> Filled:
    return Filled(
        {gap.label: settled[gap.label].packing for gap in gaps},
        {gap.label: settled[gap.label].stack for gap in gaps},
        parts,
        cuts,
    )
