"""A component with mounting holes on clamps and bushings: every way to hold it, and the best.

Reading order: `holders` (tubes and their clamps), `normals` (which tubes can hold it together, and how it
then stands), `plans` (their lines in plan, as arrays), `arcs` and `assignments` (which holes can go to which
lines), `poses` and `slides` (where it then sits), `candidates`, `trials` and `ranking` (what each is worth),
`solving`, `ways` and `answers` (one of them in the world and in words), `remedies`, `lay_out`.
"""
