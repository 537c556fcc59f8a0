"""The zip itself: what Python's own zipfile finds in it, and that nothing of the day or place is in it."""

from __future__ import annotations

import io
import json
import zipfile
import zlib

import pytest

from clampwright.files.manifest import manifest_of
from clampwright.files.pack.placed_file import PlacedFile, as_listed
from clampwright.files.pack.zipped import zipped
from clampwright.files.safe_names import UnsafeName
from clampwright.files.written import Written

FILES = [Written("READ-ME-FIRST.txt", b"read", ""), Written("lists/order-list.csv", b"a,b\r\n" * 99, "")]


def test_content_order_and_permissions() -> None:
    archive = zipfile.ZipFile(io.BytesIO(zipped("bay", FILES)))
    assert archive.testzip() is None
    infos = archive.infolist()
    assert [info.filename for info in infos] == ["bay/READ-ME-FIRST.txt", "bay/lists/order-list.csv"]
    assert [archive.read(info) for info in infos] == [file.data for file in FILES]
    for info in infos:
        assert info.date_time == (1980, 1, 1, 0, 0, 0)
        assert (info.create_system, info.external_attr >> 16) == (3, 0o100644)
        assert info.compress_type == zipfile.ZIP_DEFLATED
        assert (info.extra, info.comment) == (b"", b"")


def test_the_same_bytes_at_any_time(monkeypatch: pytest.MonkeyPatch) -> None:
    before = zipped("bay", FILES)
    monkeypatch.setattr("time.time", lambda: 2_000_000_000.0)
    monkeypatch.setenv("TZ", "Pacific/Auckland")
    assert zipped("bay", FILES) == before


@pytest.mark.parametrize(
    "name",
    ["../out.txt", "/etc/passwd", "lists/../../x", "a\\b", "lists//x", "", "C:x", "lists/.hidden", "x."],
)
def test_no_name_leads_out(name: str) -> None:
    with pytest.raises(UnsafeName):
        zipped("bay", [Written(name, b"", "")])
    with pytest.raises(UnsafeName):
        as_listed([PlacedFile("", Written(name, b"", ""))])


def test_no_top_leads_out() -> None:
    with pytest.raises(UnsafeName):
        zipped("..", FILES)


def test_two_files_of_one_path_are_refused_whatever_their_capitals() -> None:
    files = [PlacedFile("step", Written(name, b"", "")) for name in ("T1.step", "t1.STEP")]
    with pytest.raises(ValueError, match="packed twice"):
        as_listed(files)
    assert len(as_listed([files[0], PlacedFile("cutting", files[1].file)])) == 2


def test_the_manifest_names_the_zlib_that_packed_it() -> None:
    """The library that is loaded, not the one that Python was built with."""
    said = json.loads(manifest_of({}, FILES).data)["versions"]
    assert said["zlib"] == zlib.ZLIB_RUNTIME_VERSION
    assert {"clampwright", "reportlab", "ezdxf"} <= set(said)


def test_deflating_pays() -> None:
    """Text of the kind that STEP and DXF are: to less than a fifth."""
    text = "".join(f"#{n} = CARTESIAN_POINT('',({n}.,0.,0.));\n" for n in range(2000)).encode()
    assert len(zipped("bay", [Written("step/a.step", text, "")])) < len(text) / 5
