"""A temporary folder without room is a matter of the system, and said with the folder's name."""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
from pathlib import Path

import pytest

from clampwright.solids.through_file import through_file

KERNEL = """
import sys
from clampwright.solids.body import Body
from clampwright.solids.exchange import step_text
from clampwright.solids.mesh import stl_bytes
from clampwright.solids.place import Place
from clampwright.solids.shapes import ring
body = Body("a", "a", "plate", ring(20.0, 5.0, 2.0), Place())
work = {
    "stl": lambda: stl_bytes(body.shape, 0.01, 0.2),
    "step": lambda: step_text([body], "a", True),
    "assembly": lambda: step_text([body], "a", False),
}[sys.argv[1]]
try:
    work()
except OSError as error:
    print("OSError", error.filename)
"""
LIMIT_BYTES = 1024


def test_half_a_file_and_no_file_are_an_error_that_names_the_folder() -> None:
    for write in (lambda path: Path(path).write_bytes(b"ha"), lambda path: None):
        with pytest.raises(OSError, match="temporary folder") as error:
            through_file("x", write, lambda data: data == b"half")
        assert error.value.filename == tempfile.gettempdir()


def test_no_temporary_folder_is_an_error_of_the_system(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "missing"))
    with pytest.raises(OSError, match="missing"):
        through_file("x", lambda path: Path(path).write_bytes(b"all"), lambda data: True)


@pytest.mark.parametrize("what", ["stl", "step", "assembly"])
def test_the_kernel_with_a_limit_on_what_it_may_write(what: str, tmp_path: Path) -> None:
    """Files of more than a kilobyte are cut off by the system (setrlimit, POSIX), as on a full disk."""
    search = os.pathsep.join(str(Path(place).resolve()) for place in sys.path)
    run = subprocess.run(
        [sys.executable, "-B", "-c", KERNEL, what],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "TMPDIR": str(tmp_path), "PYTHONPATH": search},
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (LIMIT_BYTES, LIMIT_BYTES)),
    )
    assert run.stdout.splitlines()[-1:] == [f"OSError {tmp_path}"]
