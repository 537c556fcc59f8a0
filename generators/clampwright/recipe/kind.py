"""What a kind of recipe brings: its own keys, its checks across keys, and its typed job."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from clampwright.recipe.common import recipe_table
from clampwright.recipe.fields import Field, Table, Values
from clampwright.recipe.starter_lines import Written
from clampwright.recipe.written import Entry
from clampwright.structure.tubes import Structure


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of recipe.

    `cross_check` notes the faults that no key has by itself; it is called with what could be read, which
    may lack keys, and with no structure where the tubes have faults. `job` is called only where there is no
    fault at all.
    """

    name: str
    about: str
    own: tuple[Field, ...]
    cross_check: Callable[[Entry, Values, Structure | None], None]
    job: Callable[[Entry, Values, Structure], object]
    starter: Callable[[str], Written]
    """What the starter recipe writes, as TOML texts by key, for "mm" or "in"."""

    def table(self) -> Table:
        """The whole table of such a recipe."""
        return recipe_table((self.name,), self.own)
