"""What a pack holds, before the lists and the read-me that speak of it are written."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from clampwright.files.pack.bay import Bay, Job
from clampwright.files.pack.bay_cuts import BayCuts
from clampwright.files.pack.placed_file import PlacedFile
from clampwright.files.pack.turned_parts import Turning
from clampwright.layout.shop.told import FlatPart, TurnedGroup
from clampwright.nesting.nested import Nest

DRAWINGS, CUTTING, LISTS = "drawings", "cutting", "lists"


@dataclass(frozen=True, slots=True)
class Contents:
    """The parts of a pack, and the files made of them so far."""

    bay: Bay
    flat: tuple[FlatPart, ...]
    turnings: tuple[Turning, ...]
    cuts: tuple[BayCuts, ...]
    nest: Nest | None
    """None where there is nothing to nest."""
    files: tuple[PlacedFile, ...]
    not_nested: str = ""
    """Why flat parts are not nested all the same: a fault of this program."""

    @property
    def turned(self) -> tuple[TurnedGroup, ...]:
        """Groups of all turning sheets."""
        return tuple(group for turning in self.turnings for group in turning.groups)

    def sheet_of(self, group: TurnedGroup) -> str:
        """Name of the turning sheet that a group stands on."""
        return next(turning.name for turning in self.turnings if group in turning.groups)

    def units_of(self, group: TurnedGroup) -> str:
        """The unit that the turning sheet of a group says first: that of its first recipe by name."""
        turning = next(turning for turning in self.turnings if group in turning.groups)
        return self.job(min(name for each in turning.groups for name in recipes_of(each))).recipe.units

    def job(self, recipe: str) -> Job:
        """The job of a recipe, by its name."""
        return next(job for job in self.bay.jobs if job.recipe.name == recipe)

    def of(self, number: str) -> Iterator[PlacedFile]:
        """Files that show one part alone."""
        return (file for file in self.files if file.of == number)

    def fails(self, part: FlatPart | TurnedGroup) -> bool:
        """Whether a part belongs to a recipe with a failing check."""
        return any(self.job(recipe).failing for recipe in recipes_of(part))


def recipes_of(part: FlatPart | TurnedGroup) -> tuple[str, ...]:
    """Names of the recipes that a part is made for."""
    if isinstance(part, FlatPart):
        return (part.recipe,)
    return tuple(dict.fromkeys(each.recipe for each in part.belongs))
