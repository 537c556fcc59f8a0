"""A stand-off seen along its tube: tube, line, clamps, bolt and spacer, to scale."""

from __future__ import annotations

from clampwright.layout.bodies import Box as Block
from clampwright.layout.bodies import Cylinder
from clampwright.layout.clash_bodies import band_body, feet_body
from clampwright.layout.clock import clock
from clampwright.layout.joined import Loop, line_named
from clampwright.layout.stand_off_placed import StandOffLayout
from clampwright.quantities import Vec2
from clampwright.quantities.directions import along, cross
from clampwright.sheets.bolt_bodies import layers
from clampwright.sheets.canvas import Drawn, Picture, framed
from clampwright.sheets.drawing import Box, Pen
from clampwright.sheets.ink import ACCENT, GREY, PALE, WHITE
from clampwright.sheets.silhouettes import Eye, silhouette, square_to

_AROUND = 7.0
_TUBE, _CLAMP, _BOLT = Pen(0.25), Pen(0.2, GREY), Pen(0.25)
_CENTRE = Pen(0.13, GREY, (4.0, 1.0, 0.8, 1.0))
_LINE_BANDS = 1.6
"""The line is drawn so many bands to either side of its clamp."""

_PANEL_HALF = 32.0
_SPACERS = {"bushing", "shim"}


def viewed_along(layout: StandOffLayout) -> Loop:
    """The clamp whose tube is looked along: that on the tube, on a panel that on the line."""
    return next((loop for loop in layout.loops if loop.tube != layout.line.name), layout.loops[0])


def pair_eye(loop: Loop) -> Eye:
    """Looking along a tube from its start to its end, what counts as 12:00 above."""
    zero = clock(loop.axis, loop.bolt_axis).zero
    return Eye(loop.centre, cross(loop.axis, zero), zero)


def pair_view(layout: StandOffLayout, box: Box) -> Drawn:
    """The view in a box of the page, no higher than it needs."""
    held = viewed_along(layout)
    eye = pair_eye(held)
    line = next((loop for loop in layout.loops if loop.tube == layout.line.name), None)
    bodies = [band_body(loop) for loop in layout.loops] + [feet_body(loop) for loop in layout.loops]
    stack = [body for joint in layout.joints for _, body in layers(joint)]
    panel = _panel(layout)
    everything = [*bodies, *stack, *panel]
    picture = framed(eye, [silhouette(body, eye) for body in everything], box, _AROUND)
    for body in panel:
        _named(picture, picture.body(body, _TUBE, PALE), layout.panel.name if layout.panel else "panel")
    if line is not None and line is not held:
        _loop(picture, layout, line)
    _loop(picture, layout, held)
    _bolts(picture, layout)
    _top(picture, held, layout)
    return picture.finished()


def _loop(picture: Picture, layout: StandOffLayout, loop: Loop) -> None:
    """A tube or line with its clamp: the band, what it holds, the feet."""
    tube = line_named(loop.tube, layout)
    half = _LINE_BANDS * loop.clamp.band_width_mm
    start, end = (along(loop.centre, (loop.axis, step)) for step in (-half, half))
    body = Cylinder(start, end, tube.od_mm / 2)
    long = max(abs(v) for v in picture.eye.way(loop.axis)) > 0.3
    if long:
        _named(picture, picture.body(body, _TUBE, WHITE), loop.tube)
    ring = picture.body(band_body(loop), _CLAMP, PALE)
    picture.body(feet_body(loop), _CLAMP, PALE)
    _named(picture, ring, loop.label)
    if not long:
        _named(picture, picture.body(body, _TUBE, WHITE), loop.tube)


def _bolts(picture: Picture, layout: StandOffLayout) -> None:
    for joint in layout.joints:
        for name, body in layers(joint):
            corners = picture.body(body, _BOLT, WHITE)
            if name in _SPACERS:
                mark = next((part.mark for part in layout.bushings), "spacer")
                _named(picture, corners, f"bushing {mark}" if mark != "spacer" else mark)
            if name == "head":
                chosen = joint.stack.chosen
                _named(picture, corners, f"bolt {chosen.length.part if chosen else joint.stack.bolt}")
            if name == "nut":
                _named(picture, corners, "nut")


def _named(picture: Picture, corners: tuple[Vec2, ...], name: str) -> None:
    """A label at whichever corner of a shape has room."""
    step = max(1, len(corners) // 8)
    picture.name([name], [(corner, 0.0) for corner in corners[::step]])


def _top(picture: Picture, held: Loop, layout: StandOffLayout) -> None:
    """Cross on the tube's axis, and the mark of 12:00."""
    x, y = picture.page((0.0, 0.0))
    out = picture.scale * (line_named(held.tube, layout).od_mm / 2)
    arm = out + 2.5
    for a, b in (((x - arm, y), (x + arm, y)), ((x, y - arm), (x, y + arm))):
        picture.line(a, b, _CENTRE)
    picture.line((x, y + out - 1.5), (x, y + out + 1.5), Pen(0.4, ACCENT))
    picture.name(["12:00"], [((x, y + out), 0.8)], pale=True)


def _panel(layout: StandOffLayout) -> tuple[Block, ...]:
    """A piece of the panel round the bolt."""
    if layout.panel is None or not layout.joints:
        return ()
    panel, joint = layout.panel, layout.joints[0]
    away = sum((h - p) * n for h, p, n in zip(joint.head, panel.point, panel.normal, strict=True))
    centre = along(joint.head, (panel.normal, 0.0 - away - panel.thickness_mm / 2))
    a, b = square_to(panel.normal)
    return (Block(centre, (a, b, panel.normal), (_PANEL_HALF, _PANEL_HALF, panel.thickness_mm / 2)),)
