"""A fixed component that no clamp meets still gets an answer, with what it breaks and what would do."""

from __future__ import annotations

from dataclasses import replace

from joined_recipes import bushing_job, bushing_recipe

from clampwright.layout.mounting.lay_out import lay_out_bushings


def test_a_fixed_pose_off_the_tubes_is_answered() -> None:
    pose = replace(bushing_job().pose, fixed=True, at=(250.0, 60.0, 35.0))
    layout = lay_out_bushings(bushing_recipe(pose=pose))
    assert not layout.answer.fits
    assert layout.answer.breaks
    assert layout.remedies
