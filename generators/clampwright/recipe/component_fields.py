"""Keys of a component that it has whichever way it is held."""

from __future__ import annotations

from clampwright.recipe.fields import NEEDED, Field
from clampwright.recipe.measures import Mass

MASS = Field(
    "mass",
    Mass("mass", "was another unit meant? More than that is no job for loop clamps"),
    "Its mass, with the unit.",
    NEEDED,
    '"0.6 kg" | "1.4 lb"',
)
