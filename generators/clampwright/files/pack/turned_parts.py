"""Bushings of all recipes of a pack, by what their recipes tell the shop: a turning sheet for each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from clampwright.files.pack.bay import Bay, Job
from clampwright.layout.shop.told import TurnedGroup
from clampwright.layout.shop.turned import turned
from clampwright.recipe.model import Shop

TURNING_SHEET = "turning-sheet"


@dataclass(frozen=True, slots=True)
class Turning:
    """Groups that stand on one sheet, since their recipes ask for one finish and one general tolerance."""

    name: str
    """Drawing and file name."""
    shop: Shop
    groups: tuple[TurnedGroup, ...]


def turnings(bay: Bay) -> tuple[Turning, ...]:
    """The turning sheets of a bay: one, and one more for each other way in which a shop is told.

    Numbers of groups run on from sheet to sheet, so that a number means one thing in the whole pack.
    """
    return tuple(_numbered(bay))


def _numbered(bay: Bay) -> Iterator[Turning]:
    count = 0
    for jobs in _by_shop(bay):
        groups = turned([job.layout for job in jobs])
        if not groups:
            continue
        numbered = tuple(replace(group, number=f"T{count + n}") for n, group in enumerate(groups, 1))
        name = TURNING_SHEET if count == 0 else f"{TURNING_SHEET}-from-{numbered[0].number}"
        count += len(groups)
        yield Turning(name, jobs[0].recipe.shop, numbered)


def _by_shop(bay: Bay) -> list[list[Job]]:
    """Jobs that give a part, by all that a turning sheet says once for all its lines."""
    by: dict[tuple[object, ...], list[Job]] = {}
    for job in bay.jobs:
        shop = job.recipe.shop
        told = (shop.tolerances, shop.finish, shop.projection, shop.drawing, shop.edge_break_mm)
        if not job.no_part_because:
            by.setdefault((job.recipe.units, *told), []).append(job)
    return list(by.values())
