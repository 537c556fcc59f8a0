"""A short number that tells one recipe from another by what it asks for."""

from __future__ import annotations

import hashlib
import json
from dataclasses import fields, is_dataclass

from clampwright.recipe.model import Recipe
from clampwright.recipe.shop import usual_shop
from clampwright.structure.survey.model import Survey
from clampwright.structure.tubes import Structure, Tube

_DIGITS = 16
_NOT_ASKED_FOR = frozenset(("path", "template", "assumed", "digest", "line"))


def digest_of(recipe: Recipe) -> str:
    """SHA-256, 16 hex digits, of the canonical JSON of a typed recipe.

    Comments, the order of keys, tubes and what stands round them, units chosen for a number, the template
    and where the file lies make no difference; neither does a [shop] table that says only the usual.
    """
    asked = {name: value for name, value in _plain(recipe).items() if name != "structure"}
    tubes = (_tube(tube) for tube in recipe.structure.tubes)
    asked["tubes"] = sorted(tubes, key=lambda tube: str(tube["name"]))
    asked |= _around(recipe.structure)
    if recipe.shop == usual_shop(recipe.units):
        del asked["shop"]
    return _sha(asked)


def survey_digest(survey: Survey) -> str:
    """SHA-256, 16 hex digits, of the canonical JSON of a typed survey.

    Comments, the order of keys, points, tubes and measurements, and units chosen for a number make no
    difference; neither does what the survey is called.
    """
    asked = {name: value for name, value in _plain(survey).items() if name not in ("name", "about")}
    lists = {name: value for name, value in asked.items() if isinstance(value, list)}
    return _sha(asked | {name: sorted(each, key=_canonical) for name, each in lists.items()})


def _sha(asked: dict[str, object]) -> str:
    return hashlib.sha256(_canonical(asked).encode("ascii")).hexdigest()[:_DIGITS]


def _canonical(value: object) -> str:
    return json.dumps(value, sort_keys=True, separators=(",", ":"), allow_nan=False)


def _around(structure: Structure) -> dict[str, object]:
    """What stands round the tubes, where there is anything."""
    around: dict[str, object] = {}
    for key, things in (("panels", structure.panels), ("keep_outs", structure.keep_outs)):
        if things:
            around[key] = sorted((_plain(thing) for thing in things), key=lambda thing: str(thing["name"]))
    if structure.engine_moves_mm is not None:
        around["engine_moves"] = structure.engine_moves_mm
    if structure.uncertainty is not None:
        around["uncertainty"] = _plain(structure.uncertainty)
    return around


def _tube(tube: Tube) -> dict[str, object]:
    """A tube, without a mark where it has none."""
    return {key: value for key, value in _plain(tube).items() if key != "mark_mm" or value is not None}


def _plain(value: object) -> dict[str, object]:
    assert is_dataclass(value)
    names = (field.name for field in fields(value) if field.name not in _NOT_ASKED_FOR)
    return {name: _json(getattr(value, name)) for name in names}


def _json(value: object) -> object:
    if is_dataclass(value):
        return _plain(value)
    if isinstance(value, tuple):
        return [_json(part) for part in value]
    return value
