"""Points that lie almost in the plane of the three that they are measured from."""

from __future__ import annotations

import numpy as np

from clampwright.structure.survey.fit import Fit
from clampwright.structure.survey.mirrors import known_to, linked
from clampwright.structure.survey.model import Survey
from clampwright.structure.survey.wording import listed


def nearly_flat(survey: Survey, found: Fit) -> tuple[str, ...]:
    """A sentence on each point whose height over the plane of its three is less than its ±.

    Its two images are then nearer to each other than its ± lets them be told apart, or asked about.
    """
    count = len(survey.points)
    links, known, said = linked(found.equations, found.use, count), known_to(found), []
    for number, point in enumerate(survey.points):
        three = [n for n in range(count) if links[number] >> n & 1]
        if len(three) != 3 or known[number] <= 1.0:
            continue
        a, b, c = found.figure[three]
        normal = np.cross(b - a, c - a)
        area = float(np.linalg.norm(normal))
        if area and 2.0 * abs(float((found.figure[number] - a) @ normal)) / area <= known[number]:
            names = listed([survey.points[n].name for n in three])
            said.append(
                f"{point.name} lies almost in the plane of {names}: its ± is that of both images; measure it "
                f"from a fourth point out of that plane."
            )
    return tuple(said)
