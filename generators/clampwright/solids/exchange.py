"""Bodies to a CadQuery assembly and to STEP text: one product a shape, one named occurrence a body."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import cadquery as cq

from clampwright.solids.body import Body
from clampwright.solids.shapes import location

_TITLE = "@00000@"
_LAST = b"END-ISO-10303-21;"
_OWN_NAME = re.compile(rb"PRODUCT\('[^']*',\s*'[^']*'")


class NotTransferred(RuntimeError):  # noqa: N818
    """A body did not come through to STEP."""


@dataclass(frozen=True, slots=True)
class KernelText:
    """STEP as CadQuery writes it, without colours, and with a mark wherever a name belongs.

    A long name would be broken over two lines, and colours would come in an order that changes from one
    process to the next: the kernel sorts them by their places in memory.
    """

    data: bytes
    products: dict[str, str]
    """Mark to name of the product: bodies that are alike share the first one's."""
    bodies: dict[str, Body]
    """Mark to body."""


def gathered(bodies: Sequence[Body], names: Sequence[str], title: str, coloured: bool) -> Any:
    """A `cadquery.Assembly` of bodies where they sit."""
    whole = cq.Assembly(name=title)
    for body, name in zip(bodies, names, strict=True):
        colour = cq.Color(body.colour) if coloured else None
        whole.add(body.shape, name=name, loc=location(body.place), color=colour)
    return whole


def step_text(bodies: Sequence[Body], title: str, one_part: bool) -> KernelText:
    """STEP of bodies as CadQuery writes it.

    A part alone is written in its own frame, without an assembly. Ids of occurrences count on through the
    process and the header tells the time: `files.step` makes both steady and puts names and colours in.
    """
    marked = {f"@{k:05d}@": body for k, body in enumerate(bodies, 1)}
    with TemporaryDirectory() as folder:
        path = Path(folder) / "written.step"
        if one_part:
            bodies[0].shape.exportStep(str(path), write_pcurves=False)
            data = _OWN_NAME.sub(b"PRODUCT('@00001@','@00001@'", path.read_bytes())
        else:
            whole = gathered(bodies, list(marked), _TITLE, coloured=False)
            whole.export(str(path), "STEP", write_pcurves=False)
            data = path.read_bytes()
    lost = [body.name for mark, body in marked.items() if mark.encode() not in data]
    if lost or not data.rstrip().endswith(_LAST):
        raise NotTransferred(f"the kernel could not write {', '.join(lost) or title} as STEP")
    products = {mark: body.product for mark, body in marked.items()}
    return KernelText(data, {_TITLE: title} | products, marked)
