"""Texts as ISO 10303-21 writes them inside a string."""

from __future__ import annotations

import re

_NOT_BASIC = re.compile(r"[^\x20-\x7e]+")
_ESCAPE = re.compile(r"''|\\\\|\\X(?P<wide>[24])\\(?P<digits>[0-9A-F]*)\\X0\\")


def as_part21(text: str) -> str:
    r"""A text inside a string of ISO 10303-21: quotes and backslashes doubled, others as \X2\ groups.

    >>> print(as_part21("relay 'K1' é"))
    relay ''K1'' \X2\00E9\X0\
    """
    plain = text.replace("\\", "\\\\").replace("'", "''")
    return _NOT_BASIC.sub(lambda found: _group(found.group()), plain)


def from_part21(written: str) -> str:
    r"""The text that stands inside a string: the way back from `as_part21`.

    >>> print(from_part21(as_part21("relay 'K1' é \\X2\\")))
    relay 'K1' é \X2\
    """
    return _ESCAPE.sub(_plain, written)


def _group(text: str) -> str:
    if any(ord(c) > 0xFFFF for c in text):
        return f"\\X4\\{''.join(f'{ord(c):08X}' for c in text)}\\X0\\"
    return f"\\X2\\{''.join(f'{ord(c):04X}' for c in text)}\\X0\\"


def _plain(found: re.Match[str]) -> str:
    if found["wide"] is None:
        return found.group()[0]
    width, digits = (4 if found["wide"] == "2" else 8), found["digits"]
    return "".join(chr(int(digits[k : k + width], 16)) for k in range(0, len(digits), width))
