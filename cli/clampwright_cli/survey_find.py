"""`clampwright survey find`: round tubes out of a STEP file or a scan, to be chosen by table and picture."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import click

from clampwright_cli import leave, options
from clampwright_cli.outcome import Outcome, attempt
from clampwright_cli.status_line import status_line
from clampwright_cli.survey_sheet import written_to
from clampwright_cli.survey_solve import cannot_go_to

if TYPE_CHECKING:
    from clampwright.structure.found import Found
    from clampwright.structure.tubes import Structure


@dataclass(frozen=True, slots=True)
class _Wanted:
    unit: str | None
    take: str | None
    names: tuple[str, ...]
    to: Path | None
    force: bool
    units: str
    out: Path


@click.command("find")
@click.argument("file", type=click.Path(path_type=Path))
@click.option(
    "--unit",
    type=click.Choice(["mm", "cm", "m", "in"]),
    help="Of a scan's numbers; a STEP file says its own.",
)
@click.option("--take", help='Numbers of the tubes to keep, such as "1,2,5"; left out: none; "all" for all.')
@click.option("--name", "names", multiple=True, help='A name for a tube: "3=upper-left". May be repeated.')
@click.option("--to", type=click.Path(path_type=Path), help="Structure file to write the taken tubes to.")
@click.option("--force", is_flag=True, help="Overwrite that file if it is there.")
@click.option(
    "--units", type=click.Choice(["in", "mm"]), default="mm", show_default=True, help="Of what you are shown."
)
@options.out
@options.as_json
def command(
    file: Path,
    unit: str | None,
    take: str | None,
    names: tuple[str, ...],
    to: Path | None,
    force: bool,
    units: str,
    out: Path,
    as_json: bool,
) -> None:
    """Find the round tubes in FILE: STEP, or a scan as mesh or points (.stl, .ply, .obj, .xyz).

    Look at the table and at the picture that is written, then say which tubes to take:

    \b
    clampwright survey find mount.step
    clampwright survey find mount.step --take 1,2,5 --name 1=upper-left --to engine-mount.toml
    """
    from clampwright_cli.show import show

    wanted = _Wanted(unit, take, names, to, force, units, out)
    with status_line() as say:
        outcome = attempt(file, lambda: _found(file, wanted, lambda words: say(file.name, words)))
    show([outcome], as_json)


def _found(path: Path, wanted: _Wanted, step: options.Say) -> Outcome:
    from clampwright.measure import find_tubes
    from clampwright.structure.not_readable import NotReadable

    refused = cannot_go_to(wanted.to, path, wanted.force)
    if refused is not None:
        return refused
    try:
        found = find_tubes(path, wanted.unit, step, units=wanted.units)
        structure = _chosen(found, wanted)
    except NotReadable as no:
        data = {"not_readable": {"file": str(path), "why": no.why, "change": no.change}}
        return Outcome(str(path), leave.BAD_RECIPE, f"{path}: {no.why}. Do: {no.change}.", data)
    except LookupError as wrong:
        return Outcome(str(path), leave.USAGE, f"{path}: {wrong.args[0]}", {"wrong": str(wrong.args[0])})
    return _kept(path, found, structure, wanted)


def _kept(path: Path, found: Found, structure: Structure | None, wanted: _Wanted) -> Outcome:
    from clampwright.files.survey_json import found_as_json
    from clampwright.measure import save_tubes, write_found
    from clampwright_cli.found_report import report

    made = write_found(found, wanted.out, structure, wanted.units)
    text = f"{report(found, structure, wanted.units)}\n\n{written_to(made.folder, made.files)}"
    if structure is not None and wanted.to is not None:
        about = f"Tubes found in {found.source}"
        save_tubes(structure, wanted.to, about, wanted.units, replace=wanted.force)
        text += f"\n{wanted.to}: the tubes"
    data = found_as_json(found) | {"folder": str(made.folder), "files": list(made.files)}
    status = leave.DONE if found.tubes else leave.CHECK_FAILED
    return Outcome(str(path), status, text, data)


def _chosen(found: Found, wanted: _Wanted) -> Structure | None:
    from clampwright.measure import chosen_tubes

    names = _names(wanted.names)
    if wanted.take is None:
        if names or wanted.to is not None:
            raise LookupError("say which tubes: --take 1,2,5, or --take all")
        return None
    return chosen_tubes(found, _numbers(wanted.take, found), names)


def _numbers(text: str, found: Found) -> Sequence[int]:
    if text.strip() == "all":
        return [tube.number for tube in found.tubes]
    words = [word for word in text.replace(" ", ",").split(",") if word]
    if not words or not all(re.fullmatch(r"[0-9]{1,6}", word) for word in words):
        raise LookupError(f'--take {text}: numbers of tubes such as "1,2,5", or "all"')
    return [int(word) for word in words]


def _names(texts: Sequence[str]) -> dict[int, str]:
    names: dict[int, str] = {}
    for text in texts:
        number, _, name = text.partition("=")
        if not re.fullmatch(r"[0-9]{1,6}", number.strip()) or not name.strip():
            raise LookupError(f'--name {text}: a number and a name, such as "3=upper-left"')
        if int(number) in names:
            raise LookupError(f"--name {text}: tube {int(number)} has a name already, {names[int(number)]}")
        names[int(number)] = name.strip()
    return names
