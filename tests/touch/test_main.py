"""Starting the app for real: the main loop, a real X server, and machines that have no window."""

import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from app.register import Register
from app.touch import WindowUnavailable
from app.touch.window import check_window, prepare_environment


def environment(**more: str) -> dict[str, str]:
    kept = {name: value for name, value in os.environ.items() if not name.startswith("KIVY_")}
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "SDL_VIDEODRIVER"):
        kept.pop(name, None)
    return {**kept, **more}


def test_importing_the_package_loads_no_kivy() -> None:
    code = "import sys, app.touch, app.touch.main; print('kivy' in sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "False"


def test_the_main_loop_starts_and_is_left(folder: Path) -> None:
    code = f"""
from pathlib import Path
from app.touch import main
def configured(configure=main._configure):
    configure()
    from kivy.clock import Clock
    from kivy.app import App
    Clock.schedule_once(lambda dt: App.get_running_app().stop(), 0.5)
main._configure = configured
main.run(Path({str(folder)!r}))
print("left")
"""
    done = subprocess.run(
        [sys.executable, "-c", code, "--register", "x"],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
        env=environment(SDL_VIDEODRIVER="offscreen"),
    )
    assert (done.returncode, done.stdout.strip().splitlines()[-1:]) == (0, ["left"]), done.stderr
    assert "Traceback" not in done.stderr


def test_without_a_screen_one_line_says_so() -> None:
    with pytest.raises(WindowUnavailable, match="no screen here"):
        check_window({}, "linux")


def test_a_missing_library_is_named_by_its_debian_package(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("app.touch.window._loads", lambda library: library != "libmtdev.so.1")
    with pytest.raises(WindowUnavailable, match=r"apt-get install libmtdev1$"):
        check_window({"DISPLAY": ":0"}, "linux")


def test_a_screen_with_its_libraries_is_enough() -> None:
    check_window({"SDL_VIDEODRIVER": "offscreen"}, "linux")


def test_kivys_own_files_stay_in_our_folder(tmp_path: Path) -> None:
    kept: dict[str, str] = {}
    prepare_environment(tmp_path / "window", kept)
    assert kept["KIVY_HOME"] == str(tmp_path / "window")
    assert kept["KIVY_NO_ARGS"] == "1"


def test_a_folder_that_cannot_be_made_is_named(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(WindowUnavailable, match="file/window"):
        prepare_environment(tmp_path / "file" / "window", {})


@pytest.fixture
def x_server(program: Callable[[str], str]) -> Iterator[str]:
    """A real X server; its display."""
    reader, writer = os.pipe()
    server = subprocess.Popen(
        [program("Xvfb"), "-displayfd", str(writer), "-screen", "0", "500x950x24", "-nolisten", "tcp"],
        pass_fds=[writer],
        stderr=subprocess.DEVNULL,
    )
    os.close(writer)
    try:
        with os.fdopen(reader) as told:
            yield f":{told.readline().strip()}"
    finally:
        server.terminate()
        server.wait()


@pytest.mark.display
def test_a_real_pointer_and_keyboard_work_the_app(
    x_server: str, folder: Path, program: Callable[[str], str], tmp_path: Path
) -> None:
    """Through SDL, the mouse provider and the real main loop: to the list, an item, an inspection, an answer."""
    xdotool = program("xdotool")
    env = environment(DISPLAY=x_server)
    log = (tmp_path / "log").open("w")
    process = subprocess.Popen(
        [sys.executable, "-c", f"from pathlib import Path; from app.touch.main import run; run(Path({str(folder)!r}))"],
        env=env,
        stderr=log,
        stdout=log,
    )

    def do(*command: str) -> str:
        return subprocess.run([xdotool, *command], env=env, capture_output=True, text=True, check=False).stdout

    try:
        window = until(lambda: do("search", "--class", "python").split()[:1])[0]
        kept = None
        for pause in (1.2, 2.5, 5):  # nothing outside the window tells how far a slow machine has come
            time.sleep(pause)
            do("windowfocus", window)
            for x, y in ((200, 760), (200, 280), (200, 850), (270, 430)):  # all items, RS-01, before use, readable
                do("mousemove", "--window", window, str(x), str(y))
                time.sleep(0.2)
                do("click", "1")
                time.sleep(pause)
            if kept := drafts(folder):
                break
            do("key", "--window", window, "--delay", "1000", *["Escape"] * 3)  # to the first page; it stays there
    finally:
        process.terminate()
        process.wait()
        log.close()
    assert kept and kept[0].inspection.item == "rs-01", (tmp_path / "log").read_text()


def drafts(folder: Path) -> list:
    with Register.open(folder) as register:
        return register.drafts()


def until(condition: Callable[[], object], timeout: float = 60) -> object:
    deadline = time.monotonic() + timeout
    while not (value := condition()):
        assert time.monotonic() < deadline, "not true in time"
        time.sleep(0.1)
    return value
