"""A recipe after reading: typed, in millimetres, radians, kilograms and degrees Celsius."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from clampwright.quantities import Vec2, Vec3
from clampwright.structure.tubes import Structure

Job = TypeVar("Job")


@dataclass(frozen=True, slots=True)
class Zone:
    """Where the part lives. `temperature_c` and `fluids` decide nut and cushion."""

    temperature_c: float
    ahead_of_firewall: bool
    fluids: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Fastener:
    """The clamp bolts. `nut` is a series ("MS21044") or None: chosen by temperature."""

    bolt: str
    nut: str | None
    nut_height_mm: float | None
    hole_mm: float | None
    """Hole in the plate for a clamp bolt; None: the drill of the bolt's window."""


@dataclass(frozen=True, slots=True)
class Measured:
    """Clamp dimensions measured with calipers; None where the family's default is to serve."""

    reach_mm: float | None = None
    seat_mm: float | None = None
    feet_mm: float | None = None


@dataclass(frozen=True, slots=True)
class ClampAt:
    """One clamp asked for. `station_mm` None: the tool chooses it."""

    tube: str
    station_mm: float | None
    side: str
    measured: Measured
    dash: int | None
    line: int


@dataclass(frozen=True, slots=True)
class Clamps:
    """The clamps. Where `at` is empty the tool places `each` clamps on each tube of `on`."""

    code: str | None
    on: tuple[str, ...]
    each: int
    side: str
    measured: Measured
    dash: int | None
    at: tuple[ClampAt, ...]


@dataclass(frozen=True, slots=True)
class Lightening:
    """A lightening hole asked for. `at` None: where there is most room."""

    at: Vec2 | None
    diameter_mm: float | None


@dataclass(frozen=True, slots=True)
class Plate:
    """The plate asked for."""

    material: str
    thickness_mm: float
    outline: str
    """"rounded rectangle", "rounded hull" or "polygon"."""
    points: tuple[Vec2, ...]
    """Corners of a polygon, in the recipe's plate frame (origin amid the clamp holes)."""
    margin_mm: float | None
    """Outline beyond hole centres and footprints; None: from the edge distance rule."""
    corner_radius_mm: float | None
    toward: Vec3 | None
    """World direction that the plate's far face looks along; None: upwards, printed as assumed."""
    stand_off_mm: float
    round_to_mm: float
    """Increment for outline sizes, stations and hole coordinates; 0: exact."""
    lightening: tuple[Lightening, ...]
    sheet_mm: tuple[float, float] | None
    """Stock sheet it is to be cut from."""


@dataclass(frozen=True, slots=True)
class Component:
    """A thing the plate carries, in its own frame (x, y in its base, origin where the recipe says)."""

    name: str
    mass_kg: float
    at: Vec2 | None
    """Origin on the plate, from the middle of the clamp holes; None: the tool places it."""
    turn_rad: float
    holes: tuple[Vec2, ...]
    fastener: str
    """"AN3", "M5" or a screw size such as "#8"."""
    hole_mm: float | None
    lug_mm: float | None
    """Thickness of its mounting lug."""
    body: tuple[float, float, float] | None
    cg_height_mm: float | None
    line: int


@dataclass(frozen=True, slots=True)
class Measuring:
    """How sure the tubes are: ± of a measured coordinate (95 %), and whether the recipe said so."""

    error_mm: float
    given: bool


@dataclass(frozen=True, slots=True)
class Template:
    """How the template is printed. `prints`: measured lengths (across, along) of the 100 mm bars,
    one pair a print, oldest first."""

    papers: tuple[str, ...]
    prints: tuple[Vec2, ...]


@dataclass(frozen=True, slots=True)
class Shop:
    """What a shop is told beside the part itself."""

    drawing: str
    """Sheets that drawings stand on: "iso" (ISO 5457) or "ansi" (ASME Y14.1)."""
    projection: str
    """"third" or "first" angle."""
    tolerances: str
    """General tolerance: "f", "m", "c" or "v" of ISO 2768-1, or "inch" for inch decimals."""
    finish: str
    """"" where the recipe asks for none."""
    edge_break_mm: float
    quantity: int
    """Sets to be made."""
    spares_percent: int
    """Of bought hardware, on top of what is fitted."""
    chord_error_mm: float
    """Of meshes for a fit check in plastic."""
    stock_sheet_mm: tuple[float, float] | None
    """Width and length (along the rolling direction) of the sheet that flat parts are nested on."""
    kerf_mm: float
    edge_margin_mm: float
    """Of a stock sheet that no part may come into."""
    grain: str
    """Which way the part's long side lies to the rolling direction: "any", "along" or "across"."""


@dataclass(frozen=True, slots=True)
class PlateJob:
    """What an "accessory plate" recipe asks for beside the common part."""

    fastener: Fastener
    clamps: Clamps
    plate: Plate
    carries: tuple[Component, ...]


@dataclass(frozen=True, slots=True)
class Recipe:
    """A recipe of any kind: the common part and the kind's own `job`."""

    kind: str
    name: str
    about: str
    units: str
    """"mm" or "in": of bare numbers, and of what people are shown."""
    path: Path | None
    structure: Structure
    zone: Zone
    measuring: Measuring
    template: Template
    shop: Shop
    job: object
    """What its kind asks for: `asked` hands it back typed."""
    assumed: tuple[tuple[str, str], ...]
    """(key, value and why) of everything left out and filled in by the reader."""
    digest: str
    """SHA-256, 16 hex digits, of what the recipe asks for (not of comments, nor of `template`)."""

    def asked(self, job: type[Job]) -> Job:
        """What the kind asks for, as the type that its own stages know it by.

        Raises
        ------
        TypeError
            The recipe is of another kind.
        """
        if not isinstance(self.job, job):
            raise TypeError(f"a recipe of kind {self.kind!r} asks for no {job.__name__}")
        return self.job
