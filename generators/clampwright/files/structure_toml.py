"""Tubes, what stands round them and how sure they are, as a structure file that recipes name."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator, Sequence

from clampwright.files.factor_toml import factor_lines
from clampwright.quantities import Vec3
from clampwright.quantities.kinds import INCH
from clampwright.recipe.load import LARGEST_FILE
from clampwright.recipe.readers import LONGEST_TEXT
from clampwright.recipe.written import printable
from clampwright.structure.surroundings import KeepOut, Panel
from clampwright.structure.tubes import Structure, Tube
from clampwright.structure.uncertainty import Uncertainty

_BARE = re.compile(r"[A-Za-z0-9_-]+", re.ASCII)
_DECIMALS = {"mm": 3, "in": 4}


def structure_toml(structure: Structure, about: str, units: str, comments: Sequence[str] = ()) -> str:
    """The text of a structure file: what a person reads at the top, the covariance at the end.

    Lengths are written to 0.001 mm or 0.0001 in; the covariance to four digits of its largest part, and
    where it would not fit into a file otherwise, turned to fewer causes.

    Parameters
    ----------
    structure
        Tubes, panels, keep-outs, and where they were surveyed their uncertainty.
    about
        One line on what these tubes are.
    units
        "mm" or "in", of the lengths written.
    comments
        Lines that stand at the top, without their #.

    Raises
    ------
    ValueError
        So many tubes that no structure file holds what is known of them.

    Examples
    --------
    >>> tube = Tube("left", (0.0, 0.0, 0.0), (508.0, 25.4, 0.0), 19.05, mark_mm=50.8)
    >>> print(structure_toml(Structure((tube,)), "Two tubes", "in"))
    about = "Two tubes"
    units = "in"
    <BLANKLINE>
    [tubes.left]
    start = [0, 0, 0]
    end = [20, 1, 0]
    od = 0.75
    mark = 2
    <BLANKLINE>
    """
    head = [*(f"# {printable(line)}".rstrip() for line in comments), f"about = {_text(about[:LONGEST_TEXT])}"]
    lines = [*head, f'units = "{units}"']
    if structure.engine_moves_mm is not None:
        lines.append(f"engine_moves = {_number(structure.engine_moves_mm, units)}")
    for block in _blocks(structure, units):
        lines += ["", *block]
    if structure.uncertainty is None:
        return _ended(lines)
    text = _ended([*lines, "", *_known(structure.uncertainty)])
    if len(text.encode()) > LARGEST_FILE:
        text = _ended([*lines, "", *_known(structure.uncertainty, fewer=True)])
    if len(text.encode()) > LARGEST_FILE:
        raise ValueError(f"{len(structure.tubes)} tubes are too many for one structure file: take fewer")
    return text


def _ended(lines: Iterable[str]) -> str:
    return "\n".join((*lines, ""))


def _blocks(structure: Structure, units: str) -> Iterator[Iterator[str]]:
    yield from (_tube(tube, units) for tube in structure.tubes)
    yield from (_panel(panel, units) for panel in structure.panels)
    yield from (_keep_out(kept, units) for kept in structure.keep_outs)


def _tube(tube: Tube, units: str) -> Iterator[str]:
    yield f"[tubes.{_key(tube.name)}]"
    yield f"start = {_point(tube.start, units)}"
    yield f"end = {_point(tube.end, units)}"
    yield f"od = {_number(tube.od_mm, units)}"
    if tube.mark_mm is not None:
        yield f"mark = {_number(tube.mark_mm, units)}"


def _panel(panel: Panel, units: str) -> Iterator[str]:
    yield f"[panels.{_key(panel.name)}]"
    yield f"point = {_point(panel.point, units)}"
    yield f"normal = [{', '.join(f'{part + 0.0:.12g}' for part in panel.normal)}]"
    yield f"thickness = {_number(panel.thickness_mm, units)}"
    yield f"material = {_text(panel.material)}"


def _keep_out(kept: KeepOut, units: str) -> Iterator[str]:
    yield f"[keep_outs.{_key(kept.name)}]"
    yield f"from = {_point(kept.start, units)}"
    yield f"to = {_point(kept.end, units)}"
    if kept.od_mm is not None:
        yield f"od = {_number(kept.od_mm, units)}"
    yield f"distance = {_number(kept.distance_mm, units)}"
    yield f"rides_on = {_text(kept.rides_on)}"
    yield f"kind = {_text(kept.kind)}"


def _known(uncertainty: Uncertainty, fewer: bool = False) -> Iterator[str]:
    one_mm, causes, rows = factor_lines(uncertainty, fewer)
    yield "# How sure the tubes are. Written by the survey; it belongs to these tubes as they stand above."
    yield "# Rows: start x, y, z, end x, y, z; columns: what one standard deviation of each cause does."
    yield "[measured]"
    yield f"from = {_text(uncertainty.said[:LONGEST_TEXT])}"
    yield f"given = {'true' if uncertainty.given else 'false'}"
    yield f"one_mm = {one_mm!r}"
    if causes:
        yield f"causes = [{', '.join(_text(cause) for cause in causes)}]"
    yield "[measured.ends]"
    for number, name in enumerate(uncertainty.tubes):
        yield f"{_key(name)} = ["
        yield from (f"  {json.dumps(row)}," for row in rows[6 * number : 6 * number + 6])
        yield "]"


def _point(at: Vec3, units: str) -> str:
    return f"[{', '.join(_number(part, units) for part in at)}]"


def _number(mm: float, units: str) -> str:
    value = mm / float(INCH) if units == "in" else mm
    text = f"{value:.{_DECIMALS[units]}f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _text(text: str) -> str:
    return json.dumps(printable(text), ensure_ascii=False)


def _key(name: str) -> str:
    return name if _BARE.fullmatch(name) else _text(name)
