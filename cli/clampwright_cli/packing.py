"""Packing recipes for a shop: what is printed of it, whatever comes of it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from clampwright_cli import leave
from clampwright_cli.outcome import Outcome, fault_data, own_fault_of
from clampwright_cli.own_fault import wants_trace
from clampwright_cli.paragraph import paragraph
from clampwright_cli.status_line import status_line

if TYPE_CHECKING:
    from clampwright.checks.finding import Finding
    from clampwright.pack import Failing, Packed, PackFaults, Told


def pack(recipes: Sequence[Path], to: Path, anyway: bool) -> Outcome:
    """Pack the recipes; every expected kind of trouble becomes an outcome that says what to do."""
    from clampwright.pack import PackFaults, SameName, WillNotPack, pack_recipes

    with status_line() as say:
        try:
            packed = pack_recipes(recipes, to, anyway, lambda words: say(to.name, words))
        except PackFaults as faults:
            return Outcome(str(to), leave.BAD_RECIPE, str(faults), _troubles(faults))
        except SameName as same:
            data = {"same_name": {"name": same.name, "files": [str(file) for file in same.files]}}
            return Outcome(str(to), leave.BAD_RECIPE, f"Nothing was packed: {same}.", data)
        except WillNotPack as refused:
            return _refused(to, refused.failing)
        except OSError as error:
            return _not_written(to, error)
        except Exception as fault:
            if wants_trace():
                raise
            return own_fault_of(to, fault)
    return _done(packed)


def _done(packed: Packed) -> Outcome:
    from clampwright.pack import told_once

    lines = [f"{packed.path}: {len(packed.files)} files for the shop"]
    lines += [f"  {name}: {verdict}" for name, verdict in packed.verdicts]
    for each in told_once(packed.failing):
        lines += ["", click.style(f"{each.recipe} FAILS and was packed all the same:", fg="red", bold=True)]
        lines += _told(each)
        lines.append("  Every sheet of it, and every file to make it from, says not to make it.")
    lines += [f"{name}: no STEP, STL or DXF, because {why}" for name, why in packed.no_part_because]
    if packed.not_nested:
        lines.append(f"Flat parts are not nested on sheets, a fault of the program: {packed.not_nested}")
    if packed.not_verified:
        lines += ["", "Rests on values that nobody measured; READ-ME-FIRST.txt in the zip lists them:"]
        lines += [f"  {name}: {codes}" for name, codes in _codes(packed.not_verified)]
    lines += ["", "Files", *(f"  {name}" for name in packed.files)]
    lines += ["", "The kit maker's instructions and the regulations come first."]
    data: dict[str, Any] = {
        "zip": str(packed.path),
        "files": list(packed.files),
        "verdicts": dict(packed.verdicts),
        "failing": [_failing(each) for each in packed.failing],
        "not_verified": [{"recipe": name, **_finding(f)} for name, f in packed.not_verified],
        "between_recipes": [_finding(f) for f in packed.between],
        "no_part_because": dict(packed.no_part_because),
        "not_nested": packed.not_nested,
    }
    status = leave.CHECK_FAILED if packed.failing else leave.DONE
    return Outcome(str(packed.path), status, "\n".join(lines), data)


def _refused(to: Path, failing: Sequence[Failing]) -> Outcome:
    from clampwright.pack import told_once

    lines = [f"{to}: nothing was packed, because checks fail:"]
    for each in told_once(failing):
        lines += ["", click.style(each.recipe, bold=True), *_told(each)]
    lines += ["", "Change the recipes, or pack with --anyway: every sheet then says not to make it."]
    data = {"will_not_pack": [_failing(each) for each in failing]}
    return Outcome(str(to), leave.CHECK_FAILED, "\n".join(lines), data)


def _told(told: Told) -> list[str]:
    lines = []
    for each in told.findings:
        lines.append(paragraph(f"  {each.code.ljust(11)}", f"{each.where}: {each.says}", 13))
        if each.change:
            lines.append(paragraph(" " * 13, f"do: {each.change}", 13))
    return [*lines, f"  {told.left}"] if told.left else lines


def _codes(found: Sequence[tuple[str, Finding]]) -> list[tuple[str, str]]:
    """Codes by recipe, each once."""
    by: dict[str, list[str]] = {}
    for name, finding in found:
        by.setdefault(name, []).append(finding.code)
    return [(name, ", ".join(dict.fromkeys(codes))) for name, codes in by.items()]


def _failing(each: Failing) -> dict[str, Any]:
    return {
        "recipe": each.recipe,
        "file": str(each.file or ""),
        "findings": [_finding(f) for f in each.findings],
    }


def _finding(finding: Finding) -> dict[str, Any]:
    from clampwright.files.findings_json import finding_as_json

    data: dict[str, Any] = finding_as_json(finding)
    return data


def _troubles(faults: PackFaults) -> dict[str, Any]:
    from clampwright.recipe.faults import RecipeFaults

    entries = []
    for trouble in faults.troubles:
        if isinstance(trouble.why, RecipeFaults):
            said: dict[str, Any] = {"faults": [fault_data(fault) for fault in trouble.why.faults]}
        else:
            why = trouble.why
            said = {"no_layout": {"line": why.line, "why": why.why, "change": why.change}}
        entries.append({"file": str(trouble.file), **said})
    return {"troubles": entries}


def _not_written(to: Path, error: OSError) -> Outcome:
    reason = error.strerror or str(error)
    place = "" if error.filename in (None, str(to)) else f" ({error.filename})"
    text = f"{to}: nothing was written: {reason}{place}. Free the place or choose another with --to."
    if error.strerror is None:
        text = f"Nothing was packed: {error}."
    return Outcome(str(to), leave.NOT_WRITTEN, text, {"not_written": {"file": str(to), "why": reason}})
