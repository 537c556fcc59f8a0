"""The recipes that tests read: the examples, right ones and wrong ones."""

from __future__ import annotations

from pathlib import Path

HERE = Path(__file__).parent
RECIPES = HERE.parents[1] / "recipes"
SURVEYS = tuple(sorted(RECIPES.glob("*survey*.toml")))
EXAMPLES = tuple(
    path for path in sorted(RECIPES.glob("*.toml")) if path.stem != "engine-mount" and path not in SURVEYS
)
BAY = tuple(path for path in EXAMPLES if path.stem != "two-tubes-by-tape")
"""Those that share one mount."""
MOUNT = RECIPES / "engine-mount.toml"
VALID = tuple(sorted((HERE / "valid").glob("*.toml")))
WRONG = tuple(sorted((HERE / "wrong").glob("*.toml")))
