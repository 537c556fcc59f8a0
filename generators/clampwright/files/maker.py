"""Who made a file: this program's name and version, and the versions of the libraries it used."""

from __future__ import annotations

from functools import cache
from importlib.metadata import PackageNotFoundError, version

MAKER = "clampwright"
MANIFEST = "manifest.json"
"""Name of the file that marks a folder as ours."""


@cache
def version_of(distribution: str) -> str:
    """Version of an installed distribution; "not installed" where there is none.

    >>> version_of("no-such-thing")
    'not installed'
    """
    try:
        return version(distribution)
    except PackageNotFoundError:
        return "not installed"


def made_by() -> str:
    """Name and version of this program.

    >>> made_by().split()[0]
    'clampwright'
    """
    return f"{MAKER} {version_of(MAKER)}"
