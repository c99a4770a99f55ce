"""The data folder is where each platform wants it, and the device's id is made once."""

import multiprocessing
import os
import uuid
from pathlib import Path

import pytest

from app.device import Unavailable
from app.device.folders import data_folder, device_id


@pytest.mark.parametrize(
    ("platform", "environment", "expected"),
    [
        ("linux", {}, "home/.local/share/throatmark"),
        ("linux", {"XDG_DATA_HOME": "{}/data"}, "data/throatmark"),
        ("linux", {"XDG_DATA_HOME": "relative/data"}, "home/.local/share/throatmark"),
        ("linux", {"XDG_DATA_HOME": ""}, "home/.local/share/throatmark"),
        ("darwin", {}, "home/Library/Application Support/throatmark"),
        ("win32", {"APPDATA": "{}/roaming"}, "roaming/throatmark"),
        ("linux", {"ANDROID_PRIVATE": "{}/files"}, "files/throatmark"),
    ],
)
def test_the_data_folder_lies_where_the_platform_keeps_data(
    tmp_path: Path, platform: str, environment: dict[str, str], expected: str
) -> None:
    given = {name: value.format(tmp_path) for name, value in environment.items()}
    folder = data_folder({"HOME": str(tmp_path / "home"), **given}, platform)
    assert folder == tmp_path / expected
    assert (tmp_path / expected).is_dir()


@pytest.mark.skipif(os.name != "posix", reason="rights of POSIX")
def test_the_data_folder_is_this_person_s_alone(tmp_path: Path) -> None:
    folder = data_folder({"HOME": str(tmp_path)}, "linux")
    assert isinstance(folder, Path) and folder.stat().st_mode & 0o777 == 0o700


def test_a_file_in_the_way_is_named(tmp_path: Path) -> None:
    (tmp_path / "throatmark").write_text("not a folder")
    answer = data_folder({"XDG_DATA_HOME": str(tmp_path)}, "linux")
    assert isinstance(answer, Unavailable) and str(tmp_path / "throatmark") in answer.reason


def test_the_id_stays_the_same(tmp_path: Path) -> None:
    first = device_id(tmp_path)
    assert isinstance(first, str) and uuid.UUID(first).version == 4
    assert device_id(tmp_path) == first


def test_two_devices_differ(tmp_path: Path) -> None:
    (tmp_path / "one").mkdir()
    (tmp_path / "two").mkdir()
    assert device_id(tmp_path / "one") != device_id(tmp_path / "two")


def test_making_the_id_leaves_only_the_id(tmp_path: Path) -> None:
    device_id(tmp_path)
    assert [file.name for file in tmp_path.iterdir()] == ["device-id"]


def test_two_processes_at_first_start_agree(tmp_path: Path) -> None:
    with multiprocessing.get_context("spawn").Pool(2) as pool:
        answers = pool.map(device_id, [tmp_path] * 16, chunksize=1)
    assert len(set(answers)) == 1


@pytest.mark.parametrize("content", [b"", b"not an id", b"\xff\xfe"])
def test_a_damaged_id_is_never_replaced_silently(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "device-id").write_bytes(content)
    answer = device_id(tmp_path)
    assert isinstance(answer, Unavailable) and str(tmp_path / "device-id") in answer.reason
    assert (tmp_path / "device-id").read_bytes() == content


def test_without_hard_links_the_id_is_kept_all_the_same(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refused(*_: object) -> None:
        raise PermissionError("no hard links here")

    monkeypatch.setattr(os, "link", refused)
    assert device_id(tmp_path) == device_id(tmp_path)
    assert [file.name for file in tmp_path.iterdir()] == ["device-id"]


def test_a_folder_that_is_gone_is_said(tmp_path: Path) -> None:
    answer = device_id(tmp_path / "gone")
    assert isinstance(answer, Unavailable) and "gone" in answer.reason
