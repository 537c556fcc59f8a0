"""Prints how the whole processes stand against their budgets, each against its baseline, all in one run.

    python tests/benchmarks/budgets.py

Every time is the best of some runs of a whole process, with compiled bytecode. It is a report, not a test.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).parent
EXAMPLE = HERE.parents[1] / "recipes" / "coil-plate.toml"
STRUCTURE = EXAMPLE.with_name("engine-mount.toml")
ENVIRONMENT = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
MANY = 100


def seconds(*words: str, runs: int = 5) -> float:
    """Best wall time of a whole process."""

    def once() -> float:
        start = time.perf_counter()
        done = subprocess.run([sys.executable, *words], env=ENVIRONMENT, capture_output=True, check=False)
        assert done.returncode in (0, 1), done.stderr.decode()
        return time.perf_counter() - start

    once()
    return min(once() for _ in range(runs))


def command(*words: str | Path, runs: int = 5) -> float:
    """Best wall time of `clampwright ...`."""
    return seconds("-m", "clampwright_cli", *map(str, words), runs=runs)


def children_cpu(*words: str | Path) -> tuple[float, float]:
    """Wall and CPU seconds of `clampwright ...` with all its workers."""
    before, start = os.times(), time.perf_counter()
    line = [sys.executable, "-m", "clampwright_cli", *map(str, words)]
    subprocess.run(line, env=ENVIRONMENT, capture_output=True, check=False)
    after, end = os.times(), time.perf_counter()
    cpu = after.children_user + after.children_system - before.children_user - before.children_system
    return end - start, cpu


def many(folder: Path, count: int) -> list[Path]:
    """The example under many names."""
    (folder / STRUCTURE.name).write_bytes(STRUCTURE.read_bytes())
    text = EXAMPLE.read_text(encoding="utf-8")
    paths = [folder / f"plate-{number:03}.toml" for number in range(count)]
    for path in paths:
        path.write_text(text.replace('name = "coil-plate"', f'name = "{path.stem}"'), encoding="utf-8")
    return paths


def row(what: str, measured: float, baseline: float, budget: float, unit: str = "s") -> None:
    """One line: measured, baseline, ratio, budget."""
    ratio = measured / baseline
    verdict = "within" if ratio <= budget else "OVER"
    print(f"{what:34} {measured:7.3f} {unit}  {baseline:7.3f} {unit}  {ratio:6.2f}  {budget:5.2f}  {verdict}")


def main() -> None:
    """Measure and print."""
    print(f"{'what':34} {'measured':>9}  {'baseline':>9}  {'ratio':>6}  budget")
    bare_click = seconds("-c", "import click")
    with_numpy = seconds("-c", "import click, numpy")
    kernel = seconds("-c", "import cadquery")
    row("--help / import click", command("--help"), bare_click, 2.0)
    row("drill #11 / import click", command("drill", "#11"), bare_click, 2.0)
    row("bolt --stack / click + numpy", command("bolt", "AN3", "--stack", "0.5 in"), with_numpy, 2.0)
    row("check / import cadquery", command("check", EXAMPLE), kernel, 0.5)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        build = command("build", EXAMPLE, "--out", folder / "out")
        layout = folder / "out" / "coil-plate" / "coil-plate-layout.json"
        assert json.loads(layout.read_text(encoding="utf-8"))["holes"]
        bare = seconds(str(HERE / "bare_script.py"), str(layout), str(folder / "bare"))
        row("build / bare CadQuery script", build, bare, 1.3)
        two, hundred = many(folder, 2), many(folder, MANY)
        _, cpu_two = children_cpu("build", *two, "--out", folder / "two")
        wall, cpu = children_cpu("build", *hundred, "--out", folder / "hundred")
        row("CPU of each further recipe / 1 s", (cpu - cpu_two) / (MANY - 2), 1.0, 0.25)
        print(f"{MANY} recipes in one build: {wall:.1f} s wall, {cpu:.1f} s CPU, {cpu / wall:.2f} cores busy")


if __name__ == "__main__":
    main()
