"""JSON Schemas of recipes and structure files, for editors that complete and mark as one types."""

from __future__ import annotations

from clampwright.recipe.fields import Table
from clampwright.recipe.kinds import kind
from clampwright.recipe.measures import Schema
from clampwright.recipe.survey_fields import SURVEY
from clampwright.recipe.tubes import STRUCTURE_FILE

_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def json_schema(name: str) -> Schema:
    """The JSON Schema (draft 2020-12) of a kind of recipe.

    It is made of the same field tables as the reader, and never stricter: what an editor marks by it is
    wrong. Limits that depend on units, and what only several keys together get wrong, are the reader's.

    Raises
    ------
    LookupError
        There is no such kind.

    Examples
    --------
    >>> json_schema("accessory plate")["required"]
    ['kind', 'name', 'structure', 'carries']
    """
    chosen = kind(name)
    schema = _headed(f"clampwright recipe: {chosen.name}", chosen.about, chosen.table())
    properties = schema["properties"]
    assert isinstance(properties, dict)
    properties["structure"] |= _one_of("file", "tubes", "two_tubes")
    return schema


def structure_schema() -> Schema:
    """The JSON Schema (draft 2020-12) of a file of tubes that recipes share.

    Examples
    --------
    >>> structure_schema()["oneOf"]
    [{'required': ['tubes']}, {'required': ['two_tubes']}]
    """
    schema = _headed("clampwright structure file", STRUCTURE_FILE.about, STRUCTURE_FILE)
    return schema | _one_of("tubes", "two_tubes")


def survey_schema() -> Schema:
    """The JSON Schema (draft 2020-12) of a tape survey.

    Examples
    --------
    >>> survey_schema()["required"]
    ['kind', 'name', 'tubes', 'datum']
    """
    schema = _headed("clampwright tape survey", SURVEY.about, SURVEY)
    properties = schema["properties"]
    assert isinstance(properties, dict)
    level: Schema = {"required": ["level"], "properties": {"level": {"const": True}}}
    properties["datum"] |= {"oneOf": [level, {"required": ["plane"]}]}
    return schema


def _one_of(*keys: str) -> Schema:
    """Exactly one of these keys is written."""
    return {"oneOf": [{"required": [key]} for key in keys]}


def _headed(title: str, about: str, table: Table) -> Schema:
    return {"$schema": _DIALECT, "title": title, "description": about} | table.schema()
