"""A page to SVG, written by hand: millimetres, escaped texts, the same bytes for the same page."""

from __future__ import annotations

import math
from xml.sax.saxutils import escape, quoteattr

from clampwright.sheets.drawing import ArcPath, Circle, Item, Page, Path, Pen, Text
from clampwright.sheets.lettering import printable, width

_FONT = "Helvetica, Arial, 'Liberation Sans', sans-serif"


def svg(page: Page) -> str:
    """The SVG document of one page (SVG 1.1), on white, in millimetres.

    Every text carries its length, so that another font of about the same width fills the same room.

    Examples
    --------
    >>> print(svg(Page("dot", 20.0, 10.0, (Circle((5.0, 2.0), 1.5),))).splitlines()[-2])
    <circle cx="5" cy="8" r="1.5" fill="none" stroke="#000000" stroke-width="0.25"/>
    """
    size = f"{_n(page.width_mm)}mm", f"{_n(page.height_mm)}mm"
    box = f"0 0 {_n(page.width_mm)} {_n(page.height_mm)}"
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{size[0]}" height="{size[1]}" viewBox="{box}"'
        f' font-family="{_FONT}" stroke-linejoin="round" role="img">',
        f"<title>{escape(printable(page.title))}</title>",
        f'<rect width="{_n(page.width_mm)}" height="{_n(page.height_mm)}" fill="#ffffff"/>',
    ]
    across, along = page.stretch
    if page.stretch != (1.0, 1.0):
        shift = page.width_mm / 2 * (1 - across), page.height_mm / 2 * (1 - along)
        matrix = " ".join(_n(v, 9) for v in (across, 0.0, 0.0, along, *shift))
        lines.append(f'<g transform="matrix({matrix})">')
    lines += [_element(item, page.height_mm) for item in page.drawn()]
    lines += ["</g>"] if page.stretch != (1.0, 1.0) else []
    return "\n".join([*lines, "</svg>", ""])


def _n(value: float, decimals: int = 4) -> str:
    text = f"{value:.{decimals}f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _element(item: Item, height: float) -> str:
    if isinstance(item, Text):
        return _text(item, height)
    if isinstance(item, Circle):
        x, y = item.centre
        shape = f'<circle cx="{_n(x)}" cy="{_n(height - y)}" r="{_n(item.radius)}"'
    elif isinstance(item, ArcPath):
        shape = f'<path d="{_arc(item, height)}"'
    else:
        shape = f'<path d="{_chain(item, height)}"'
    fill = None if isinstance(item, ArcPath) else item.fill
    return f'{shape} fill="{fill or "none"}"{_stroke(item.pen)}/>'


def _stroke(pen: Pen | None) -> str:
    if pen is None:
        return ""
    dash = f' stroke-dasharray="{" ".join(_n(d) for d in pen.dash_mm)}"' if pen.dash_mm else ""
    return f' stroke="{pen.colour}" stroke-width="{_n(pen.width_mm)}"{dash}'


def _chain(item: Path, height: float) -> str:
    points = "L".join(f"{_n(x)} {_n(height - y)}" for x, y in item.points)
    return f"M{points}{'Z' if item.closed else ''}"


def _arc(item: ArcPath, height: float) -> str:
    """Two half arcs, so that a full circle is drawn too."""
    extent = (item.end_deg - item.start_deg) % 360 or 360.0
    x0, y0 = item.centre
    ends = [math.radians(item.start_deg + extent * part) for part in (0.0, 0.5, 1.0)]
    spots = [
        f"{_n(x0 + item.radius * math.cos(a))} {_n(height - y0 - item.radius * math.sin(a))}" for a in ends
    ]
    r = _n(item.radius)
    return f"M{spots[0]}A{r} {r} 0 0 0 {spots[1]}A{r} {r} 0 0 0 {spots[2]}"


def _text(item: Text, height: float) -> str:
    text = printable(item.text)
    x, y = _n(item.at[0]), _n(height - item.at[1])
    anchor = {"left": "start", "middle": "middle", "right": "end"}[item.anchor]
    bold = ' font-weight="bold"' if item.bold else ""
    turn = f' transform="rotate({_n(-item.angle_deg)} {x} {y})"' if item.angle_deg else ""
    long = _n(width(text, item.size_mm, item.bold))
    return (
        f'<text x="{x}" y="{y}" font-size="{_n(item.size_mm)}"{bold} text-anchor="{anchor}"'
        f" fill={quoteattr(item.colour)}{turn}"
        f' textLength="{long}" lengthAdjust="spacingAndGlyphs" xml:space="preserve">{escape(text)}</text>'
    )
