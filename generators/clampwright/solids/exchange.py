"""Bodies to a CadQuery assembly and to STEP text: one product a shape, one named occurrence a body."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import cadquery as cq

from clampwright.solids.body import Body
from clampwright.solids.no_part import NoPart
from clampwright.solids.shapes import location
from clampwright.solids.through_file import through_file

_TITLE = "@00000@"
_LAST = b"END-ISO-10303-21;"
_OWN_NAME = re.compile(rb"PRODUCT\('[^']*',\s*'[^']*'")


class NotTransferred(NoPart):
    """A body did not come through to STEP."""

    own_fault = True


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

    Raises `NotTransferred`, and OSError where the temporary folder has no room.
    """
    marked = {f"@{k:05d}@": body for k, body in enumerate(bodies, 1)}
    if one_part:
        data = _written(lambda path: bodies[0].shape.exportStep(path, write_pcurves=False))
        data = _OWN_NAME.sub(b"PRODUCT('@00001@','@00001@'", data)
    else:
        whole = gathered(bodies, list(marked), _TITLE, coloured=False)
        data = _written(lambda path: whole.export(path, "STEP", write_pcurves=False))
    lost = [body.name for mark, body in marked.items() if mark.encode() not in data]
    if lost:
        raise NotTransferred(f"the kernel could not write {', '.join(lost)} as STEP")
    products = {mark: body.product for mark, body in marked.items()}
    return KernelText(data, {_TITLE: title} | products, marked)


def _written(write: Callable[[str], object]) -> bytes:
    return through_file("written.step", write, lambda data: data.rstrip().endswith(_LAST))
