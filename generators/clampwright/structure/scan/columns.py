"""Points as lines of numbers: x, y, z and whatever follows, apart by blanks, commas, semicolons or tabs."""

from __future__ import annotations

import io
import re
import warnings
from pathlib import Path

import numpy as np

from clampwright.structure.not_readable import NotReadable
from clampwright.structure.scan.cloud import Array

_SPLIT = re.compile(r"[,;\s]+")
_HEAD_MOST = 40
"""Lines that a head may have."""


def read_columns(path: Path) -> Array:
    """Points (n, 3) of a text file: the first three numbers of every line after its head.

    The head is every line before the first that starts with three numbers: titles, a count, comments.

    Raises
    ------
    NotReadable
        Where no such line is found, or one after it holds something else.
    """
    text = path.read_bytes()
    if b"\x00" in text[:4096]:
        raise NotReadable(f'"{path.name}" holds no text', "export the points as text, x y z a line")
    lines = text.decode("utf-8", "replace")
    head, between = _head(lines, path.name)
    body = lines.replace(";", " ") if between == ";" else lines
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            columns = np.loadtxt(
                io.StringIO(body),
                skiprows=head,
                usecols=(0, 1, 2),
                delimiter="," if between == "," else None,
                comments=["#", "//", '"'],
                ndmin=2,
            )
    except (ValueError, IndexError) as error:
        raise NotReadable(
            f'a line of "{path.name}" does not start with three numbers ({str(error)[:80]})',
            "export the points as text, x y z a line",
        ) from error
    return np.asarray(columns, dtype=float)


def obj_vertices(path: Path) -> Array | None:
    """Points (n, 3) of an OBJ that has vertices only; None where it has facets.

    Raises
    ------
    NotReadable
        A vertex without three numbers.
    """
    text = path.read_text("utf-8", "replace")
    if re.search(r"^\s*f\s", text, re.MULTILINE):
        return None
    found = re.findall(r"^\s*v\s+(.*)$", text, re.MULTILINE)
    try:
        return np.array([line.split()[:3] for line in found], dtype=float).reshape(-1, 3)
    except ValueError as error:
        raise NotReadable(f'a vertex of "{path.name}" is no three numbers', "export it again") from error


def _head(text: str, name: str) -> tuple[int, str]:
    """How many lines the head has, and what stands between numbers."""
    for number, line in enumerate(io.StringIO(text)):
        if number > _HEAD_MOST:
            break
        if _is_point(line):
            return number, next((mark for mark in ",;" if mark in line), " ")
    raise NotReadable(f'"{name}" has no line of three numbers', "export the points as text, x y z a line")


def _is_point(line: str) -> bool:
    words = [word for word in _SPLIT.split(line.strip()) if word]
    try:
        return len([float(word) for word in words[:3]]) == 3
    except ValueError:
        return False
