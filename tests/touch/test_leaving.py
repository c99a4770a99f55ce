"""Leaving the app at any moment: nothing that was confirmed is lost."""

import gc
import signal
import subprocess
import sys
import time
import weakref
from collections.abc import Callable
from pathlib import Path

import pytest
from driver import Driver
from harbour import NOW
from kivy.core.window import Window

from app.register import Register
from app.touch import preferences
from app.touch.application import ThroatmarkApp
from app.touch.screens.inspect.inspect import InspectPage

# The app in a process of its own, tapped by this same driver, telling each confirmed answer on its output.
TAPPING = """
import sys
from pathlib import Path
sys.path.insert(0, {tests!r})
import conftest
from driver import Driver
from harbour import NOW
from app.register import Register
from app.touch.application import ThroatmarkApp
with Register.open(Path({folder!r})) as register, Driver(ThroatmarkApp(register, now=lambda: NOW)) as ui:
{taps}
    ui.until(lambda: False, 60)
"""
LOOK = """
    ui.tap("All items")
    ui.tap("RS-01")
    ui.tap("Before use")
    for number in range(1, len(ui.page.visit.steps) + 1):
        ui.good()
        print("confirmed", number, flush=True)
"""
ROUND = """
    ui.tap("Start a round")
    ui.tap("quay yard")
    ui.tap("mate")
    ui.tap("Before a lift")
    print("begun", flush=True)
    ui.tap("RS-01")
    ui.tap("Not found")
    ui.tap("Keep: not found")
    print("not found", flush=True)
"""


def killed_after(told: int, taps: str, folder: Path) -> list[str]:
    """Run the app until it has told so many lines, kill it, and return all that it told."""
    script = TAPPING.format(tests=str(Path(__file__).parent), folder=str(folder), taps=taps)
    process = subprocess.Popen(
        [sys.executable, "-c", script], stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
    )
    try:
        lines = [line for _ in range(told) if (line := process.stdout.readline())]
    finally:
        process.send_signal(signal.SIGKILL)
        rest = process.stdout.read().splitlines()
        process.stdout.close()
        process.wait()
    assert len(lines) == told
    return [*lines, *rest]


@pytest.mark.parametrize("answers", [1, 4, 10, 11])
def test_a_killed_app_comes_back_to_the_same_station_with_every_answer(
    answers: int, folder: Path, drive: Callable[..., Driver]
) -> None:
    confirmed = len(killed_after(answers, LOOK, folder))
    ui = drive()
    ui.tap("Go on with RS-01")
    kept = len(ui.page.visit.inspection.entries)
    assert kept in (confirmed, confirmed + 1)  # one more may have been saved and not told yet
    if not ui.page.visit.complete:
        assert ui.page.visit.place[0] == kept + 1


@pytest.mark.parametrize("told", [1, 2])
def test_a_killed_app_comes_back_to_the_round_with_what_was_met_in_it(
    told: int, folder: Path, drive: Callable[..., Driver]
) -> None:
    met = len(killed_after(told, ROUND, folder)) - 1
    ui = drive()
    # One more may have been saved and not told yet.
    begun = "Go on with the round: quay yard · before a lift"
    assert any(ui.shows(f"{begun} · {one} of 1") for one in {met, min(met + 1, 1)})


def test_back_goes_one_page_back_and_keeps_the_answers(ui: Driver) -> None:
    ui.tap("All items")
    ui.tap("RS-01")
    ui.tap("Before use")
    ui.good(2)
    ui.back()
    assert ui.shows("History")
    ui.tap("Go on: before use")
    assert ui.page.corner.startswith("3 / ")


def test_back_on_the_first_page_is_left_to_the_system(ui: Driver) -> None:
    assert not Window.dispatch("on_keyboard", 27, 0, None, [])


def test_pausing_as_a_phone_does_writes_first(ui: Driver, register: Register) -> None:
    ui.tap("All items")
    ui.tap("RS-01")
    ui.tap("Before use")
    ui.page.confirm(ui.page.visit, onward=False)  # asked for, not written yet
    Window._event_filter("app_willenterbackground")
    kept = len(register.drafts())
    Window._event_filter("app_didenterforeground")
    ui.quiet()
    assert kept == 1


def test_turning_the_device_keeps_the_question(ui: Driver) -> None:
    ui.tap("All items")
    ui.tap("RS-01")
    ui.tap("Before use")
    ui.good(2)
    ui.resize(892, 412)
    assert ui.shows("Lay the two legs together: are the marks level?")
    ui.good()
    assert ui.page.corner.startswith("4 / ")


def test_a_full_disk_says_what_was_kept_and_stays_on_the_question(ui: Driver, register: Register) -> None:
    ui.tap("All items")
    ui.tap("RS-01")
    ui.tap("Before use")
    ui.good()
    with register._engine.connect() as connection:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar()
    from sqlalchemy import event

    @event.listens_for(register._engine, "begin")
    def limit(connection: object) -> None:
        connection.exec_driver_sql(f"PRAGMA max_page_count = {pages}")

    ui.page.visit = ui.page.visit.__class__(
        **{
            **{name: getattr(ui.page.visit, name) for name in ui.page.visit.__slots__},
            "photos": tuple(f"{number:064x}" for number in range(4000)),
        }
    )
    ui.tap("Sound all round")
    assert ui.shows("disk is full")
    assert ui.shows("Everything the screen has confirmed before is kept")
    ui.tap("Go back")
    assert ui.page.corner.startswith("2 / ")


def test_cautions_are_shown_at_the_first_start_and_then_who_inspects(tmp_path: Path) -> None:
    with (
        Register.create(tmp_path / "new", "test device") as register,
        Driver(ThroatmarkApp(register, now=lambda: NOW)) as ui,
    ):
        assert ui.shows("does not replace the maker's instructions")
        ui.tap("I have read this")
        assert ui.shows("Who is inspecting?")
    assert preferences.read(tmp_path / "new").cautions_seen == preferences.CAUTIONS


def test_cautions_that_were_read_are_not_shown_again(ui: Driver) -> None:
    assert not ui.shows("I have read this")


def test_the_theme_is_there_again_at_the_next_start(drive: Callable[..., Driver], folder: Path) -> None:
    ui = drive()
    ui.tap("Settings")
    ui.tap("Night")
    assert preferences.read(folder).theme == "night"


def test_an_error_is_told_once_and_never_as_a_traceback(ui: Driver) -> None:
    ui.app.shows_errors = True
    for _ in range(3):
        ui.app.failed(ZeroDivisionError("division by zero"))
    ui.quiet()
    assert ui.shows("a fault of its own (ZeroDivisionError)")
    ui.tap("Go back")
    assert ui.shows("Today")


def test_a_page_that_was_left_is_forgotten(ui: Driver) -> None:
    ui.tap("All items")
    ui.tap("RS-01")
    ui.tap("Before use")
    ui.good(2)
    left = weakref.ref(ui.page)
    rope = weakref.ref(ui.page.rope)
    for _ in range(3):
        ui.back()
    for _ in range(2):  # Kivy keeps the last touches, and what they touched, to tell double taps
        time.sleep(0.5)
        ui.tap("Settings")
        ui.back()
    gc.collect()
    assert left() is None
    assert rope() is None


def test_the_second_touch_of_a_double_tap_does_nothing_on_the_page_that_has_just_come(ui: Driver) -> None:
    ui.tap("All items")
    ui.tap("RS-01")
    ui.app.stack.rests = True
    ui.app.stack._until = 0.0
    first = ui.button("Before use")
    place = first.to_window(*first.center)
    ui.touch(place)
    ui.quiet()
    assert isinstance(ui.page, InspectPage)
    ui.touch(place)  # a glove bounces
    ui.quiet()
    assert not ui.page.visit.inspection.entries, "the bounce answered a question nobody has read"


def test_the_second_touch_of_a_double_tap_begins_no_second_inspection(ui: Driver) -> None:
    ui.tap("All items")
    ui.tap("RS-01")
    depth = ui.app.stack.depth
    for _ in range(2):
        ui.button("Before use").trigger_action(0)
    ui.frames(2)
    ui.quiet()
    assert ui.app.stack.depth == depth + 1
