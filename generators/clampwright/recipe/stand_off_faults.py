"""Faults of a "stand-off" recipe that no key has by itself."""

from __future__ import annotations

from clampwright.quantities import show_length
from clampwright.recipe.bushing_fields import bushing_faults
from clampwright.recipe.clamp_faults import clear_of_tube, tube_known
from clampwright.recipe.fastener_faults import nut_fits_bolt
from clampwright.recipe.faults import did_you_mean, listed
from clampwright.recipe.fields import Values
from clampwright.recipe.line_faults import line_course, line_thickness
from clampwright.recipe.line_place_faults import crosses, line_place
from clampwright.recipe.written import Entry, quoted
from clampwright.structure.surroundings import Panel
from clampwright.structure.tubes import Structure, Tube


def cross_check(entry: Entry, values: Values, structure: Structure | None) -> None:
    """Note what does not fit together. Values that could not be read are not judged again."""
    zone, fastener, line, spacer = (values.get(k) or {} for k in ("zone", "fastener", "line", "spacer"))
    nut_fits_bolt(entry.inside("fastener"), fastener, zone)
    bushing_faults(entry.inside("bushings"), values.get("bushings") or {}, fastener)
    od = line_thickness(entry.inside("line"), line)
    support = _support(entry.inside("support"), values.get("support") or {}, structure)
    if spacer:
        _course(entry, values, support, od)
    _hole(entry.inside("fastener"), fastener, support)
    _clamps(entry.inside("clamps"), values.get("clamps") or {}, od, support)
    if structure is not None and line.get("name") in structure.names:
        hint = "it is that of a tube; give the line another"
        entry.inside("line").inside("name").wrong("a name of its own for the line", hint)


def _course(entry: Entry, values: Values, support: Tube | Panel | None, od: float | None) -> None:
    line, held = values.get("line") or {}, values.get("support") or {}
    at_hand = values["spacer"].get("length", 0.0) is not None
    inside = entry.inside("line")
    if not line_course(inside, line, held.get("panel") is not None, at_hand) or support is None:
        return
    if line_place(inside, line, support, None if at_hand else od):
        _station(entry.inside("support"), held, line, support)


def _support(entry: Entry, values: Values, structure: Structure | None) -> Tube | Panel | None:
    """What holds the line; None where that is not known, which is noted."""
    if structure is None or not {"tube", "panel"} <= values.keys():
        return None
    tube, panel = values["tube"], values["panel"]
    if tube is not None and panel is not None:
        hint = "a line is held by one of them: delete the other"
        entry.inside("panel").wrong("a tube or a panel", hint, said="both", at_key=True)
        return None
    if panel is not None:
        return _panel(entry, values, structure)
    if tube is None:
        if len(structure.tubes) == 1:
            return structure.tubes[0]
        hint = f'such as tube = "{structure.names[0]}" under [support]'
        entry.inside("tube").wrong(f"a tube of the structure: {listed(structure.names)}", hint)
        return None
    return _tube(entry, values, structure)


def _tube(entry: Entry, values: Values, structure: Structure) -> Tube | None:
    if not tube_known(entry.inside("tube"), values["tube"], structure):
        return None
    tube = structure.tube(values["tube"])
    station = values.get("station")
    if station is not None and station > tube.length_mm:
        expected = f"a station on {tube.name}, which is {show_length(tube.length_mm, entry.units)} long"
        entry.inside("station").wrong(expected, "a station counts from the tube's start along its axis")
    return tube


def _station(entry: Entry, values: Values, line: Values, support: Tube | Panel) -> None:
    """A station beside a line that crosses the tube says the same thing twice."""
    if values.get("station") is None or not isinstance(support, Tube) or not crosses(line, support):
        return
    hint = "where they cross says where the clamp goes: delete station"
    entry.inside("station").wrong("no station for a line that crosses the tube", hint, at_key=True)


def _panel(entry: Entry, values: Values, structure: Structure) -> Panel | None:
    if values.get("station") is not None:
        hint = "stations count along a tube: delete station"
        entry.inside("station").wrong("no station on a panel", hint, at_key=True)
    names = [panel.name for panel in structure.panels]
    if values["panel"] in names:
        return structure.panel(values["panel"])
    name = values["panel"]
    if not names:
        hint = "describe it under [structure.panels.NAME] with point, normal and thickness"
        entry.inside("panel").wrong("a panel of the structure", hint, said=f"{quoted(name)}, and no panels")
        return None
    hint = did_you_mean(name, names)
    if name in structure.names:
        hint = f"it is a tube: write tube = {quoted(name)}"
    entry.inside("panel").wrong(f"a panel of the structure: {listed(names)}", hint)
    return None


def _clamps(entry: Entry, values: Values, od: float | None, support: Tube | Panel | None) -> None:
    on_tube, on_line = values.get("tube") or {}, values.get("line") or {}
    if od is not None:
        clear_of_tube(entry.inside("line"), on_line, od, "line")
    if isinstance(support, Tube):
        clear_of_tube(entry.inside("tube"), on_tube, support.od_mm)
    elif support is not None and any(value is not None for value in on_tube.values()):
        hint = "on a panel there is one clamp, [clamps.line]: delete this one"
        entry.inside("tube").wrong("no clamp on a tube beside a panel", hint, at_key=True)


def _hole(entry: Entry, fastener: Values, support: Tube | Panel | None) -> None:
    if isinstance(support, Tube) and fastener.get("hole") is not None:
        hint = "hole is that in a panel: delete it"
        entry.inside("hole").wrong("no hole: a tube is never drilled", hint, at_key=True)
