"""The manifest: what a build wrote, from what, with what, and the verdict. It tells no time."""

from __future__ import annotations

from collections.abc import Sequence
from zlib import ZLIB_RUNTIME_VERSION

from clampwright.checks.finding import Finding
from clampwright.files.findings_json import summary
from clampwright.files.json_text import Json, json_bytes, number
from clampwright.files.maker import MAKER, MANIFEST, version_of
from clampwright.files.written import Fact, Written
from clampwright.recipe.model import Recipe

FORMAT_VERSION = 1
LIBRARIES = ("cadquery", "cadquery-ocp", "ezdxf", "numpy", "rectpack", "reportlab", "shapely")
"""Whose version can change the bytes; so can that of zlib, which packs the pages of a PDF and a zip."""


def manifest(
    recipe: Recipe,
    findings: tuple[Finding, ...],
    files: Sequence[Written],
    no_part_because: Sequence[str] = (),
) -> Written:
    """The manifest of the files written so far; the folder's last file."""
    made_from: Json = {
        "recipe": {"name": recipe.name, "kind": recipe.kind, "digest": recipe.digest},
        **summary(findings),
        "no_part_because": list(no_part_because),
    }
    return manifest_of(made_from, files)


def manifest_of(made_from: Json, files: Sequence[Written]) -> Written:
    """The manifest of files that were made from something else than a recipe: `made_from` says what."""
    content: Json = {
        "made_by": MAKER,
        "format": "clampwright manifest",
        "format_version": FORMAT_VERSION,
        **made_from,
        "versions": {
            **{name: version_of(name) for name in (MAKER, *LIBRARIES)},
            "zlib": ZLIB_RUNTIME_VERSION,
        },
        "files": [_file(file) for file in sorted(files, key=lambda f: f.name)],
    }
    return Written(MANIFEST, json_bytes(content), "What this folder holds")


def _file(file: Written) -> Json:
    facts = {name: _fact(value) for name, value in file.facts}
    return {
        "name": file.name,
        "about": file.about,
        "bytes": len(file.data),
        "sha256": file.sha256,
        "facts": facts,
    }


def _fact(value: Fact) -> Fact | None:
    return number(value) if isinstance(value, float) else value
