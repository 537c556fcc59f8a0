"""A zip that is the same for the same files: order, dates, permissions and compression are fixed."""

from __future__ import annotations

import io
import zipfile
from collections.abc import Sequence

from clampwright.files.safe_names import safe_name
from clampwright.files.written import Written

_DATE = (1980, 1, 1, 0, 0, 0)
"""The earliest that the format can say: a pack tells no time."""
_UNIX, _READABLE, _LEVEL = 3, 0o100644 << 16, 9


def zipped(top: str, files: Sequence[Written]) -> bytes:
    """The zip of files under one folder, in the order given.

    Its files are deflated: a pack goes by mail, and is a fifth of the size so (0.6 MB for nine recipes).
    Another version of zlib may pack the same files into other bytes, as it may the pages of a PDF; the
    manifest names the version, and its hashes are of the files as they are unpacked.

    Parameters
    ----------
    top : str
        Name of the folder that all lie in.
    files : Sequence[Written]
        Named with their path below it, slashes between folders.

    Raises
    ------
    UnsafeName
        A name that could lead out of the folder that the zip is unpacked in.

    Examples
    --------
    >>> data = zipped("bay", [Written("lists/a.csv", b"part", "a list")])
    >>> zipfile.ZipFile(io.BytesIO(data)).namelist()
    ['bay/lists/a.csv']
    """
    buffer = io.BytesIO()
    with zipfile.ZipFile(buffer, "w", zipfile.ZIP_DEFLATED, compresslevel=_LEVEL) as archive:
        for file in files:
            words = [safe_name(word) for word in (top, *file.name.split("/"))]
            info = zipfile.ZipInfo("/".join(words), _DATE)
            info.create_system, info.external_attr = _UNIX, _READABLE
            archive.writestr(info, file.data, zipfile.ZIP_DEFLATED, _LEVEL)
    return buffer.getvalue()
