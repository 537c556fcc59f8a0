"""A "stand-off" recipe to its layout."""

from __future__ import annotations

from dataclasses import dataclass, replace

from clampwright.layout.cannot import CannotLayOut
from clampwright.layout.hardware_list import joined_hardware
from clampwright.layout.how_sure import known_to
from clampwright.layout.pairing.bolted import bolted, head_side
from clampwright.layout.pairing.closed import Closed
from clampwright.layout.pairing.course import Course, course_by_panel, course_by_tube
from clampwright.layout.pairing.loops import loops_of
from clampwright.layout.pairing.open_line import reaching_clamp
from clampwright.layout.pairing.pair_clamps import pair_clamp, wrap_for, wrap_words
from clampwright.layout.pairing.places import Found, places_on_panel, places_on_tube
from clampwright.layout.pairing.ranking import bolt_place
from clampwright.layout.pairing.site import Site, welds_of
from clampwright.layout.pairing.thickness import thickness
from clampwright.layout.stand_off_placed import Bundle, StandOffLayout, Wrap
from clampwright.recipe.model import Recipe
from clampwright.recipe.stand_off_model import StandOffJob
from clampwright.structure.surroundings import Panel
from clampwright.structure.tubes import Tube
from clampwright.trade.holes import hole_window
from clampwright.trade.tables import rule

Notes = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class _Asked:
    """What is known before any place is looked for."""

    site: Site
    panel: Panel | None
    course: Course
    bundle: Bundle | None
    wrap: Wrap | None
    notes: Notes


def lay_out_stand_off(recipe: Recipe) -> StandOffLayout:
    """Where the clamps and the bolt go, and how long the spacer is.

    Every place for the bolt is found and judged; the best, or the one asked for, is laid out.

    Raises
    ------
    CannotLayOut
        Where geometry forbids any answer; everything else is for the checks to tell.

    Examples
    --------
    A hose of 19.05 mm across a tube of 19.05 mm, their axes 26.06 mm apart: twice the seat of 13.03 mm.

    >>> from clampwright.recipe.read import read_text
    >>> lines = [
    ...     'kind = "stand-off"',
    ...     'name = "oil-hose"',
    ...     "clamps = { tube = { seat = 13.03 }, line = { seat = 13.03 } }",
    ...     "structure.tubes.low = { start = [0, 0, 0], end = [500, 0, 0], od = 19.05 }",
    ...     'line = { name = "hose", od = 19.05, point = [250, -99, 26.06], to = [250, 99, 26.06] }',
    ... ]
    >>> layout = lay_out_stand_off(read_text("\\n".join(lines)))
    >>> layout.place.says.split("; ")[0], len(layout.places)
    ('no spacer: the two clamps lie foot to foot', 4)
    """
    job = recipe.asked(StandOffJob)
    asked = _asked(recipe)
    found, solved = _places(job, asked), job.spacer_mm is not None
    chosen = _chosen(job, found)
    places = tuple(bolt_place(i, each, asked.site, solved) for i, each in enumerate(found.judged, start=1))
    closed = found.judged[chosen].place
    loops = loops_of(closed, asked.site.tube, asked.site.on_tube, asked.site.on_line, _given(job))
    on_bolt = bolted(recipe, closed, loops, asked.panel)
    head = head_side(closed.axis)
    line = closed.line
    if solved and job.carried.to is None:
        line, more = reaching_clamp(line, closed.station_line_mm, job.carried)
        loops = (*loops[:-1], replace(loops[-1], station_mm=loops[-1].station_mm + more))
        places = tuple(replace(each, station_line_mm=each.station_line_mm + more) for each in places)
    layout = StandOffLayout(
        recipe=recipe,
        line=line,
        line_solved=solved,
        bundle=asked.bundle,
        wrap=asked.wrap,
        panel=asked.panel,
        panel_hole_mm=None if asked.panel is None else _hole(recipe),
        crossing_rad=found.crossing_rad,
        distance_mm=places[chosen].distance_mm,
        places=places,
        place=places[chosen],
        loops=loops,
        joints=(on_bolt.joint,),
        cuts=on_bolt.cuts,
        bushings=on_bolt.bushings,
        hardware=joined_hardware(loops, (on_bolt.joint,)),
        assumed=(*asked.notes, *found.notes, *_line_notes(closed, asked), ("bolt head", head.why)),
    )
    return replace(layout, known_to=known_to(layout))


def _asked(recipe: Recipe) -> _Asked:
    job = recipe.asked(StandOffJob)
    carried = job.carried
    tube, panel = _support(recipe, job)
    od, bundle = thickness(carried)
    on_line = pair_clamp(job.on_line, od, recipe.zone, carried.name, carried.line)
    on_tube = None if tube is None else pair_clamp(job.on_tube, tube.od_mm, recipe.zone, tube.name)
    if tube is not None:
        course = course_by_tube(carried, tube, od)
    else:
        assert panel is not None
        course = course_by_panel(carried, panel, od)
    structure = recipe.structure
    site = Site(
        structure,
        tube,
        on_tube,
        on_line,
        od,
        course.ends_known,
        job.fastener.bolt,
        recipe.units,
        welds_of(structure, tube),
    )
    wrap = wrap_for(on_line, od)
    notes = _clamp_notes(job, site)
    if wrap is not None:
        notes = (*notes, ("wrap", wrap_words(wrap, recipe.zone.fluids, recipe.units)))
    return _Asked(site, panel, course, bundle, wrap, notes)


def _clamp_notes(job: StandOffJob, site: Site) -> Notes:
    notes = []
    if site.on_tube is not None and job.on_tube.code is None:
        notes.append(("clamps.tube.code", f"{site.on_tube.code} (by temperature and fluids)"))
    if job.on_line.code is None:
        notes.append(("clamps.line.code", f"{site.on_line.code} (by temperature and fluids)"))
    return tuple(notes)


def _line_notes(place: Closed, asked: _Asked) -> Notes:
    """What is taken of a line given by a point and a direction only, and where its stations count from."""
    if asked.course.ends_known:
        return ()
    line, site = place.line, asked.site
    words = f"taken as straight over {site.shown(line.length_mm)}"
    before = line.station(asked.course.line.start)
    if before > rule("gap-nothing").value and asked.course.passes:
        words += f"; its stations count from {site.shown(before)} before the point given"
    return (("line", words),)


def _support(recipe: Recipe, job: StandOffJob) -> tuple[Tube | None, Panel | None]:
    try:
        if job.tube is not None:
            return recipe.structure.tube(job.tube), None
        return None, recipe.structure.panel(job.panel or "")
    except LookupError as missing:
        raise CannotLayOut(str(missing), "correct the name in tube or panel") from missing


def _places(job: StandOffJob, asked: _Asked) -> Found:
    tube, panel = asked.site.tube, asked.panel
    if tube is not None:
        return places_on_tube(job, asked.course, tube, asked.site)
    assert panel is not None
    return places_on_panel(job, asked.course, panel, asked.site)


def _chosen(job: StandOffJob, found: Found) -> int:
    if job.place is None:
        return 0
    if job.place > len(found.judged):
        raise CannotLayOut(
            f"place {job.place} of the bolt is asked for, and there are {len(found.judged)}",
            f"give a place from 1 to {len(found.judged)}, or leave it out",
        )
    return job.place - 1


def _given(job: StandOffJob) -> bool:
    return job.station_mm is not None


def _hole(recipe: Recipe) -> float:
    fastener = recipe.asked(StandOffJob).fastener
    return fastener.hole_mm if fastener.hole_mm is not None else hole_window(fastener.bolt).drill.diameter_mm
