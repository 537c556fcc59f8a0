"""What needs the CAD kernel: the bodies of every recipe, and what only they could show."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from clampwright.files.kind_files import KIND_FILES
from clampwright.files.pack.bay import Bay, Job
from clampwright.files.pack.placed_file import PlacedFile, placed
from clampwright.layout.placed import PlateLayout
from clampwright.solids.no_part import NoPart

if TYPE_CHECKING:
    from clampwright.solids.body import Body

Step = Callable[[str], None]


@dataclass(frozen=True, slots=True)
class Modelled:
    """The assembly of one recipe, and the list of clearances measured on it."""

    bodies: tuple[Body, ...]
    measured: tuple[PlacedFile, ...]


@dataclass(frozen=True, slots=True)
class Solids:
    """The bodies of each recipe that gives any, by its name."""

    of: dict[str, Modelled]

    def measured(self) -> Iterator[PlacedFile]:
        """Clearances of the solids, a list a recipe."""
        return (file for each in self.of.values() for file in each.measured)


def solids_of(bay: Bay, step: Step) -> tuple[Bay, Solids]:
    """The bay with the findings of its solids, and the solids; a recipe that gives none says why."""
    step("loading the CAD kernel")
    jobs: list[Job] = []
    of: dict[str, Modelled] = {}
    for job in bay.jobs:
        step(f"solids of {job.recipe.name}")
        job, modelled = _modelled(job)
        jobs.append(job)
        if modelled is not None:
            of[job.recipe.name] = modelled
    return replace(bay, jobs=tuple(jobs)), Solids(of)


def _modelled(job: Job) -> tuple[Job, Modelled | None]:
    from clampwright.files.exact import exact_findings

    reasons = KIND_FILES[job.recipe.kind].no_part(job.layout)
    if not reasons:
        try:
            bodies = _assembly(job)
            exact = exact_findings(job.layout, bodies)
            found = replace(job, findings=(*job.findings, *exact.findings))
            return found, Modelled(bodies, tuple(placed("findings", exact.files)))
        except NoPart as refused:
            return job.without_part(str(refused), own_fault=refused.own_fault), None
    return job.without_part(*reasons), None


def _assembly(job: Job) -> tuple[Body, ...]:
    if isinstance(job.layout, PlateLayout):
        from clampwright.solids.assembly import assembly

        return assembly(job.layout)
    from clampwright.solids.joined_assembly import joined_assembly

    return tuple(joined_assembly(job.layout))
