"""The commands where the surroundings are against them: stop keys, full disks, dead workers, odd names."""

from __future__ import annotations

import json
import os
import pty
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

RECIPES = Path(__file__).parents[2] / "recipes"
EXAMPLE = RECIPES / "coil-plate.toml"
COMMAND = (sys.executable, "-m", "clampwright_cli")


def clampwright(*words: str | Path, **more: object) -> subprocess.CompletedProcess[bytes]:
    """Run the command in a process of its own."""
    return subprocess.run([*COMMAND, *map(os.fsencode, words)], capture_output=True, check=False, **more)  # type: ignore[call-overload, no-any-return]


def renamed(folder: Path, name: str) -> Path:
    """The example under another name."""
    (folder / "engine-mount.toml").write_bytes((RECIPES / "engine-mount.toml").read_bytes())
    path = folder / f"{name}.toml"
    text = EXAMPLE.read_text(encoding="utf-8").replace('name = "coil-plate"', f'name = "{name}"')
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize("after_s", [0.5, 0.8, 1.1, 1.4, 1.7])
def test_the_stop_key_leaves_with_130_and_no_folder_half_written(tmp_path: Path, after_s: float) -> None:
    out = tmp_path / "out"
    with subprocess.Popen(
        [*COMMAND, "build", EXAMPLE, "--out", out], stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as run:
        time.sleep(after_s)
        run.send_signal(signal.SIGINT)
        printed, said = run.communicate(timeout=60)
    if run.returncode == 0:
        pytest.skip("the build was faster than the stop key")
    assert run.returncode == 130, said
    assert b"Traceback" not in said
    assert b"topped" in said
    assert printed == b""
    assert not (out / "coil-plate").exists() or (out / "coil-plate" / "manifest.json").exists()


def test_the_stop_key_in_a_batch_says_how_many_were_built(tmp_path: Path) -> None:
    paths = [renamed(tmp_path, f"plate-{number}") for number in range(6)]
    with subprocess.Popen(
        [*COMMAND, "build", *paths, "--jobs", "2", "--out", tmp_path / "out"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        start_new_session=True,
    ) as run:
        time.sleep(1.0)
        os.killpg(run.pid, signal.SIGINT)  # as a terminal does: the workers get it too
        _, said = run.communicate(timeout=60)
    assert run.returncode == 130, said
    assert b"Traceback" not in said
    assert b"of 6 recipes were built" in said


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="no /dev/full here")
def test_a_full_disk_behind_the_output_leaves_with_4() -> None:
    with Path("/dev/full").open("wb") as full:
        run = subprocess.run([*COMMAND, "check", EXAMPLE], stdout=full, stderr=subprocess.PIPE, check=False)
    assert run.returncode == 4
    assert b"could not be written" in run.stderr


def test_a_reader_that_leaves_early_is_no_fault() -> None:
    line = f"{sys.executable} -m clampwright_cli check {EXAMPLE} --all | head -1"
    run = subprocess.run(["bash", "-o", "pipefail", "-c", line], capture_output=True, check=False)
    assert run.stdout.startswith(b"coil-plate")
    assert b"Traceback" not in run.stderr


def on_a_terminal(**environment: str) -> bytes:
    """What `check` prints on a terminal."""
    try:
        leader, follower = pty.openpty()
    except OSError:
        pytest.skip("no terminals to be had here")
    with subprocess.Popen(
        [*COMMAND, "check", EXAMPLE], stdout=follower, stderr=follower, env={**os.environ, **environment}
    ) as run:
        os.close(follower)
        printed = b""
        try:
            while piece := os.read(leader, 65536):
                printed += piece
        except OSError:
            pass
    os.close(leader)
    assert run.returncode == 0
    return printed


def test_colours_on_a_terminal_unless_it_wants_none() -> None:
    assert b"\x1b[" in on_a_terminal(TERM="xterm")
    assert b"\x1b[" not in on_a_terminal(TERM="xterm", NO_COLOR="1")
    assert b"\x1b[" not in on_a_terminal(TERM="dumb")


def test_one_file_given_twice_is_built_once(tmp_path: Path) -> None:
    path = renamed(tmp_path, "once")
    again = path.parent / "." / path.name
    run = clampwright("build", "--json", path, again, path, "--out", tmp_path / "out")
    assert run.returncode == 0, run.stderr
    assert len(json.loads(run.stdout)["results"]) == 1


def test_an_empty_output_folder_is_a_wrong_command_line() -> None:
    run = clampwright("build", EXAMPLE, "--out", "")
    assert run.returncode == 2
    assert b"empty" in run.stderr


def test_a_file_name_that_is_no_unicode_is_written_out(tmp_path: Path) -> None:
    path = os.path.join(os.fsencode(tmp_path), b"worse\xff.toml")  # noqa: PTH118
    try:
        with open(path, "wb") as stream:  # noqa: PTH123
            stream.write(b'kind = "?"')
    except OSError:
        pytest.skip("this file system takes Unicode names only")
    run = clampwright("check", "--json", os.fsdecode(path))
    assert run.returncode == 3
    (result,) = json.loads(run.stdout.decode("utf-8"))["results"]
    assert result["recipe"].endswith("worse\\udcff.toml")
    plain = clampwright("check", os.fsdecode(path))
    assert (plain.returncode, plain.stdout) == (3, b"")
    assert b"kind" in plain.stderr


def test_a_worker_that_dies_fails_only_its_own_recipe(tmp_path: Path) -> None:
    script = f"""
import os, signal, sys
from functools import partial
from pathlib import Path
sys.path.insert(0, {str(Path(__file__).parent)!r})
from clampwright_cli.side_by_side import side_by_side
from dying_work import work
if __name__ == "__main__":
    out = side_by_side([Path(name) for name in ("a", "dies", "b", "c")], work, 2)
    print([(o.recipe, o.status) for o in out])
"""
    driver = tmp_path / "driver.py"
    driver.write_text(script, encoding="utf-8")
    run = subprocess.run([sys.executable, driver], capture_output=True, text=True, check=False, timeout=120)
    assert run.stdout.strip() == "[('a', 0), ('dies', 5), ('b', 0), ('c', 0)]", run.stderr
