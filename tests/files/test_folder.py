"""A folder is replaced as a whole or not at all, whatever happens, and what is not ours stays."""

from __future__ import annotations

import json
import os
import signal
import socket
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clampwright.files import swap
from clampwright.files.folder import Draft, NotOurFolder, folder
from clampwright.files.leftovers import hidden_name
from clampwright.files.safe_names import UnsafeName
from clampwright.files.written import Written

SLOW_WRITER = """
import sys, time
from pathlib import Path
from files.test_folder import fill
from clampwright.files.folder import folder
from clampwright.files.written import Written
with folder(Path(sys.argv[1]), "part") as draft:
    draft.write(Written("a.txt", b"new", "a"))
    print("half", flush=True)
    time.sleep(60)
    fill(draft, "new")
"""


def fill(draft: Draft, text: str) -> None:
    """Two files and the manifest that lists them."""
    for name in ("a.txt", "b.txt"):
        if all(file.name != name for file in draft.files):
            draft.write(Written(name, text.encode(), name))
    listed = [{"name": f.name, "sha256": f.sha256} for f in draft.files]
    draft.write(
        Written("manifest.json", json.dumps({"made_by": "clampwright", "files": listed}).encode(), "")
    )


def make(out: Path, text: str) -> Draft:
    """Write the folder `part`."""
    with folder(out, "part") as draft:
        fill(draft, text)
    return draft


def content(out: Path) -> dict[str, str]:
    """What `part` holds, without the manifest."""
    return {p.name: p.read_text() for p in (out / "part").iterdir() if p.name != "manifest.json"}


def hidden(out: Path) -> list[str]:
    """Hidden folders beside it."""
    return [p.name for p in out.iterdir() if p.name.startswith(".")]


def test_first_and_second_build(tmp_path: Path) -> None:
    make(tmp_path / "deep" / "out", "one")
    assert content(tmp_path / "deep" / "out") == {"a.txt": "one", "b.txt": "one"}
    make(tmp_path / "deep" / "out", "two")
    assert content(tmp_path / "deep" / "out") == {"a.txt": "two", "b.txt": "two"}
    assert hidden(tmp_path / "deep" / "out") == []


def test_a_file_that_is_no_longer_written_goes(tmp_path: Path) -> None:
    with folder(tmp_path, "part") as draft:
        draft.write(Written("old-paper.pdf", b"x", ""))
        fill(draft, "one")
    make(tmp_path, "two")
    assert "old-paper.pdf" not in content(tmp_path)


@pytest.mark.parametrize("before", [None, "old"])
def test_an_error_midway_leaves_the_old_folder(tmp_path: Path, before: str | None) -> None:
    if before:
        make(tmp_path, before)
    with pytest.raises(RuntimeError, match="midway"), folder(tmp_path, "part") as draft:  # noqa: PT012
        draft.write(Written("a.txt", b"new", ""))
        raise RuntimeError("midway")
    assert (content(tmp_path) if before else hidden(tmp_path)) == (
        {"a.txt": "old", "b.txt": "old"} if before else []
    )
    assert hidden(tmp_path) == []
    assert (tmp_path / "part").exists() is bool(before)


def kill_midway(out: Path) -> None:
    """Start a writer in a process of its own and kill it when it has written half."""
    tests = str(Path(__file__).parents[1])
    paths = os.pathsep.join([tests, *filter(None, [os.environ.get("PYTHONPATH")])])
    command = [sys.executable, "-c", SLOW_WRITER, str(out)]
    with subprocess.Popen(
        command, stdout=subprocess.PIPE, text=True, env={**os.environ, "PYTHONPATH": paths}
    ) as writer:
        assert writer.stdout is not None
        assert writer.stdout.readline() == "half\n"
        writer.send_signal(signal.SIGKILL)
        assert writer.wait() == -signal.SIGKILL


def test_a_killed_writer_leaves_the_old_folder_whole_and_its_rest_goes_at_the_next_start(
    tmp_path: Path,
) -> None:
    make(tmp_path, "old")
    old = {p.name: p.read_bytes() for p in (tmp_path / "part").iterdir()}
    kill_midway(tmp_path)
    assert {p.name: p.read_bytes() for p in (tmp_path / "part").iterdir()} == old
    assert len(hidden(tmp_path)) == 1
    make(tmp_path, "new")
    assert content(tmp_path) == {"a.txt": "new", "b.txt": "new"}
    assert hidden(tmp_path) == []


def test_a_writer_that_still_runs_keeps_its_draft(tmp_path: Path) -> None:
    with folder(tmp_path, "part") as slow:
        fill(slow, "slow")
        make(tmp_path, "quick")
        assert content(tmp_path)["a.txt"] == "quick"
        assert slow.path.exists()
    assert content(tmp_path) == {"a.txt": "slow", "b.txt": "slow"}


def test_a_build_killed_between_the_two_moves_is_put_back(tmp_path: Path) -> None:
    make(tmp_path, "old")
    (tmp_path / "part").rename(hidden_name(tmp_path, "old", "part"))
    with pytest.raises(RuntimeError), folder(tmp_path, "part"):  # noqa: PT012
        assert content(tmp_path) == {"a.txt": "old", "b.txt": "old"}
        raise RuntimeError
    assert content(tmp_path) == {"a.txt": "old", "b.txt": "old"}


def test_where_folders_cannot_change_places_two_moves_do(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(swap, "exchange", lambda a, b: False)
    make(tmp_path, "old")
    make(tmp_path, "new")
    assert content(tmp_path) == {"a.txt": "new", "b.txt": "new"}
    assert hidden(tmp_path) == []


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="renameat2 is Linux's")
def test_on_linux_folders_change_places_in_one_step(tmp_path: Path) -> None:
    for name in ("a", "b"):
        (tmp_path / name).mkdir()
        (tmp_path / name / name).touch()
    assert swap.exchange(tmp_path / "a", tmp_path / "b")
    assert (tmp_path / "a" / "b").exists()
    assert (tmp_path / "b" / "a").exists()
    assert not swap.exchange(tmp_path / "a", tmp_path / "missing")


def test_files_of_others_are_kept(tmp_path: Path) -> None:
    make(tmp_path, "old")
    part = tmp_path / "part"
    (part / "notes.txt").write_text("mine")
    (part / "photos").mkdir()
    (part / "photos" / "one.jpg").write_bytes(b"jpg")
    (part / "link").symlink_to("notes.txt")
    draft = make(tmp_path, "new")
    assert draft.kept == ("link", "notes.txt", "photos")
    assert (part / "notes.txt").read_text() == "mine"
    assert (part / "photos" / "one.jpg").read_bytes() == b"jpg"
    assert (part / "link").is_symlink()
    assert (part / "a.txt").read_text() == "new"
    make(tmp_path, "newer")
    assert (part / "notes.txt").read_text() == "mine"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names here")
def test_pipes_and_sockets_are_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    make(tmp_path, "old")
    part = tmp_path / "part"
    os.mkfifo(part / "pipe")
    (part / "deep").mkdir()
    os.mkfifo(part / "deep" / "pipe")
    monkeypatch.chdir(part)  # the names of sockets are short
    with socket.socket(socket.AF_UNIX) as listener:
        listener.bind("socket")
        monkeypatch.chdir(tmp_path)
        assert make(tmp_path, "new").kept == ("deep", "pipe", "socket")
    assert (part / "pipe").is_fifo()
    assert (part / "deep" / "pipe").is_fifo()
    assert (part / "socket").is_socket()
    assert (part / "a.txt").read_text() == "new"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with names here")
def test_a_pipe_that_cannot_be_kept_stops_the_build(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    make(tmp_path, "old")
    os.mkfifo(tmp_path / "part" / "pipe")

    def refused(*_: object) -> None:
        raise PermissionError(1, "no links here")

    monkeypatch.setattr(os, "link", refused)
    with pytest.raises(PermissionError):
        make(tmp_path, "new")
    assert (tmp_path / "part" / "pipe").is_fifo()
    assert (tmp_path / "part" / "a.txt").read_text() == "old"
    assert hidden(tmp_path) == []


def test_a_file_of_ours_that_somebody_changed_is_kept_under_another_name(tmp_path: Path) -> None:
    make(tmp_path, "old")
    (tmp_path / "part" / "a.txt").write_text("with my remarks")
    draft = make(tmp_path, "new")
    assert draft.kept == ("a.kept-1.txt",)
    assert content(tmp_path) == {"a.txt": "new", "b.txt": "new", "a.kept-1.txt": "with my remarks"}


def test_a_folder_that_is_not_ours_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "part").mkdir()
    (tmp_path / "part" / "thesis.txt").write_text("years")
    with pytest.raises(NotOurFolder, match="was not made by clampwright"), folder(tmp_path, "part"):
        pytest.fail("nothing may be written")
    assert [p.name for p in tmp_path.iterdir()] == ["part"]
    assert (tmp_path / "part" / "thesis.txt").read_text() == "years"


@pytest.mark.parametrize(
    "manifest",
    ["", "[]", "{}", "no json", '{"made_by": "another"}', '{"made_by": "clampwright"}',
     '{"made_by": "clampwright", "files": 3}', '{"made_by": "clampwright", "files": [{"name": "a"}]}',
     '{"made_by": "clampwright", "files": ["a"]}', "\xff"],
)  # fmt: skip
def test_a_manifest_that_is_not_ours_does_not_make_it_ours(tmp_path: Path, manifest: str) -> None:
    (tmp_path / "part").mkdir()
    (tmp_path / "part" / "manifest.json").write_text(manifest, encoding="latin-1")
    with pytest.raises(NotOurFolder), folder(tmp_path, "part"):
        pytest.fail("nothing may be written")


def test_a_folder_that_turns_strange_while_we_build_is_left_alone(tmp_path: Path) -> None:
    with pytest.raises(NotOurFolder), folder(tmp_path, "part") as draft:  # noqa: PT012
        fill(draft, "new")
        (tmp_path / "part").mkdir()
        (tmp_path / "part" / "thesis.txt").write_text("years")
    assert (tmp_path / "part" / "thesis.txt").read_text() == "years"
    assert hidden(tmp_path) == []


def test_an_empty_folder_may_be_filled(tmp_path: Path) -> None:
    (tmp_path / "part").mkdir()
    make(tmp_path, "new")
    assert content(tmp_path) == {"a.txt": "new", "b.txt": "new"}


def test_a_file_or_a_link_in_the_way_is_left_alone(tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    make(elsewhere, "theirs")
    (tmp_path / "part").symlink_to(elsewhere / "part")
    with pytest.raises(NotOurFolder, match="file or a link"):
        make(tmp_path, "new")
    assert content(elsewhere) == {"a.txt": "theirs", "b.txt": "theirs"}
    (tmp_path / "part").unlink()
    (tmp_path / "part").write_text("a file")
    with pytest.raises(NotOurFolder, match="file or a link"):
        make(tmp_path, "new")
    with pytest.raises(NotOurFolder, match="not a folder"):
        make(tmp_path / "part", "new")
    assert (tmp_path / "part").read_text() == "a file"


def test_hidden_things_of_others_stay(tmp_path: Path) -> None:
    for name in (".git", ".clampwright-notes", ".clampwright-new-part-XYZ", ".clampwright-old-part"):
        (tmp_path / name).mkdir()
    (tmp_path / ".clampwright-new-part-0123abcd").write_text("a file, not a folder")
    make(tmp_path, "new")
    assert len(hidden(tmp_path)) == 5


BAD_NAMES = [
    "",
    ".",
    "..",
    "../up",
    "/etc",
    "a/b",
    "a\\b",
    "-rf",
    ".hidden",
    "a\n",
    "a\0",
    "CON:",
    "ä",
    "a" * 200,
]


@pytest.mark.parametrize("name", BAD_NAMES)
def test_names_that_lead_elsewhere_are_refused(tmp_path: Path, name: str) -> None:
    out = tmp_path / "out"
    with pytest.raises(UnsafeName), folder(out, name):
        pytest.fail("nothing may be written")
    assert not out.exists()
    with pytest.raises(UnsafeName), folder(out, "part") as draft:
        draft.write(Written(name, b"", ""))
    assert not (out / "part").exists()


@settings(deadline=None, max_examples=60)
@given(st.text(max_size=20))
def test_no_name_whatever_leaves_the_folder(tmp_path_factory: pytest.TempPathFactory, name: str) -> None:
    base = tmp_path_factory.mktemp("any")
    try:
        with folder(base / "out", "part") as draft:
            draft.write(Written(name, b"x", ""))
            fill(draft, "y")
    except (UnsafeName, ValueError):
        pass
    assert {p.name for p in base.iterdir()} <= {"out"}
    assert {p.name for p in (base / "out").iterdir()} <= {"part"}


def test_one_name_twice_and_a_folder_without_manifest_are_refused(tmp_path: Path) -> None:
    with pytest.raises(ValueError, match="twice"), folder(tmp_path, "part") as draft:  # noqa: PT012
        draft.write(Written("a.txt", b"", ""))
        draft.write(Written("A.TXT", b"", ""))
    with pytest.raises(ValueError, match="manifest"), folder(tmp_path, "part") as draft:
        draft.write(Written("a.txt", b"", ""))
    assert list(tmp_path.iterdir()) == []


def test_many_writers_at_once_leave_one_whole_folder(tmp_path: Path) -> None:
    """Four processes, each ten builds: at the end all files come from one build and no draft is left."""
    code = (
        "import sys; from pathlib import Path; from files.test_folder import make\n"
        "for k in range(10): make(Path(sys.argv[1]), f'{sys.argv[2]}-{k}')"
    )
    env = {**os.environ, "PYTHONPATH": str(Path(__file__).parents[1])}
    runs = [subprocess.Popen([sys.executable, "-c", code, str(tmp_path), str(n)], env=env) for n in range(4)]
    seen = False
    while any(run.poll() is None for run in runs):
        there = (tmp_path / "part" / "manifest.json").exists()
        assert there or not seen, "the folder was gone for a moment"
        seen = there
    assert [run.returncode for run in runs] == [0, 0, 0, 0]
    assert len(set(content(tmp_path).values())) == 1
    assert hidden(tmp_path) == []
