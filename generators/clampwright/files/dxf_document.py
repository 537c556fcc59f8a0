"""DXF documents in millimetres, R2010, that are the same bytes every time they are written."""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import Any

import ezdxf

from clampwright.files.maker import made_by
from clampwright.quantities import Vec2

VERSION, MILLIMETRES, METRIC = "R2010", 4, 1

Document = Any


def new_document(low: Vec2, high: Vec2, properties: Iterable[tuple[str, str]]) -> Document:
    """An empty document in millimetres, which a viewer opens on the box from `low` to `high`."""
    document = ezdxf.new(VERSION, setup=False, units=MILLIMETRES)
    document.header["$MEASUREMENT"] = METRIC
    _frame(document, low, high)
    for key, text in properties:
        document.header.custom_vars.append(key, text)
    return document


def document_bytes(document: Document) -> bytes:
    """The file: whoever wants the same bytes again makes and writes it within `steady`."""
    text = io.StringIO()
    document.header["$LASTSAVEDBY"] = made_by()
    # Left to itself the library registers these in an order that changes from process to process.
    for kind in sorted(document.entitydb.dxf_types_in_use()):
        document.classes.add_class(kind)
    document.write(text)
    return text.getvalue().replace("\r\n", "\n").encode("utf-8")


@contextmanager
def steady() -> Iterator[None]:
    """No dates and no random ids: the library's own switch, put back afterwards."""
    before = ezdxf.options.write_fixed_meta_data_for_testing
    ezdxf.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        ezdxf.options.write_fixed_meta_data_for_testing = before


def _frame(document: Document, low: Vec2, high: Vec2) -> None:
    """Where there is something to see. The library by itself loses extents that start at the origin."""
    document.header["$EXTMIN"], document.header["$EXTMAX"] = (*low, 0.0), (*high, 0.0)
    document.modelspace().reset_extents((*low, 0.0), (*high, 0.0))
    document.modelspace().reset_limits(low, high)
