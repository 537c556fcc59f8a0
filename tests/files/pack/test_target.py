"""A pack is replaced as a whole or not at all, and what is not a pack of ours stays."""

from __future__ import annotations

import io
import json
import os
import signal
import subprocess
import sys
import zipfile
from functools import cache
from pathlib import Path

import pytest

from clampwright.files.pack.target import NotOurZip, made_by_us, refuse_strange, write_pack

KILLED_WHILE_WRITING = """
import os, sys, time
from pathlib import Path
from clampwright.files.pack import target

def wait(fd):
    print("half", flush=True)
    time.sleep(60)

target.os.fsync = wait
target.write_pack(Path(sys.argv[2]).read_bytes(), Path(sys.argv[1]))
"""


@cache
def pack(text: str = "new", maker: str = "clampwright", top: str = "bay") -> bytes:
    """A small pack, the same each time it is asked for."""
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w") as archive:
        archive.writestr(f"{top}/a.txt", text)
        archive.writestr(f"{top}/manifest.json", json.dumps({"made_by": maker, "files": []}))
    return data.getvalue()


def test_a_new_one_and_the_folder_where_only_it_is_missing(tmp_path: Path) -> None:
    to = tmp_path / "out" / "shop.zip"
    write_pack(pack(), to)
    assert to.read_bytes() == pack()
    assert [path.name for path in to.parent.iterdir()] == ["shop.zip"]


def test_ours_is_replaced(tmp_path: Path) -> None:
    to = tmp_path / "shop.zip"
    write_pack(pack("old"), to)
    write_pack(pack("new"), to)
    assert to.read_bytes() == pack("new")
    assert [path.name for path in tmp_path.iterdir()] == ["shop.zip"]


@pytest.mark.parametrize(
    "there",
    [
        b"a letter",
        b"",
        pack(maker="someone"),
        pack()[:-30],
        b"PK\x05\x06" + bytes(18),
    ],
    ids=["a text", "nothing", "another's", "a torn one", "an empty zip"],
)
def test_what_is_not_ours_stays(tmp_path: Path, there: bytes) -> None:
    to = tmp_path / "shop.zip"
    to.write_bytes(there)
    with pytest.raises(NotOurZip, match="left alone"):
        write_pack(pack(), to)
    assert to.read_bytes() == there
    assert [path.name for path in tmp_path.iterdir()] == ["shop.zip"]


def test_two_tops_are_not_ours(tmp_path: Path) -> None:
    data = io.BytesIO(pack())
    with zipfile.ZipFile(data, "a") as archive:
        archive.writestr("other/x.txt", "x")
    (tmp_path / "shop.zip").write_bytes(data.getvalue())
    assert not made_by_us(tmp_path / "shop.zip")


def test_a_folder_and_a_link_stay(tmp_path: Path) -> None:
    (tmp_path / "folder.zip").mkdir()
    (tmp_path / "real.zip").write_bytes(pack())
    (tmp_path / "link.zip").symlink_to(tmp_path / "real.zip")
    (tmp_path / "nowhere.zip").symlink_to(tmp_path / "missing")
    for name in ("folder.zip", "link.zip", "nowhere.zip"):
        with pytest.raises(NotOurZip):
            write_pack(pack("new"), tmp_path / name)
    assert (tmp_path / "real.zip").read_bytes() == pack()


@pytest.mark.parametrize("name", ["shop", "shop.tar", ".zip", "shop.zip.txt"])
def test_a_name_for_a_zip(tmp_path: Path, name: str) -> None:
    with pytest.raises(NotOurZip, match=r"\.zip"):
        refuse_strange(tmp_path / name)


def test_it_is_known_before_any_work_is_done(tmp_path: Path) -> None:
    refuse_strange(tmp_path / "out" / "shop.zip")
    with pytest.raises(FileNotFoundError):
        refuse_strange(tmp_path / "missing" / "too" / "shop.zip")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ["My pack (1).zip", "größe ✈.zip", "a b.ZIP", "-rf.zip", "...zip.zip"])
def test_odd_names_are_written_as_they_are(tmp_path: Path, name: str) -> None:
    write_pack(pack(), tmp_path / name)
    assert [path.name for path in tmp_path.iterdir()] == [name]


def test_a_folder_that_is_a_file(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("a file")
    with pytest.raises(OSError, match="not a folder"):
        write_pack(pack(), tmp_path / "out" / "shop.zip")


def test_a_missing_path_is_not_made_up(tmp_path: Path) -> None:
    with pytest.raises(OSError, match="missing"):
        write_pack(pack(), tmp_path / "missing" / "too" / "shop.zip")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.skipif(os.geteuid() == 0, reason="nothing is forbidden to root")
def test_an_unwritable_folder(tmp_path: Path) -> None:
    tmp_path.chmod(0o500)
    with pytest.raises(OSError, match="denied"):
        write_pack(pack(), tmp_path / "shop.zip")


def test_a_disk_that_fills_leaves_the_old_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    to = tmp_path / "shop.zip"
    write_pack(pack("old"), to)

    def full(fd: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("clampwright.files.pack.target.os.fsync", full)
    with pytest.raises(OSError, match="No space"):
        write_pack(pack("new"), to)
    assert to.read_bytes() == pack("old")
    assert [path.name for path in tmp_path.iterdir()] == ["shop.zip"]


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="no such signal here")
def test_killed_in_the_middle_leaves_the_old_one_and_the_next_one_clears_up(tmp_path: Path) -> None:
    to, new = tmp_path / "out" / "shop.zip", tmp_path / "new"
    write_pack(pack("old"), to)
    new.write_bytes(pack("new"))
    command = [sys.executable, "-c", KILLED_WHILE_WRITING, str(to), str(new)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as child:
        assert child.stdout is not None
        assert child.stdout.readline() == "half\n"
        child.kill()
    assert to.read_bytes() == pack("old")
    assert len(list(to.parent.iterdir())) == 2
    write_pack(pack("newer"), to)
    assert [path.name for path in to.parent.iterdir()] == ["shop.zip"]
    assert to.read_bytes() == pack("newer")
