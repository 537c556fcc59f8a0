"""Finished parts against their recipe as JSON. Keys are described in `files/as_made_keys.csv`."""

from __future__ import annotations

from collections.abc import Sequence

from clampwright.checks.finding import Finding
from clampwright.files.findings_json import findings_as_json
from clampwright.files.json_text import Json, degrees, direction, number, numbers
from clampwright.files.stack_json import stack
from clampwright.layout.as_made import BestFit, Culprit, FootFit, GroupFit, HoleFit, LengthFit, Refit
from clampwright.layout.joined import Joined

FORMAT_VERSION = 1


def as_made_as_json(layout: Joined, fit: BestFit, findings: Sequence[Finding]) -> Json:
    """The best fit of every group, every hole, bushing, foot and bolt, and the findings."""
    recipe = layout.recipe
    return {
        "format": "clampwright as made",
        "format_version": FORMAT_VERSION,
        "recipe": {"name": recipe.name, "kind": recipe.kind, "digest": recipe.digest},
        "groups": [_group(each) for each in fit.groups],
        "holes": [_hole(each) for each in fit.holes],
        "bushings": [_length(each) for each in fit.lengths],
        "feet": [_foot(each) for each in fit.feet],
        "lean_deg": degrees(fit.lean_rad),
        "bolts": [_refit(each) for each in fit.stacks],
        "not_measured": list(fit.not_measured),
        "diameter_not_measured": list(fit.not_sized),
        "findings": findings_as_json(recipe, tuple(findings)),
    }


def _group(group: GroupFit) -> Json:
    return {
        "name": group.name,
        "holes": list(group.holes),
        "shift_mm": numbers(group.shift),
        "turn_deg": degrees(group.turn_rad),
        "about_mm": numbers(group.about),
        "spare_mm": number(group.spare_mm),
        "spare_as_drawn_mm": number(group.before_mm),
        "open": [_culprit(each) for each in group.culprits],
        "left_out": group.left_out,
    }


def _culprit(culprit: Culprit) -> Json:
    return {
        "hole": culprit.label,
        "by_mm": number(culprit.lacking_mm),
        "toward": direction(culprit.toward),
        "others_spare_mm": number(culprit.others_spare_mm),
    }


def _hole(hole: HoleFit) -> Json:
    return {
        "label": hole.label,
        "group": hole.group,
        "fastener": hole.fastener,
        "drawn_mm": numbers(hole.planned),
        "measured_mm": numbers(hole.measured),
        "diameter_mm": number(hole.diameter_mm),
        "diameter_measured": hole.sized,
        "pilot": hole.pilot,
        "transferred": hole.transferred,
        "off_mm": number(hole.off_mm),
        "way": direction(hole.way),
        "play_mm": number(hole.play_mm),
        "allowed_mm": number(hole.allowed_mm),
        "gives": hole.gives,
        "spare_mm": number(hole.spare_mm),
        "bolt_plus_minus_mm": number(hole.doubt_mm),
        "clamp_slides_mm": number(hole.slides_mm),
        "clamp_room_mm": number(hole.room_mm),
    }


def _length(each: LengthFit) -> Json:
    return {
        "mark": each.mark,
        "where": list(each.where),
        "drawn_mm": number(each.planned_mm),
        "low_mm": number(each.low_mm),
        "high_mm": number(each.high_mm),
        "measured_mm": number(each.measured_mm),
        "left_mm": number(each.left_mm),
        "allowed_mm": number(each.allowed_mm),
        "left_long_mm": number(each.long_mm),
        "gap_plus_minus_mm": number(each.gap_doubt_mm),
    }


def _foot(foot: FootFit) -> Json:
    return {
        "clamp": foot.label,
        "high_mm": number(foot.high_mm),
        "gap_mm": number(foot.gap_mm),
        "carries": foot.carries,
        "measured": foot.measured,
    }


def _refit(each: Refit) -> Json:
    return {
        "label": each.label,
        "fits": each.fits,
        "stack": stack(each.made),
        "better": None if each.better is None else stack(each.better),
    }
