"""Property tests try the same cases every time on a continuous build, and new ones at a desk."""

from __future__ import annotations

import os

from hypothesis import settings

settings.register_profile("continuous", derandomize=True)
if os.environ.get("CI"):
    settings.load_profile("continuous")


os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
"""Two processes of tests on two cores: threads of linear algebra beside them only wait for each other."""
