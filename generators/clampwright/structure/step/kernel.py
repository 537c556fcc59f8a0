"""The few of the CAD kernel's ways that are wanted everywhere here, in Python's."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import numpy as np

from clampwright.structure.uncertainty import Array


def explored(shape: Any, kind: Any, but_not_in: Any = None) -> Iterator[Any]:
    """Every sub-shape of a kind, but those inside a shape of another kind."""
    from OCP.TopAbs import TopAbs_ShapeEnum
    from OCP.TopExp import TopExp_Explorer

    there = TopExp_Explorer(shape, kind, but_not_in or TopAbs_ShapeEnum.TopAbs_SHAPE)
    while there.More():
        yield there.Current()
        there.Next()


def triple(at: Any) -> Array:
    """A point or direction of the kernel as an array."""
    return np.array((at.X(), at.Y(), at.Z()))


def of_kernel(error: Exception) -> None:
    """Raise again what is no error of the CAD kernel: its exceptions have no class in common.

    >>> of_kernel(ValueError("ours"))
    Traceback (most recent call last):
    ValueError: ours
    """
    if not type(error).__module__.startswith("OCP."):
        raise error


@contextmanager
def kernel_quiet() -> Iterator[None]:
    """Without the kernel's own words on the console; afterwards it may speak again."""
    from OCP.Message import Message

    messenger = Message.DefaultMessenger_s()
    printers = messenger.ChangePrinters()
    kept = [printers.Value(i) for i in range(1, printers.Length() + 1)]
    printers.Clear()
    try:
        yield
    finally:
        for printer in kept:
            messenger.AddPrinter(printer)
