"""Solids: a layout to CadQuery solids, and views, meshes and measures of them.

The only folder that opens CadQuery and the kernel under it. Bodies are made, moved, cut and exported by
CadQuery; the kernel's own bindings serve only what CadQuery has no equal for: hidden lines with a given
direction to the right (`views`) and the name of the kernel's refusal (`shapes`). Importing this package
alone loads nothing.
"""
