"""Prints how long it takes to find the tubes in a made-up scan of a million points, the whole process.

    python tests/benchmarks/scan.py [points]

Eight tubes before a firewall, boxes, a ball, strays, noise 0.5 mm. The budget is a minute on two cores.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1]))

from structure.scan.scan_scenes import FRAME, engine_bay, matched, off, scanned, turned

from clampwright.structure.scan.find import tubes_in_scan

BUDGET_S = 60.0
ASK = """
import sys
from pathlib import Path
from clampwright.structure.scan.find import tubes_in_scan
print(len(tubes_in_scan(Path(sys.argv[1]), "mm").tubes), "tubes")
"""


def write_ply(path: Path, points: np.ndarray) -> None:
    """Points as a binary PLY."""
    head = f"ply\nformat binary_little_endian 1.0\nelement vertex {len(points)}\n"
    head += "".join(f"property float {axis}\n" for axis in "xyz") + "end_header\n"
    path.write_bytes(head.encode() + points.astype("<f4").tobytes())


def main(count: int) -> None:
    """Make the scan, find its tubes in a process of their own, and say how near they came."""
    rng = np.random.default_rng(1)
    points = scanned(*engine_bay(int(0.78 * count), rng), 0.5, rng)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "bay.ply"
        write_ply(path, points)
        before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
        run = subprocess.run(
            [sys.executable, "-c", ASK, str(path)], capture_output=True, text=True, check=True
        )
        took, after = time.perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN)
        cpu = after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime
        print(f"{len(points)} points: {run.stdout.strip()} in {took:.1f} s, budget {BUDGET_S:.0f} s")
        print(f"CPU: {cpu:.1f} s")
        print(f"memory: {after.ru_maxrss / 1e6:.2f} GB")
        found = tubes_in_scan(path, "mm").tubes
    for made in FRAME:
        tube = matched(made, found)
        if tube is None:
            print("missed:", made)
            continue
        diameter = f"{tube.od_found_mm:.3f} ± {tube.od_plus_minus_mm:.3f} mm (true {made.od})"
        axis = f"{max(off(made, tube)):.3f} ± {tube.ends_plus_minus_mm:.3f} mm and {turned(made, tube):.4f}°"
        print(f"{tube.tube.name}: {diameter}, axis off {axis}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000)
