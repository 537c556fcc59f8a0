"""What the kernel writes to files only, as bytes, through the temporary folder."""

from __future__ import annotations

import errno
import tempfile
from collections.abc import Callable
from pathlib import Path


def through_file(name: str, write: Callable[[str], object], whole: Callable[[bytes], bool]) -> bytes:
    """The bytes that `write` puts into a temporary file of this name.

    The kernel does not say when it could write only half a file, or none: `whole` looks at the bytes.

    Raises
    ------
    OSError
        Names the temporary folder, where that has no room or is not there.

    Examples
    --------
    >>> through_file("a.txt", lambda path: Path(path).write_bytes(b"all"), lambda data: data == b"all")
    b'all'
    """
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / name
        write(str(path))
        data = path.read_bytes() if path.is_file() else b""
    if not whole(data):
        text = "a file in the temporary folder came out short or not at all; is there room in it?"
        raise OSError(errno.ENOSPC, text, tempfile.gettempdir())
    return data
