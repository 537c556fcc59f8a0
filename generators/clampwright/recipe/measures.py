"""Readers of quantities: lengths, angles, masses and temperatures with their limits."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import ClassVar

from clampwright.quantities import (
    NotAQuantity,
    angle_rad,
    length_mm,
    mass_kg,
    show_fraction,
    show_length,
    show_mass,
    show_temperature,
    temperature_c,
)
from clampwright.recipe.limits import Limits, limits
from clampwright.recipe.written import Entry, Wrong, printable

Schema = dict[str, object]

_NUMBER = r"(\d+\.?\d*|\.\d+)([eE][+-]?\d{1,2})?|((\d+(\s+|-))?\d+\s?[/⁄]\s?\d+)|\d*\s*[½¼¾⅛⅜⅝⅞]"


@dataclass(frozen=True, slots=True)
class Measure:
    """A quantity within the limits of that name; a subclass says how it is read and shown."""

    of: str
    """Name of its limits."""
    hint: str = ""
    """What to look for where the value is outside them."""
    kind: ClassVar[str]
    """"length", "angle", "mass" or "temperature"."""
    names: ClassVar[str]
    """Units that a text may end in; ? after a letter that may be missing, _ for a space that may be."""
    example: ClassVar[str]
    """Values as they may be written."""
    bare: ClassVar[bool] = True
    """Whether a number may do without a unit."""

    def number(self, value: str | float, units: str) -> float:
        """The value in the project's own unit, bare numbers as in a recipe with these units."""
        raise NotImplementedError

    def show(self, value: object, units: str) -> str:
        """A value that has been read, for people."""
        raise NotImplementedError

    def span(self) -> Limits:
        """The limits in the project's own unit."""
        return limits(self.of)

    def expected(self, units: str) -> str:
        """What would be right here."""
        article = "an" if self.kind[0] in "aeiou" else "a"
        least, most = self.show(self.span().least, units), self.show(self.span().most, units)
        return f"{article} {self.kind} from {least} to {most}"

    def read(self, entry: Entry) -> float:
        """The value, or a fault."""
        value = entry.value
        if isinstance(value, bool) or not isinstance(value, str | int | float):
            raise entry.wrong(self.expected(entry.units), f"such as {self.example}")
        if not self.bare and not (isinstance(value, str) and any(c.isalpha() or c == "°" for c in value)):
            raise entry.wrong(self.expected(entry.units), self.with_unit(value))
        try:
            number = self.number(value, entry.units)
        except NotAQuantity as fault:
            raise entry.wrong(self.expected(entry.units), fault.hint or f"such as {self.example}") from None
        if not self.span().hold(number):
            raise self.beyond(entry, value, number)
        return number + 0.0

    def beyond(self, entry: Entry, value: str | float, number: float) -> Wrong:
        """Note a value outside the limits."""
        return entry.wrong(self.expected(entry.units), self.hint)

    def with_unit(self, value: str | float) -> str:
        """A hint for a number that needs a unit."""
        return "write the number with its unit, in quotes"

    def schema(self) -> Schema:
        """What an editor may check: a number, or a text that looks like this quantity."""
        names = "|".join(_any_case(name) for name in self.names.split())
        term = rf"({_NUMBER})\s*({names})\.?"
        last = rf"({_NUMBER})(\s*({names})\.?)?" if self.bare else term
        text: Schema = {"type": "string", "pattern": rf"^\s*(#\s*\d+|[+-]?\s*({term}\s*)?({last}))\s*$"}
        if not self.bare:
            return text
        return {"anyOf": [{"type": "number"} | ({"minimum": 0} if self.span().least >= 0 else {}), text]}


def _any_case(name: str) -> str:
    """A pattern for a unit in capitals or small letters."""
    signs = (f"[{c.lower()}{c.upper()}]" if c.isascii() and c.isalpha() else c for c in name)
    return "".join(signs).replace("_", r"\s*")


_WORDS = {"mm": "millimetres", "in": "inches"}


def bare_numbers(entry: Entry) -> str:
    """A hint on the unit that bare numbers are in."""
    if "units" in entry.written.data:
        return f"bare numbers are {_WORDS[entry.units]} here"
    return (
        'this file says no units, so bare numbers are millimetres; units = "in" at its top makes them inches'
    )


class Length(Measure):
    """Millimetres; bare numbers are in the recipe's units."""

    __slots__ = ()
    kind = "length"
    example = '"3/4 in" or "19.05 mm"'
    names = (
        "mm millimetres? millimeters? cm centimetres? centimeters? m metres? meters? um µm "
        "in inch inches thou ft foot feet ''? \" ” ″ ’ ′"
    )

    def number(self, value: str | float, units: str) -> float:
        return length_mm(value, units)

    def show(self, value: object, units: str) -> str:
        assert isinstance(value, int | float)
        return show_length(value, units) if value else "0"

    def beyond(self, entry: Entry, value: str | float, number: float) -> Wrong:
        return entry.wrong(self.expected(entry.units), self._other_unit(entry, value) or self.hint)

    def _other_unit(self, entry: Entry, value: str | float) -> str:
        """A hint where the bare number would be right in the other unit."""
        other = {"mm": "in", "in": "mm"}[entry.units]
        try:
            right = not isinstance(value, str) and value and self.span().hold(length_mm(value, other))
        except NotAQuantity:
            return ""
        if not right:
            return ""
        return f'{bare_numbers(entry)}; for {_WORDS[other]} write "{value:g} {other}"'


class Increment(Length):
    """A length that may be shown as a binary fraction of an inch, as on a rule."""

    __slots__ = ()

    def show(self, value: object, units: str) -> str:
        assert isinstance(value, int | float)
        on_a_rule = abs(value / 25.4 * 64 - round(value / 25.4 * 64)) < 1e-9
        if units == "in" and value and on_a_rule:
            return f"{show_fraction(value)} in"
        return Length.show(self, value, units)


class BarLength(Length):
    """A length whose bare numbers are millimetres whatever the recipe's units."""

    __slots__ = ()

    def number(self, value: str | float, units: str) -> float:
        return Length.number(self, value, "mm")

    def show(self, value: object, units: str) -> str:
        return Length.show(self, value, "mm")

    def beyond(self, entry: Entry, value: str | float, number: float) -> Wrong:
        return entry.wrong(self.expected("mm"), "the bar is nominally 100 mm; measure it in millimetres")


class Angle(Measure):
    """Radians; bare numbers are degrees."""

    __slots__ = ()
    kind = "angle"
    example = '"90 deg"'
    names = "° deg degrees? rad radians?"

    def span(self) -> Limits:
        return Limits(math.radians(limits(self.of).least), math.radians(limits(self.of).most))

    def number(self, value: str | float, units: str) -> float:
        return angle_rad(value)

    def show(self, value: object, units: str) -> str:
        assert isinstance(value, int | float)
        return f"{math.degrees(value):.6g} deg"


class Mass(Measure):
    """Kilograms. The unit must be written: pounds taken for kilograms would be a grave error."""

    __slots__ = ()
    kind = "mass"
    example = '"1.4 lb" or "350 g"'
    names = "kg kilograms? g grams? lbs? pounds? oz ounces?"
    bare = False

    def expected(self, units: str) -> str:
        return f"a mass above 0 and up to {self.show(self.span().most, units)}, with its unit"

    def number(self, value: str | float, units: str) -> float:
        return mass_kg(value)

    def show(self, value: object, units: str) -> str:
        assert isinstance(value, int | float)
        return show_mass(value, {"mm": "kg", "in": "lb"}[units])

    def beyond(self, entry: Entry, value: str | float, number: float) -> Wrong:
        heavy = number > self.span().most
        return entry.wrong(
            self.expected(entry.units), self.hint if heavy else "weigh it; a guess is better than 0"
        )

    def with_unit(self, value: str | float) -> str:
        return f'write the unit with it: "{printable(value)} lb" or "{printable(value)} kg"'


class Temperature(Measure):
    """Degrees Celsius. The unit must be written."""

    __slots__ = ()
    kind = "temperature"
    example = '"250 degF" or "120 degC"'
    names = "c deg_c °_c celsius f deg_f °_f fahrenheit k kelvin"
    bare = False

    def number(self, value: str | float, units: str) -> float:
        return temperature_c(value)

    def show(self, value: object, units: str) -> str:
        assert isinstance(value, int | float)
        return show_temperature(value, {"mm": "degC", "in": "degF"}[units])

    def with_unit(self, value: str | float) -> str:
        return f'write the unit with it: "{printable(value)} degF" or "{printable(value)} degC"'
