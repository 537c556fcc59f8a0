"""Application protocols a STEP file is written by, and the lines of a file that name them."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

Schema = Literal["AP214", "AP242"]


@dataclass(frozen=True, slots=True)
class Protocol:
    """What a file of one application protocol says of itself."""

    schema: str
    """In FILE_SCHEMA: the schema's name, and its object identifier."""
    definition: str
    year: int
    context: str


PROTOCOLS: dict[Schema, Protocol] = {
    "AP214": Protocol(
        "AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }",
        "automotive_design",
        2000,
        "core data for automotive mechanical design processes",
    ),
    "AP242": Protocol(
        "AP242_MANAGED_MODEL_BASED_3D_ENGINEERING_MIM_LF { 1 0 10303 442 1 1 4 }",
        "ap242_managed_model_based_3d_engineering",
        2013,
        "Managed model based 3d engineering",
    ),
}
"""ISO 10303-214 and the first edition of ISO 10303-242."""

_DEFINITION = re.compile(r"APPLICATION_PROTOCOL_DEFINITION\('([^']*)','[^']*',\d+,")
_CONTEXT = re.compile(r"(?m)^(#\d+ = APPLICATION_CONTEXT)\('[^']*'\)")


def header_schema(schema: Schema) -> str:
    """The header's line.

    >>> header_schema("AP214")
    "FILE_SCHEMA(('AUTOMOTIVE_DESIGN { 1 0 10303 214 1 1 1 1 }'));"
    """
    return f"FILE_SCHEMA(('{PROTOCOLS[schema].schema}'));"


def under(schema: Schema, data: str) -> str:
    """The data section, one statement a line, said to be of this protocol.

    The kernel keeps its choice of protocol for the whole process; its data sections differ in nothing else.
    """
    said = PROTOCOLS[schema]
    data = _DEFINITION.sub(
        lambda found: f"APPLICATION_PROTOCOL_DEFINITION('{found[1]}','{said.definition}',{said.year},", data
    )
    return _CONTEXT.sub(lambda found: f"{found[1]}('{said.context}')", data)
