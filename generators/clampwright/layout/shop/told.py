"""What a shop is told of a part: sizes, limits with their reasons, material, quantity. In mm and radians."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from clampwright.layout.outline import Outline
from clampwright.quantities import Vec2
from clampwright.recipe.model import Shop
from clampwright.trade.holes import drill
from clampwright.trade.limits import Limits
from clampwright.trade.materials import Material

__all__ = ["Bend", "FlatPart", "ForWhich", "Limits", "ToldHole", "TurnedGroup"]


@dataclass(frozen=True, slots=True)
class ToldHole:
    """A round hole through a flat part, in the flat pattern."""

    label: str
    at: Vec2
    diameter_mm: float
    fastener: str
    """"AN3", "#8", "M5"; "" for a lightening hole."""
    purpose: str
    """"clamp", "component" or "lightening"; other kinds add their own."""
    drill: str
    pilot: str
    size: Limits | None = None
    """Of the diameter; None: the general tolerance holds."""
    place: Limits | None = None
    """Of its place from the datum edges; None: the general tolerance holds."""
    transferred: bool = False
    """Drilled as a pilot only, and to size in place."""
    fit: str = ""
    """Class of ISO 286 whose whole zone lies within `size`: "H12"; "" where none does."""

    @property
    def piloted(self) -> bool:
        """Whether the shop leaves it at its pilot; a hole smaller than every pilot is made to size at once.

        >>> hole = ToldHole("B1", (9.0, 9.0), 4.8514, "AN3", "clamp", "#11", "#40", transferred=True)
        >>> hole.piloted, round(hole.made_mm, 4)
        (True, 2.4892)
        """
        return self.transferred and bool(self.pilot)

    @property
    def made_mm(self) -> float:
        """Diameter that the shop makes: the pilot drill's where it is piloted, else the final one."""
        return drill(self.pilot).diameter_mm if self.piloted else self.diameter_mm


@dataclass(frozen=True, slots=True)
class Bend:
    """A bend line of the flat pattern. The part is bent about it by `angle_rad` out of the flat."""

    label: str
    start: Vec2
    end: Vec2
    angle_rad: float
    direction: Literal["up", "down"]
    """Towards the eye that the drawing's flat pattern is seen by, or away from it."""
    inside_radius_mm: float
    allowance_mm: float
    """Length of flat that the bend takes up, mould line to mould line of the arc."""


@dataclass(frozen=True, slots=True)
class FlatPart:
    """A part cut from sheet, and bent where it has bend lines."""

    number: str
    """Drawing and file name: "coil-plate-plate"; letters, digits, - and _ only."""
    title: str
    recipe: str
    about: str
    digest: str
    """Of the recipe: the drawing's revision."""
    units: str
    """"mm" or "in": what the drawing says first."""
    material: Material
    thickness_mm: float
    outline: Outline
    """Of the flat pattern; datum edges x = 0 on the left, y = 0 at the bottom."""
    holes: tuple[ToldHole, ...]
    quantity: int
    mass_kg: float
    shop: Shop
    face: str = ""
    """Which face is towards the eye: "component side up"."""
    bends: tuple[Bend, ...] = ()
    notes: tuple[str, ...] = ()
    """Sentences that only this part needs."""
    specification: str = ""
    """Of the sheet: "AMS-QQ-A-250/4"; "" where the tables have none."""
    specification_source: str = ""
    """A key of sources.toml; its status may be `memory`."""
    sheet_mm: tuple[float, float] | None = None
    """Stock sheet that the recipe gives the part itself; None: it does not say."""


@dataclass(frozen=True, slots=True)
class ForWhich:
    """Pieces of a turned group that belong to one bushing of one recipe."""

    recipe: str
    digest: str
    mark: str
    """"S1"; "S2L" where it is left long."""
    where: tuple[str, ...]
    """Labels of clamps."""
    quantity: int
    finished_mm: float = 0.0
    """What it is trimmed to where the gap is as laid out; the made length where it is not trimmed."""


@dataclass(frozen=True, slots=True)
class TurnedGroup:
    """One line of a turning sheet: all pieces that are made alike."""

    number: str
    """"T1", "T2" ...: shortest first within a stock."""
    length_mm: float
    """As the shop makes it; longer than its gap asks where it is trimmed at the aircraft."""
    length: Limits
    od_mm: float
    od: Limits | None
    """None: as the stock is supplied."""
    bore_mm: float
    bore: Limits
    chamfer_mm: float
    square_mm: float
    """End faces square to the bore within this, over the outside diameter."""
    square_why: str
    make: str
    """"tube" or "rod"."""
    material: str
    stock: str
    quantity: int
    mass_each_kg: float
    belongs: tuple[ForWhich, ...]
    trim: str = ""
    """Said where the piece is left long: what is trimmed, and when."""
    sources: tuple[str, ...] = ()
    chamfer: Limits | None = None
    bolt: str = ""
    """What its bore is for: "AN3"."""
    specification: str = ""
    """Of the tube or bar; "" where the tables have none."""
    specification_source: str = ""
