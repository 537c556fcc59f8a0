"""What bushings for a bolt are made from: material by temperature, tube with a fitting bore, or rod."""

from __future__ import annotations

from dataclasses import dataclass

from clampwright.layout.bushing_cuts import enough
from clampwright.layout.cannot import CannotLayOut
from clampwright.quantities import show_fraction, show_length
from clampwright.quantities.kinds import INCH
from clampwright.recipe.bushing_model import BushingStock
from clampwright.trade.bolts import bolt as bolt_size
from clampwright.trade.holes import Drill, drills
from clampwright.trade.tables import Rule, rule
from clampwright.trade.tube_stock import (
    BoreWindow,
    BushingMaterial,
    StockTube,
    bore_window,
    bushing_material,
    bushing_materials,
    rod_for,
    tubes_for,
)

_INCH = float(INCH)


@dataclass(frozen=True, slots=True)
class StockChoice:
    """What the bushings of one bolt size are made from, and the rings that come of it; lengths in mm."""

    bolt: str
    material: BushingMaterial
    make: str
    """"tube" or "rod"."""
    says: str
    """What to buy."""
    od_mm: float
    id_mm: float
    window: BoreWindow
    stock_od_mm: float
    stock_wall_mm: float | None
    drill: str
    """What a rod is bored with; "" for tube."""
    sources: tuple[str, ...]


def choose_stock(bolt: str, stock: BushingStock, temperature_c: float, units: str) -> StockChoice:
    """The stock for bushings on a bolt: what the recipe says, else by temperature and the usual tube.

    The usual tube is that of the rules `bushing-od-*` and `bushing-id-*` where the table of tubes has it;
    where it has not, the bushing is turned from rod to those sizes. An outside diameter that the recipe
    gives is cut from a tube of that size with a fitting bore, or turned where there is none.

    Parameters
    ----------
    bolt
        Bolt size, "AN3" or "M5".
    stock
        As the recipe has it. A material that the temperature rules out is taken all the same: a check
        says so.
    temperature_c
        Of the zone: aluminium up to `packing-aluminium-most`, stainless steel above. Plastic is never
        chosen here.
    units
        "mm" or "in", of the figures in a refusal.

    Raises
    ------
    CannotLayOut
        No tube or rod gives what the recipe asks for; `change` says what would.

    Examples
    --------
    >>> choose_stock("AN3", BushingStock(None, None, None, 1.5, 305.0), 90.0, "in").says
    'tube 7/16 in x 0.120 in wall, 6061-T6'
    >>> choose_stock("M5", BushingStock(None, None, None, 1.5, 305.0), 150.0, "mm").says
    'rod 10 mm, 304 stainless'
    """
    material = _material(stock.material, temperature_c)
    tube = None if stock.make == "rod" else _tube(bolt, stock, units)
    return _rod(bolt, stock, material, units) if tube is None else _cut(bolt, material, tube)


def usual_od(bolt: str) -> Rule:
    """The outside diameter that bushings for a bolt usually have."""
    return rule(f"bushing-od-{bolt.lower()}")


def _material(asked: str | None, temperature_c: float) -> BushingMaterial:
    if asked is None:
        cool = temperature_c <= rule("packing-aluminium-most").value
        return bushing_material("6061-T6" if cool else "304 stainless")
    try:
        return bushing_material(asked)
    except LookupError as error:
        names = ", ".join(each.name for each in bushing_materials())
        raise CannotLayOut(str(error), f"set bushings.material to one of {names}") from error


def _tube(bolt: str, stock: BushingStock, units: str) -> StockTube | None:
    fitting = tubes_for(bolt)
    wanted = usual_od(bolt).value if stock.od_mm is None else stock.od_mm
    same = [t for t in fitting if abs(t.od_mm - wanted) <= rule("hole-size-tolerance").value]
    if same:
        bore = rule(f"bushing-id-{bolt.lower()}").value
        return min(same, key=lambda tube: abs(tube.id_mm - bore))
    if stock.make is None:
        return None
    seats = [t for t in fitting if t.od_mm >= bolt_size(bolt).head_across_flats_mm]
    if stock.od_mm is None and seats:
        return min(seats, key=lambda tube: abs(tube.od_mm - wanted))
    raise _no_tube(bolt, wanted, fitting, units)


def _no_tube(bolt: str, wanted: float, fitting: tuple[StockTube, ...], units: str) -> CannotLayOut:
    why = f"no stock tube of {show_length(wanted, units)} outside has a bore for {bolt}"
    ods = " or ".join(sorted({show_length(t.od_mm, units) for t in fitting}))
    tubes = f"set bushings.od = {ods}, or " if ods else ""
    return CannotLayOut(why, f'{tubes}set bushings.make = "rod"')


def _cut(bolt: str, material: BushingMaterial, tube: StockTube) -> StockChoice:
    says = f"tube {_size(tube.od_mm)} x {tube.wall_mm / _INCH:.3f} in wall, {material.name}"
    window = bore_window(bolt)
    sources = _once(tube.source, window.source, material.source, material.max_temperature_source)
    return StockChoice(
        bolt, material, "tube", says, tube.od_mm, tube.id_mm, window, tube.od_mm, tube.wall_mm, "", sources
    )


def _rod(bolt: str, stock: BushingStock, material: BushingMaterial, units: str) -> StockChoice:
    window, drill = bore_window(bolt), _drill(bolt)
    od = usual_od(bolt).value if stock.od_mm is None else stock.od_mm
    least = drill.diameter_mm + 4 * rule("bushing-chamfer").value
    if od < least:
        raise CannotLayOut(
            f"a bushing of {show_length(od, units)} outside, bored for {bolt}, has no face between chamfers",
            f"set bushings.od = {enough(least, units)} or more",
        )
    try:
        rod = rod_for(od, bolt_size(bolt).metric)
    except LookupError as error:
        raise CannotLayOut(str(error), "set a smaller bushings.od") from error
    says = f"rod {_size(rod.diameter_mm)}, {material.name}"
    sources = _once(rod.source, drill.source, window.source, material.source, material.max_temperature_source)
    return StockChoice(
        *(bolt, material, "rod", says, od, drill.diameter_mm, window),
        *(rod.diameter_mm, None, drill.size, sources),
    )


def _drill(bolt: str) -> Drill:
    """The drill nearest to the usual bore that lies in the window."""
    window, usual = bore_window(bolt), rule(f"bushing-id-{bolt.lower()}").value
    fitting = [d for d in drills(bolt_size(bolt).metric) if window.holds(d.diameter_mm)]
    return min(fitting, key=lambda each: abs(each.diameter_mm - usual))


def _size(diameter_mm: float) -> str:
    """A stock size as it is sold: a fraction of an inch where it is one, else millimetres."""
    sixty_fourths = diameter_mm / _INCH * 64
    if abs(sixty_fourths - round(sixty_fourths)) > 1e-6:
        return f"{diameter_mm:g} mm"
    return f"{show_fraction(diameter_mm)} in"


def _once(*sources: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(sources))
