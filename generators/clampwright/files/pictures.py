"""Pictures to look at: the part, the assembly with hidden lines removed, and the template, as SVG."""

from __future__ import annotations

from collections.abc import Iterator

from clampwright.checks.finding import Finding
from clampwright.files.svg import svg
from clampwright.files.written import Written
from clampwright.layout.placed import PlateLayout
from clampwright.sheets.picture import picture, view_strokes
from clampwright.sheets.template import template
from clampwright.solids.assembly import assembly, part
from clampwright.solids.place import place_of
from clampwright.solids.views import draw, standard_looks


def pictures(layout: PlateLayout, findings: tuple[Finding, ...]) -> Iterator[Written]:
    """The part from above, the assembly at a slant, and the first page of the template."""
    name, looks = layout.recipe.name, standard_looks(layout.frame)
    plate = part(layout)
    in_world = type(plate)(plate.name, plate.product, plate.role, plate.shape, place_of(layout.frame))
    for word, bodies, look in (
        ("part", (in_world,), "oblique"),
        ("assembly", assembly(layout), "oblique"),
    ):
        title = f"{name}: {word}"
        page = picture(title, view_strokes(draw(bodies, looks[look])))
        yield Written(f"{name}-{word}.svg", svg(page).encode(), f"Picture of the {word}")
    first = template(layout, findings, layout.recipe.template.papers[0]).pages[0]
    yield Written(f"{name}-drill-template.svg", svg(first).encode(), "Picture of the template, not to scale")
