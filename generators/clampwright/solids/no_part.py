"""Why no part can be made of a layout: the common class of all that the geometry itself forbids."""

from __future__ import annotations


class NoPart(ValueError):  # noqa: N818
    """The geometry gives no part; says why in plain words. A build then writes records but no part files."""
