"""Parts for things held on engine mount tubes with cushioned loop clamps.

The folders are the stages of the work; read them in this order::

    quantities   "3/4 in", "#10", "1.4 lb" to numbers and back
    trade        the tables, each row with its source
    recipe       text to a typed recipe, every fault at once
    structure    tubes and the nodes where they meet
    layout       where clamps, holes, bushings and bolts go
    checks       a layout to findings
    solids       a layout to solids (the only door to the CAD kernel)
    sheets       a layout to 2-D sheets
    files        everything written to disk, all or nothing
    make         runs the stages

Inside, lengths are millimetres, angles radians, masses kilograms, forces newtons, temperatures
degrees Celsius. A name that carries anything else says so in its suffix.
"""

__version__ = "0.1.0"
