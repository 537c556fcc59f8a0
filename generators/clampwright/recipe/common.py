"""What every kind of recipe has: its name, its units, the tubes, the zone, the measuring, the template."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from clampwright.recipe.fields import NEEDED, Assumed, ByRule, Field, LeftOut, Needed, Table, Values
from clampwright.recipe.measures import BarLength, Length, Schema, Temperature
from clampwright.recipe.model import Measuring, Template, Zone
from clampwright.recipe.readers import Flag, OneOf, Several, Text, counted, one_of
from clampwright.recipe.shop import SHOP
from clampwright.recipe.tubes import STRUCTURE, UNITS
from clampwright.recipe.written import Entry, key_text
from clampwright.structure.tubes import Structure
from clampwright.trade.cushions import fluid_names

_NAME = re.compile(r"[A-Za-z0-9][A-Za-z0-9_-]*", re.ASCII)
_LONGEST_NAME = 60
_DEVICES = frozenset(
    ("con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in "0123456789"))
)


@dataclass(frozen=True, slots=True)
class FolderName:
    """A name that becomes a folder on any system: no path, nothing hidden, no device."""

    command: str = "clampwright build"
    """What makes the folder."""
    kind: str = "name"

    def expected(self, units: str) -> str:
        return f"a name of at most {_LONGEST_NAME} letters, digits, - and _ (it names the output folder)"

    def read(self, entry: Entry) -> str:
        value = entry.value
        if not isinstance(value, str) or not _NAME.fullmatch(value) or len(value) > _LONGEST_NAME:
            said = "an empty text" if value == "" else None
            raise entry.wrong(self.expected(entry.units), _better_name(value, self.command), said=said)
        if value.casefold() in _DEVICES:
            raise entry.wrong(self.expected(entry.units), "that is the name of a device on some systems")
        return value

    def show(self, value: object, units: str) -> str:
        return str(value)

    def schema(self) -> Schema:
        return {"type": "string", "pattern": f"^{_NAME.pattern}$", "maxLength": _LONGEST_NAME}


def _better_name(value: object, command: str) -> str:
    """A hint with a name that would do."""
    if not isinstance(value, str):
        return ""
    if "/" in value or "\\" in value:
        return f"a name, not a path; {command} --out chooses the folder above it"
    if len(value) > _LONGEST_NAME:
        return f"it has {len(value)} characters: shorten it"
    better = re.sub(r"[^A-Za-z0-9_-]+", "-", value).strip("-_")[:_LONGEST_NAME]
    return f'"{better}" would do' if better and better != value else ""


_ZONE = Table(
    (
        Field(
            "temperature",
            Temperature("temperature", "is the unit right?"),
            "Hottest that it gets there. It decides nut, cushion and bushing.",
            LeftOut(None, "by whether it is ahead of the firewall"),
            '"120 degC" | "250 degF"',
        ),
        Field(
            "ahead_of_firewall",
            Flag(),
            "Whether the part is on the engine's side of the firewall.",
            Assumed(True, "the harder case", "assumed"),
            "true",
        ),
        Field(
            "fluids",
            Several(OneOf(fluid_names), 0, 5, "fluids", 'such as ["oil"]', no_repeats=True),
            "What can wet the clamps. Hydraulic means phosphate ester.",
            Assumed([], "the recipe names no fluid", "assumed"),
            '["oil"]',
        ),
    ),
    "Where the part lives.",
)
_MEASURING = Table(
    (
        Field(
            "error",
            Length("error", "plus or minus, as a positive number"),
            "Plus or minus of a measured coordinate of a tube (95 %).",
            ByRule("measuring-error", "measuring-error", "usual for a mount measured by hand"),
            '"1.5 mm" | "1/16 in"',
        ),
    ),
    "How sure the tubes are.",
)
_BAR_PAIR = Several(
    BarLength("bar"), 2, 2, "lengths [across, along]", "one pair for each print: [[99.2, 99.4]]"
)
_TEMPLATE = Table(
    (
        Field(
            "papers",
            Several(one_of("letter", "a4"), 1, 2, "papers", 'such as ["letter"]', no_repeats=True),
            "Papers that the template is made for.",
            LeftOut(("letter", "a4"), "both"),
            '["a4"] | ["letter"]',
        ),
        Field(
            "prints",
            counted(_BAR_PAIR, "prints", "pairs [across, along]", "one pair for each print: [[99.2, 99.4]]"),
            "Lengths of the 100 mm bars as measured on each print so far, in mm: across, along.",
            LeftOut((), "the template says that it is not verified"),
            "[[99.2, 99.4]]",
        ),
    ),
    "How the template is printed.",
)


def recipe_table(kind_names: tuple[str, ...], own: tuple[Field, ...]) -> Table:
    """The whole table of a kind of recipe: the common keys, with the kind's own before the template."""
    return Table(
        (
            Field("kind", one_of(*kind_names), "What the recipe makes.", NEEDED, f'"{kind_names[0]}"'),
            Field(
                "name",
                FolderName(),
                "Names the output folder.",
                Needed('such as name = "coil-plate"'),
                '"my-part"',
            ),
            Field(
                "about",
                Text("a remark", may_be_empty=True),
                "One line for the title block.",
                LeftOut(""),
                '"What it is for"',
            ),
            UNITS,
            Field(
                "structure", STRUCTURE, STRUCTURE.about, Needed("write [structure] and the tubes below it")
            ),
            Field("zone", _ZONE, _ZONE.about, LeftOut()),
            Field("measuring", _MEASURING, _MEASURING.about, LeftOut()),
            *own,
            Field("shop", SHOP, SHOP.about, LeftOut()),
            Field("template", _TEMPLATE, _TEMPLATE.about, LeftOut()),
        )
    )


def zone_of(values: Values, entry: Entry) -> Zone:
    """The typed zone; a temperature that was left out is taken by the side of the firewall."""
    ahead = values["ahead_of_firewall"]
    temperature = values["temperature"]
    if temperature is None:
        side = "ahead-of" if ahead else "behind"
        why = "usual ahead of the firewall" if ahead else "usual behind the firewall"
        row = f"temperature-{side}-firewall"
        field = Field("temperature", Temperature("temperature"), "", ByRule(row, row, why))
        temperature = field.read_in(entry)
    return Zone(temperature, ahead, values["fluids"])


def measuring_of(values: Values, entry: Entry, structure: Structure, unsurveyed: Sequence[str]) -> Measuring:
    """The typed measuring error, and whether it was written.

    Where the tubes carry a survey's own plus or minus, an error that was filled in is told for what else it
    stands for: panels, keep-outs and `unsurveyed`. Where there is nothing of that, it is not told.
    """
    given = isinstance(entry.value, dict) and "error" in entry.value
    if structure.uncertainty is not None and not given:
        around = (("panels", structure.panels), ("keep-outs", structure.keep_outs))
        _told_again(entry.inside("error"), (*(name for name, those in around if those), *unsurveyed))
    return Measuring(values["error"], given)


def _told_again(entry: Entry, stands_for: Sequence[str]) -> None:
    """Say for what an assumed value still stands, or nothing of it."""
    key, assumed = key_text(entry.path), entry.written.assumed
    what = " and ".join((", ".join(stands_for[:-1]), stands_for[-1]) if len(stands_for) > 1 else stands_for)
    assumed[:] = [
        (name, says.replace(" (", f" (for {what}, not surveyed; ", 1) if name == key else says)
        for name, says in assumed
        if name != key or stands_for
    ]


def template_of(values: Values) -> Template:
    """The typed template."""
    return Template(values["papers"], values["prints"])
