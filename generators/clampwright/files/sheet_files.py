"""Sheets as PDF files, one for each of the recipe's papers."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import Any

from clampwright.checks.finding import Finding
from clampwright.files.written import Written
from clampwright.recipe.model import Recipe
from clampwright.sheets.drawing import Sheet

Findings = tuple[Finding, ...]


def draw_each(draw: Callable[[Any, Findings, str], Sheet], layout: Any, findings: Findings) -> list[Sheet]:
    """One sheet a paper."""
    return [draw(layout, findings, paper) for paper in layout.recipe.template.papers]


def sheet_files(recipe: Recipe, word: str, sheets: Sequence[Sheet]) -> Iterator[Written]:
    """A PDF for each of the recipe's papers, `sheets` in the same order."""
    from clampwright.files.pdf import pdf

    for paper, sheet in zip(recipe.template.papers, sheets, strict=True):
        file = f"{recipe.name}-{word}-{paper}.pdf"
        yield Written(file, pdf(sheet), sheet.title, (("pages", len(sheet.pages)),))
