"""Tubes in space, and the nodes where they are welded together."""

from clampwright.structure.tubes import Node, Structure, Tube

__all__ = ["Node", "Structure", "Tube"]
