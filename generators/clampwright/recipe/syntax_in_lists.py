"""What is wrong inside a list that TOML cannot read: mostly a text that lacks its quotes, or a comma."""

from __future__ import annotations

import re
from collections.abc import Sequence

_IN_QUOTES = re.compile(r'"[^"]*"|\'[^\']*\'')
_COMMENT = re.compile(r"#.*")
_BARE = re.compile(r"[\[,]\s*(?=[^\s\[\]\"'{])([^,\[\]\"'{}]*)")
"""What stands in a list outside quotes and inner lists."""
_NUMBER = re.compile(
    r"[+-]?(\d[\d_]*(\.\d[\d_]*)?([eE][+-]?\d+)?|nan|inf|0[xob]\w+)|true|false|\d{4}-\d\d-\d\d.*"
)


def list_hint(lines: Sequence[str], number: int) -> str:
    """A hint for a line (counted from 1) in or at the end of a list; "" where nothing stands out.

    >>> list_hint(['d = [', '  ["F1", "A", 20-3/32],', ']'], 2)
    'put it in quotes: "20-3/32"'
    >>> list_hint(['d = [', '  ["F1", "A", 20]', '  ["F2", "A", 21],', ']'], 3)
    'a comma is missing at the end of line 2'
    """
    line = _without_text(lines[number - 1])
    for match in _BARE.finditer(line):
        part = match[1].strip()
        if part and not _NUMBER.fullmatch(part):
            return f'put it in quotes: "{part[:40]}"'
    above = _without_text(lines[number - 2]).rstrip() if number > 1 else ""
    if line.lstrip().startswith("[") and above.endswith("]") and not above.lstrip().endswith("]]"):
        return f"a comma is missing at the end of line {number - 1}"
    return ""


def _without_text(line: str) -> str:
    """A line with nothing in its quotes, and without its comment."""
    return _COMMENT.sub("", _IN_QUOTES.sub('""', line))
