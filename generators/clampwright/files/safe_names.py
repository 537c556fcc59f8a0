"""Names of files and folders that stay where they are put."""

from __future__ import annotations

import re

_SAFE = re.compile(r"[A-Za-z0-9_][A-Za-z0-9._+-]{0,119}", re.ASCII)


class UnsafeName(ValueError):  # noqa: N818
    """A name that could lead out of its folder, or that some system does not take."""


def safe_name(name: str) -> str:
    """The name itself, where it is one plain word of letters, digits and ``. _ + -``.

    >>> safe_name("coil-plate.step")
    'coil-plate.step'
    >>> safe_name("../elsewhere")
    Traceback (most recent call last):
    clampwright.files.safe_names.UnsafeName: '../elsewhere' is not a plain file name
    """
    if not _SAFE.fullmatch(name) or name.endswith("."):
        raise UnsafeName(f"{name!r} is not a plain file name")
    return name


def plain_name(text: str) -> str:
    """A plain word made of any text, for a file or folder named after somebody's file.

    >>> plain_name("My mount (2).stp"), plain_name("../x"), plain_name("?")
    ('My-mount-2-.stp', 'x', 'tubes')
    """
    word = re.sub(r"[^A-Za-z0-9._+-]+", "-", text).lstrip("-.+").rstrip(".")[:80]
    return word or "tubes"
