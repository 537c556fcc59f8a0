"""Tubes in a STEP file.

`read` is the way in; it has `here` run in a process of its own. `opened` reads the file, `recognised` and
`skins` make cylinders of its faces, `axes` puts together those with one axis and diameter, `pieces` joins
what is one tube, `judged` says which are tubes, and `naming`, `copes`, `doubts` and `left_out` say the rest.
The CAD kernel's bindings are imported inside functions only.
"""
