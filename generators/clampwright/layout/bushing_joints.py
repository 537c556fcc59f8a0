"""The bolts of a component on bushings where they sit in the world."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import takewhile

from clampwright.layout.bushing_placed import BushingLayout
from clampwright.layout.clash_bodies import point
from clampwright.layout.joined import Joint
from clampwright.layout.placed import ClampPlace, Frame, Stack
from clampwright.recipe.bushing_model import BushingJob, Lug, MountedComponent


def bushing_joints(layout: BushingLayout) -> tuple[Joint, ...]:
    """Every bolt, hole by hole: it goes in from the component's side, its head on the lug's far face."""
    return joints_of(layout.clamps, layout.frame, layout.recipe.asked(BushingJob).component)


def joints_of(clamps: Sequence[ClampPlace], frame: Frame, component: MountedComponent) -> tuple[Joint, ...]:
    """The same from its pieces."""
    return tuple(
        _joint(clamp, lug, frame, component.name) for clamp, lug in zip(clamps, component.lugs, strict=True)
    )


def _joint(clamp: ClampPlace, lug: Lug, frame: Frame, owner: str) -> Joint:
    x, y, z = frame.n
    return Joint(
        label=clamp.label,
        owner=owner,
        head=point(frame, clamp.at_exact, _head_z(clamp.stack, lug)),
        axis=(0.0 - x, 0.0 - y, 0.0 - z),
        stack=clamp.stack,
        clamps=(clamp.label,),
        feet_measured="feet" in clamp.measured,
        lug_known=lug.thickness_mm is not None,
    )


def _head_z(stack: Stack, lug: Lug) -> float:
    """Height of the face under the head: the lug's far face (its near face where no one knows how thick it
    is) and the washers on it."""
    washers = takewhile(lambda item: item.name == "washer", stack.items)
    on_lug = sum(item.thickness_mm * item.count for item in washers)
    return lug.near_face_mm + (lug.thickness_mm or 0.0) + on_lug
