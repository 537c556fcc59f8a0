"""Bars and joints: surveys of distances alone between points of known places."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from structure.survey.known_figures import Vec3, points_of, read, taped

from clampwright.structure.survey.model import Datum, Survey

PHI = 500.0 * (1 + 5**0.5) / 2


def framework(places: Mapping[str, Vec3], bars: Iterable[str], datum: Datum | None = None) -> Survey:
    """Every bar measured exactly, ± 1 mm; the frame on the first three points unless said."""
    names = list(places)
    frame = datum or Datum(names[0], "x", names[1], plane_axis="y", in_plane=names[2])
    survey = Survey("bars", "", "mm", points_of(names, {}), (), taped(bars, 1.0), frame)
    return read(survey, places)


def all_bars(names: Iterable[str]) -> list[str]:
    """Every two joints."""
    listed = list(names)
    return [f"{a}-{b}" for i, a in enumerate(listed) for b in listed[i + 1 :]]


OCTAHEDRON: dict[str, Vec3] = {
    "A": (400.0, 0.0, 0.0),
    "B": (0.0, 380.0, 0.0),
    "C": (0.0, 0.0, 420.0),
    "D": (-410.0, 20.0, 0.0),
    "E": (0.0, -390.0, 30.0),
    "F": (10.0, 0.0, -400.0),
}
OCTAHEDRON_BARS = [bar for bar in all_bars("ABCDEF") if bar not in ("A-D", "B-E", "C-F")]

CUBE: dict[str, Vec3] = {
    f"{x}{y}{z}": (500.0 * x, 480.0 * y, 520.0 * z) for x in (0, 1) for y in (0, 1) for z in (0, 1)
}


def _differ(bar: str) -> int:
    one, other = bar.split("-")
    return sum(a != b for a, b in zip(one, other, strict=True))


CUBE_EDGES = [bar for bar in all_bars(CUBE) if _differ(bar) == 1]
CUBE_FACES = [bar for bar in all_bars(CUBE) if _differ(bar) == 2 and bar.split("-")[0].count("1") % 2 == 0]

ICOSAHEDRON: dict[str, Vec3] = dict(
    zip(
        "ABCDEFGHIJKL",
        [(0.0, s * 500.0, t * PHI) for s in (1, -1) for t in (1, -1)]
        + [(s * 500.0, t * PHI, 0.0) for s in (1, -1) for t in (1, -1)]
        + [(t * PHI, 0.0, s * 500.0) for s in (1, -1) for t in (1, -1)],
        strict=True,
    )
)

DOUBLE_BANANA: dict[str, Vec3] = {
    "P": (0.0, 0.0, 500.0),
    "Q": (20.0, 10.0, -480.0),
    "A": (300.0, 0.0, 20.0),
    "B": (450.0, 240.0, -30.0),
    "C": (480.0, -220.0, 10.0),
    "D": (-210.0, 235.0, -10.0),
    "E": (-200.0, 490.0, 40.0),
    "F": (-490.0, -60.0, 0.0),
}
DOUBLE_BANANA_BARS = [
    bar
    for bar in all_bars(DOUBLE_BANANA)
    if bar != "P-Q" and not (set(bar) & set("ABC") and set(bar) & set("DEF"))
]
