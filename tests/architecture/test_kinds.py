"""A kind of recipe stands in the registry of every stage, or in none."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from clampwright.checks.all_checks import FAMILIES
from clampwright.files.kind_files import KIND_FILES
from clampwright.files.layout_data import LAYOUT_DATA
from clampwright.layout.kinds import LAY_OUT
from clampwright.recipe.kinds import KINDS
from clampwright_cli.report import BODIES, HEADS

REGISTRIES = {
    "layout": LAY_OUT,
    "checks": FAMILIES,
    "files": KIND_FILES,
    "data": LAYOUT_DATA,
    "report head": HEADS,
    "report body": BODIES,
}


@pytest.mark.parametrize("registry", REGISTRIES.values(), ids=REGISTRIES)
def test_every_kind_is_in_every_registry(registry: Mapping[str, object]) -> None:
    assert list(registry) == list(KINDS)
