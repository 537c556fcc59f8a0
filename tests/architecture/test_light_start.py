"""`--help`, `check` and every look-up run without the CAD kernel and the libraries that write files."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

RECIPES = Path(__file__).parents[2] / "recipes"
HEAVY = ("cadquery", "OCP", "ezdxf", "reportlab", "trimesh", "scipy", "shapely", "matplotlib")
ASK = """
import sys
from clampwright_cli.main import commands
try:
    commands(sys.argv[1:], prog_name="clampwright")
except SystemExit as left:
    assert left.code in (0, 1), left.code
loaded = sorted(set(sys.modules) & set({heavy!r}))
print("loaded:", loaded, file=sys.stderr)
"""


def loaded(*words: str) -> str:
    """What of HEAVY a command loads, as the child process prints it."""
    script = ASK.format(heavy=HEAVY)
    run = subprocess.run([sys.executable, "-c", script, *words], capture_output=True, text=True, check=True)
    return run.stderr.splitlines()[-1]


@pytest.mark.parametrize(
    "words",
    [
        ("--help",),
        ("build", "--help"),
        ("check", str(RECIPES / "coil-plate.toml")),
        ("check", "--json", str(RECIPES / "coil-plate.toml")),
        ("explain", "AN3"),
        ("bolt", "AN3"),
        ("bolt", "AN3", "--stack", "0.5 in"),
        ("drill", "#11"),
        ("verify", str(RECIPES / "coil-plate.toml"), "--bushing", "S1=0.25"),
        ("clamp", "3/4 in"),
        ("codes",),
        ("schema",),
    ],
    ids=" ".join,
)
def test_without_the_kernel(words: tuple[str, ...]) -> None:
    assert loaded(*words) == "loaded: []"


def test_help_loads_no_numpy() -> None:
    script = "import sys, clampwright_cli.main; print('numpy' in sys.modules)"
    run = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert run.stdout.strip() == "False"
