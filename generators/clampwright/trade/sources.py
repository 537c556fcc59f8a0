"""What each source is, and how far it can be trusted."""

from __future__ import annotations

import difflib
import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

STATUSES = ("standard", "regulation", "handbook", "textbook", "derived", "practice", "memory", "assumed")
"""Status of a source, from a published standard to a value nobody has held against a document."""

_KEYS = {"title", "status", "note"}


@dataclass(frozen=True, slots=True)
class Source:
    """One entry of sources.toml."""

    key: str
    title: str
    status: str
    note: str = ""


def source(key: str) -> Source:
    """The source with this key.

    Raises
    ------
    KeyError
        Where there is none; the message names the nearest.

    Examples
    --------
    >>> source("practice").title
    'Common practice, no source'
    """
    found = sources().get(key)
    if found is None:
        near = difflib.get_close_matches(key, sources(), n=1)
        raise KeyError(f"no source {key!r}" + (f"; did you mean {near[0]!r}?" if near else ""))
    return found


@cache
def sources() -> dict[str, Source]:
    """Every source by its key, in the order of sources.toml."""
    return read_sources(Path(__file__).with_name("sources.toml").read_text("utf-8"))


def read_sources(text: str) -> dict[str, Source]:
    """Sources from the text of a sources.toml.

    Raises
    ------
    ValueError
        For a source without title, with a status outside `STATUSES`, or with anything else in it.

    Examples
    --------
    >>> read_sources('[tape]\\ntitle = "A tape measure"\\nstatus = "assumed"')["tape"].status
    'assumed'
    """
    return {key: _source(key, entry) for key, entry in tomllib.loads(text).items()}


def _source(key: str, entry: object) -> Source:
    if not isinstance(entry, dict) or not all(isinstance(value, str) for value in entry.values()):
        raise ValueError(f"sources.toml: [{key}] must hold texts: title, status and perhaps note")
    if unknown := set(entry) - _KEYS:
        raise ValueError(f"sources.toml: [{key}] knows no {', '.join(sorted(unknown))}")
    if not entry.get("title") or entry.get("status") not in STATUSES:
        raise ValueError(f"sources.toml: [{key}] needs a title and a status, one of {', '.join(STATUSES)}")
    return Source(key, entry["title"], entry["status"], entry.get("note", ""))
