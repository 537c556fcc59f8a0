"""Text to a typed recipe."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

from clampwright.recipe.common import measuring_of, template_of, zone_of
from clampwright.recipe.digest import digest_of
from clampwright.recipe.faults import Fault, RecipeFaults, did_you_mean, listed
from clampwright.recipe.fields import Values
from clampwright.recipe.homes import homes_of
from clampwright.recipe.kind import Kind
from clampwright.recipe.kinds import KINDS
from clampwright.recipe.load import NotRead, load, parse
from clampwright.recipe.model import Recipe
from clampwright.recipe.shop import shop_of
from clampwright.recipe.tubes import SURVEY_KIND, read_structure, units_of
from clampwright.recipe.written import NOTHING, Entry, Written, printable
from clampwright.structure.tubes import Structure


def read(path: Path) -> Recipe:
    """Read a recipe file.

    Raises
    ------
    RecipeFaults
        All faults at once, each with its place; never anything else, whatever the file holds.
    """
    try:
        written = load(path, printable(path))
    except NotRead as fault:
        raise RecipeFaults(
            (Fault(printable(path), 1, 1, "", fault.expected, fault.found, fault.hint),)
        ) from None
    return _recipe(written, path)


def read_text(text: str, path: Path | None = None) -> Recipe:
    """Read a recipe from text; relative structure files are looked up beside `path`.

    Raises
    ------
    RecipeFaults
        All faults at once, each with its place; never anything else, whatever the text is.
    """
    return _recipe(parse(text, printable(path) if path else "recipe"), path)


def _recipe(written: Written, path: Path | None) -> Recipe:
    written.units = units_of(written.data)
    top = written.top()
    kind = _kind(top)
    table = kind.table()
    written.homes = homes_of(table)
    values = table.read(top)
    structure, elsewhere = _tubes(top, values, path)
    kind.cross_check(top, values, structure)
    faults = [*_in_order(written.faults), *elsewhere]
    if faults or structure is None:
        raise RecipeFaults(tuple(faults))
    return _typed(kind, top, values, structure, path)


def _kind(top: Entry) -> Kind:
    """The kind that a recipe names. Without one nothing else can be judged."""
    entry = top.inside("kind")
    if isinstance(entry.value, str) and entry.value in KINDS:
        return KINDS[entry.value]
    hint = did_you_mean(entry.value, KINDS) if isinstance(entry.value, str) else ""
    if entry.value == SURVEY_KIND:
        hint = "this is a tape survey: clampwright survey solve makes a file of tubes of it"
    if entry.value is NOTHING:
        hint = f'write kind = "{next(iter(KINDS))}" at the top'
        if "tubes" in top.written.data:
            hint = "this looks like a file of tubes; a recipe names it with [structure] file = ..."
    entry.wrong(f"a kind of recipe: {listed(KINDS)}", hint)
    raise RecipeFaults(tuple(top.written.faults))


def _tubes(top: Entry, values: Values, path: Path | None) -> tuple[Structure | None, list[Fault]]:
    """The tubes, and the faults of the shared file they stand in."""
    if "structure" not in values:
        return None, []
    folder = path.parent if path else Path()
    try:
        structure, shared = read_structure(top.inside("structure"), values["structure"], folder)
    except RecipeFaults as faults:
        return None, list(faults.faults)
    if shared is None:
        return structure, []
    top.written.assumed += [(f"{Path(shared.file).name}: {key}", says) for key, says in shared.assumed]
    return structure, _in_order(shared.faults)


def _in_order(faults: list[Fault]) -> list[Fault]:
    return sorted(dict.fromkeys(faults), key=lambda fault: (fault.line, fault.column))


def _typed(kind: Kind, top: Entry, values: Values, structure: Structure, path: Path | None) -> Recipe:
    zone = zone_of(values["zone"], top.inside("zone"))
    unsurveyed = _unsurveyed(values)
    measuring = measuring_of(values["measuring"], top.inside("measuring"), structure, unsurveyed)
    job = kind.job(top, values, structure)
    recipe = Recipe(
        kind=kind.name,
        name=values["name"],
        about=values["about"],
        units=values["units"],
        path=path,
        structure=structure,
        zone=zone,
        measuring=measuring,
        template=template_of(values["template"]),
        shop=shop_of(values["shop"], top.units),
        job=job,
        assumed=tuple(top.written.assumed),
        digest="",
    )
    return replace(recipe, digest=digest_of(recipe))


def _unsurveyed(values: Values) -> tuple[str, ...]:
    """What a recipe places by measures of its own, whichever way its tubes were measured."""
    fixed = (values.get("pose") or {}).get("fixed")
    return (*(("the line",) if values.get("line") else ()), *(("the component's place",) if fixed else ()))
