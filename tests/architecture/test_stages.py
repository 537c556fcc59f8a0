"""Data flows one way: a stage imports only the stages before it, and only `solids` opens the CAD kernel."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

import clampwright

ROOT = Path(clampwright.__file__).parent
_TO_LAYOUT = {"quantities", "trade", "structure", "recipe", "layout"}
_TO_SHEETS = {*_TO_LAYOUT, "nesting", "checks", "solids", "sheets"}
BEFORE = {
    "quantities": set(),
    "trade": {"quantities"},
    "structure": {"quantities", "trade"},
    "recipe": {"quantities", "trade", "structure"},
    "layout": _TO_LAYOUT,
    "nesting": _TO_LAYOUT,
    "checks": _TO_LAYOUT,
    "solids": _TO_LAYOUT,
    "sheets": _TO_SHEETS,
    "files": _TO_SHEETS,
    "measure": {*_TO_SHEETS, "files"},
    "make": {*_TO_SHEETS, "files"},
    "pack": {*_TO_SHEETS, "files", "make"},
    "verify": _TO_SHEETS,
}
ONLY_IN = {
    "cadquery": {"solids"},
    "OCP": {"solids", "structure"},
    "reportlab": {"files"},
    "ezdxf": {"files"},
    "trimesh": {"files", "solids", "structure"},
    "shapely": {"nesting", "files"},
    "rectpack": {"nesting"},
}
MODULES = sorted(ROOT.rglob("*.py"))


def stage(path: Path) -> str:
    """Top folder or file below the package: the stage."""
    return path.relative_to(ROOT).parts[0].removesuffix(".py")


def imported(path: Path) -> Iterator[str]:
    """Every module name imported anywhere in a file, inside functions too."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            yield node.module or ""


@pytest.mark.parametrize("path", MODULES, ids=lambda p: str(p.relative_to(ROOT)))
def test_a_stage_imports_only_what_comes_before_it(path: Path) -> None:
    here = stage(path)
    if here == "__init__":
        return
    allowed = BEFORE[here] | {here}
    for name in imported(path):
        top, *rest = name.split(".")
        if top == "clampwright":
            assert rest, f"{path}: import the stage, not the package"
            assert rest[0] in allowed, f"{path}: {here} must not import {name}"
        elif top == "clampwright_cli":
            pytest.fail(f"{path}: the library must not import the commands")
        elif top in ONLY_IN:
            assert here in ONLY_IN[top], f"{path}: {top} belongs to {ONLY_IN[top]}"


def test_the_library_never_prints() -> None:
    for path in MODULES:
        calls = (n for n in ast.walk(ast.parse(path.read_text(encoding="utf-8"))) if isinstance(n, ast.Call))
        assert not any(isinstance(c.func, ast.Name) and c.func.id == "print" for c in calls), path


@pytest.mark.parametrize("root", ["generators", "cli", "tests"])
def test_no_file_grows_past_400_lines(root: str) -> None:
    for path in (ROOT.parents[1] / root).rglob("*.py"):
        assert len(path.read_text(encoding="utf-8").splitlines()) <= 400, path
