"""Every ability gives a value or a reason: no exception, no noise, on this real machine."""

import subprocess
import sys
import threading
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from app.device import Cancelled, Unavailable, this_device
from app.device.borrowed import borrow

LINUX = pytest.mark.skipif(not sys.platform.startswith("linux"), reason="a Linux desktop")


@pytest.fixture
def bare(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """A person's home on a machine with no screen, no session and no helper programs."""
    for name in ("ANDROID_ARGUMENT", "ANDROID_PRIVATE", "DISPLAY", "WAYLAND_DISPLAY", "XDG_DATA_HOME"):
        monkeypatch.delenv(name, raising=False)
    for name in ("DBUS_SESSION_BUS_ADDRESS", "XDG_RUNTIME_DIR"):
        monkeypatch.delenv(name, raising=False)
    (tmp_path / "programs").mkdir()
    monkeypatch.setenv("PATH", str(tmp_path / "programs"))
    monkeypatch.setenv("HOME", str(tmp_path / "home"))
    (tmp_path / "home").mkdir()
    return tmp_path


def never(_answer: object) -> None:
    pytest.fail("an unavailable ability must not answer later")


@LINUX
def test_a_bare_machine_says_for_every_ability_why_not(bare: Path) -> None:
    device = this_device()
    answers = [
        device.take_picture(never),
        device.choose_files("Photograph", ["jpg"], never),
        device.position(),
        device.notify("Due", "two items are due"),
        device.buzz(),
    ]
    assert all(isinstance(answer, Unavailable) and answer.reason.endswith(".") for answer in answers)


@LINUX
def test_asking_for_everything_is_silent(bare: Path) -> None:
    code = """
from app.device import this_device
device = this_device()
device.take_picture(print), device.choose_files("Photograph", ["jpg"], print), device.position()
device.notify("Due", "two items are due"), device.buzz(), device.device_id()
from app.device.borrowed import borrow
borrow("vibrator", "vibrate", time=0.1), borrow("filechooser", "open_file"), borrow("notification", "notify")
"""
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert (run.stdout, run.stderr) == ("", "")


def test_the_libraries_load_with_the_first_use_only() -> None:
    code = "import sys, app.device; app.device.this_device(); print('plyer' in sys.modules, 'jnius' in sys.modules)"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout.split() == ["False", "False"]


def test_an_ability_plyer_lacks_here_is_unavailable() -> None:
    answer = borrow("no_such_ability", "use")
    assert isinstance(answer, Unavailable) and "no_such_ability" in answer.reason


def test_android_without_its_libraries_gives_reasons_too(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("ANDROID_ARGUMENT", "/data/app")
    monkeypatch.setenv("ANDROID_PRIVATE", str(tmp_path))
    device = this_device()
    (tmp_path / "report.pdf").write_bytes(b"pages")
    answers = [
        device.take_picture(never),
        device.choose_files("Photograph", ["jpg"], never),
        device.position(),
        device.share(tmp_path / "report.pdf"),
        device.notify("Due", "two items are due"),
        device.buzz(),
    ]
    assert all(isinstance(answer, Unavailable) for answer in answers)
    assert device.data_folder() == tmp_path / "throatmark"


class Chosen:
    """Waits for the answer that a chooser gives from its own thread."""

    def __init__(self) -> None:
        self.answers: list[object] = []
        self.came = threading.Event()

    def __call__(self, answer: object) -> None:
        self.answers.append(answer)
        self.came.set()

    def wait(self) -> list[object]:
        assert self.came.wait(10)
        time.sleep(0.05)  # a second answer would come now
        return self.answers


@pytest.fixture
def chooser(bare: Path, monkeypatch: pytest.MonkeyPatch) -> Callable[[str], None]:
    """Install a `zenity` that does what the given shell line says instead of opening a window."""

    def install(line: str) -> None:
        monkeypatch.setenv("DISPLAY", ":99")
        program = bare / "programs" / "zenity"
        program.write_text(f"#!/bin/sh\n{line}\n")
        program.chmod(0o755)

    return install


@LINUX
def test_chosen_files_come_back_as_paths(bare: Path, chooser: Callable[[str], None]) -> None:
    for name in ("throat.jpg", "tag plate.jpg"):
        (bare / name).write_bytes(b"x")
    chooser(f"echo '{bare}/throat.jpg|{bare}/tag plate.jpg'")
    chosen = Chosen()
    assert this_device().choose_files("Photograph", ["jpg"], chosen) is None
    assert chosen.wait() == [[bare / "throat.jpg", bare / "tag plate.jpg"]]


@LINUX
def test_the_chooser_is_asked_for_the_endings_in_both_cases(bare: Path, chooser: Callable[[str], None]) -> None:
    chooser(f'echo "$@" > {bare}/asked; exit 1')
    chosen = Chosen()
    this_device().choose_files("Photograph", ["jpg", "png"], chosen)
    chosen.wait()
    assert "*.jpg *.JPG *.png *.PNG" in (bare / "asked").read_text()


@LINUX
def test_leaving_the_chooser_is_said(chooser: Callable[[str], None]) -> None:
    chooser("exit 1")
    chosen = Chosen()
    this_device().choose_files("Photograph", ["jpg"], chosen)
    assert chosen.wait() == [Cancelled()]


@LINUX
def test_a_name_that_the_chooser_breaks_is_not_passed_on(chooser: Callable[[str], None]) -> None:
    chooser("echo '/nowhere/before|after.jpg'")
    chosen = Chosen()
    this_device().choose_files("Photograph", ["jpg"], chosen)
    (answer,) = chosen.wait()
    assert isinstance(answer, Unavailable) and "/nowhere/before" in answer.reason


@LINUX
def test_a_notification_reaches_the_session(bare: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    pytest.importorskip("plyer")
    if "dbus" in sys.modules:
        pytest.skip("plyer prefers the D-Bus library, which would speak to a real session")
    monkeypatch.setitem(sys.modules, "dbus", None)
    monkeypatch.setenv("DBUS_SESSION_BUS_ADDRESS", "unix:path=/nowhere")
    program = bare / "programs" / "notify-send"
    program.write_text(f'#!/bin/sh\necho "$1|$2" > {bare}/notified\n')
    program.chmod(0o755)
    assert this_device().notify("Due", "two items are due") is None
    assert (bare / "notified").read_text() == "Due|two items are due\n"


@LINUX
def test_sharing_never_replaces_what_lies_there(bare: Path) -> None:
    (bare / "home" / "Downloads").mkdir()
    (bare / "home" / "Downloads" / "report.pdf").write_bytes(b"old")
    (bare / "report.pdf").write_bytes(b"new")
    assert this_device().share(bare / "report.pdf") == str(bare / "home" / "Downloads" / "report (2).pdf")
    assert (bare / "home" / "Downloads" / "report.pdf").read_bytes() == b"old"
    assert (bare / "home" / "Downloads" / "report (2).pdf").read_bytes() == b"new"


@LINUX
def test_sharing_without_downloads_goes_home(bare: Path) -> None:
    (bare / "report.pdf").write_bytes(b"new")
    assert this_device().share(bare / "report.pdf") == str(bare / "home" / "report.pdf")


@LINUX
def test_sharing_a_missing_file_leaves_nothing_behind(bare: Path) -> None:
    answer = this_device().share(bare / "gone.pdf")
    assert isinstance(answer, Unavailable) and "gone.pdf" in answer.reason
    assert list((bare / "home").iterdir()) == []
