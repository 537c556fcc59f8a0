"""Why no part can be made of a layout: the common class of all that the geometry itself forbids."""

from __future__ import annotations

from typing import ClassVar


class NoPart(ValueError):  # noqa: N818
    """The geometry gives no part; says why in plain words. A build then writes records but no part files."""

    own_fault: ClassVar[bool] = False
    """Whether the program itself is to blame, so that no change of the recipe is known to help."""
