"""The keys of a JSON document, to be held against the file that describes them."""

from __future__ import annotations

from collections.abc import Container, Iterator
from typing import Any


def keys(value: Any, apart: Container[str] = (), path: str = "") -> Iterator[str]:
    """Every key, with [] for the items of a list; of the documents in `apart` only where they stand."""
    if path in apart:
        yield path
    elif isinstance(value, dict):
        for key, inner in value.items():
            yield from keys(inner, apart, f"{path}.{key}" if path else key)
    elif isinstance(value, list) and any(isinstance(item, dict) for item in value):
        for item in value:
            yield from keys(item, apart, f"{path}[]")
    elif path:
        yield path
