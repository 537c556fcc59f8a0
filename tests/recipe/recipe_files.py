"""The recipes that tests read: the examples, right ones and wrong ones."""

from __future__ import annotations

from pathlib import Path

HERE = Path(__file__).parent
EXAMPLES = tuple(
    path for path in sorted((HERE.parents[1] / "recipes").glob("*.toml")) if path.stem != "engine-mount"
)
MOUNT = HERE.parents[1] / "recipes" / "engine-mount.toml"
VALID = tuple(sorted((HERE / "valid").glob("*.toml")))
WRONG = tuple(sorted((HERE / "wrong").glob("*.toml")))
