"""Readers of lines by their trade sizes: the dash of a hose, and the wires of a bundle."""

from __future__ import annotations

from bisect import bisect
from collections.abc import Callable
from dataclasses import dataclass

from clampwright.recipe.measures import Length, Schema
from clampwright.recipe.readers import Whole
from clampwright.recipe.stand_off_model import WiresOfSize
from clampwright.recipe.written import Entry
from clampwright.trade.hoses import hoses
from clampwright.trade.tables import load


@dataclass(frozen=True, slots=True)
class SizeOf:
    """A whole number that a trade table knows."""

    options: Callable[[], tuple[int, ...]]
    what: str
    kind: str = "whole number"

    def expected(self, units: str) -> str:
        sizes = [str(size) for size in self.options()]
        return f"{self.what}: {', '.join(sizes[:-1])} or {sizes[-1]}"

    def read(self, entry: Entry) -> int:
        value = entry.value
        if isinstance(value, int) and not isinstance(value, bool):
            if value in self.options():
                return value
            raise entry.wrong(self.expected(entry.units), self._nearest(value))
        raise entry.wrong(self.expected(entry.units), "without quotes" if isinstance(value, str) else "")

    def _nearest(self, value: int) -> str:
        sizes = sorted(self.options())
        at = bisect(sizes, value)
        near = [str(size) for size in sizes[max(0, at - 1) : at + 1]]
        return f"the nearest {'is' if len(near) == 1 else 'are'} {' and '.join(near)}"

    def show(self, value: object, units: str) -> str:
        return str(value)

    def schema(self) -> Schema:
        return {"enum": list(self.options())}


def _gauges() -> tuple[int, ...]:
    return tuple(row.whole("gauge") for row in load("wires").rows)


HOSE = SizeOf(lambda: tuple(hoses()), "the dash of a hose")
_GAUGE = SizeOf(_gauges, "a wire gauge")
_COUNT = Whole("wire-count")
_OVER_INSULATION = Length("wire-od", "the diameter over the insulation")


@dataclass(frozen=True, slots=True)
class Wires:
    """[count, gauge] of equal wires, or [count, diameter] with the diameter as a text with its unit."""

    kind: str = "wires"

    def expected(self, units: str) -> str:
        return 'wires [count, gauge] such as [7, 20], or with their diameter [3, "0.09 in"]'

    def read(self, entry: Entry) -> WiresOfSize:
        value = entry.value
        if not isinstance(value, list) or len(value) != 2:
            raise entry.wrong(self.expected(entry.units), "one pair for each size of wire")
        count, size = _COUNT.read(entry.inside(0)), entry.inside(1)
        if isinstance(value[1], str):
            return WiresOfSize(count, None, _OVER_INSULATION.read(size))
        if isinstance(value[1], float):
            hint = f'a gauge is a whole number; a diameter stands in quotes: "{value[1]:g} {entry.units}"'
            raise size.wrong(_GAUGE.expected(entry.units), hint)
        return WiresOfSize(count, _GAUGE.read(size), None)

    def show(self, value: object, units: str) -> str:
        assert isinstance(value, WiresOfSize)
        size = f"AWG {value.gauge}" if value.od_mm is None else _OVER_INSULATION.show(value.od_mm, units)
        return f"{value.count} of {size}"

    def schema(self) -> Schema:
        size: Schema = {"anyOf": [_GAUGE.schema(), {"type": "string", "minLength": 1}]}
        pair: Schema = {"type": "array", "prefixItems": [_COUNT.schema(), size]}
        return pair | {"minItems": 2, "maxItems": 2}
