"""The first look at a file, before the kernel is loaded: is it STEP at all, and does it hold a mesh."""

from __future__ import annotations

from pathlib import Path

from clampwright.structure.not_readable import NotReadable

_MAGIC, _LAST = b"ISO-10303-21", b"END-ISO-10303-21"
_MESHES = (b"TRIANGULATED_FACE", b"TRIANGULATED_SURFACE", b"TESSELLATED_SOLID", b"TESSELLATED_SHELL")
_AGAIN = "export it from the CAD program as STEP (.step or .stp)"
_OTHERS = (
    (b"PK\x03\x04", "it is a zip archive", "unpack it first, then give the STEP file that is in it"),
    (b"\x1f\x8b", "it is packed with gzip", "unpack it first, then give the STEP file that is in it"),
    (b"ply", "it is a mesh or points (PLY)", "look for tubes in it as in a scan"),
    (b"solid", "it is a mesh (STL)", "look for tubes in it as in a scan"),
)


def looked_at(path: Path) -> bool:
    """Whether a STEP file holds triangles beside or instead of surfaces.

    Raises
    ------
    NotReadable
        No such file, empty, no STEP, or cut short.
    """
    data = _bytes(path)
    if not data.strip():
        raise NotReadable("it is empty", _AGAIN)
    start = data[:4096].lstrip(b"\xef\xbb\xbf \t\r\n")
    if _MAGIC not in start:
        for mark, why, change in _OTHERS:
            if start.startswith(mark):
                raise NotReadable(why, change)
        raise NotReadable("it is not a STEP file", _AGAIN)
    if _LAST not in data:
        raise NotReadable("it is cut short: its last line is missing", _AGAIN)
    return any(mesh in data for mesh in _MESHES)


def _bytes(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except FileNotFoundError:
        raise NotReadable("there is no such file", "give the path of a STEP file") from None
    except IsADirectoryError:
        raise NotReadable("it is a folder", "give one STEP file in it") from None
    except OSError as error:
        raise NotReadable(f"it cannot be opened ({error.strerror})", "look at who may read it") from None
