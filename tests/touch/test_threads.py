"""No SQL, no judgement and no picture is worked on by the window's thread: that is how taps stay quick."""

import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from driver import Driver
from PIL import Image
from sqlalchemy import event
from sqlalchemy.engine import Engine

from app.touch import services


@pytest.fixture
def sql_threads() -> Iterator[list[int]]:
    """The thread of every SQL statement from here on."""
    seen: list[int] = []

    def note(*_statement: object) -> None:
        seen.append(threading.get_ident())

    event.listen(Engine, "before_cursor_execute", note)
    try:
        yield seen
    finally:
        event.remove(Engine, "before_cursor_execute", note)


def inspect_with_a_picture(ui: Driver, folder: Path) -> None:
    Image.linear_gradient("L").convert("RGB").save(folder / "eye.jpg")
    ui.app.pictures_folder = folder
    ui.tap("All items")
    ui.tap("RS-02")
    ui.tap("Before use")
    ui.good(2)
    ui.tap("Picture")
    ui.tap("Choose picture files")
    ui.tap("eye.jpg")
    ui.tap("Take in 1 picture")
    ui.back()
    ui.good_to_the_end()
    ui.tap("Sign and log")


def test_no_sql_runs_on_the_windows_thread(
    drive: Callable[..., Driver], tmp_path: Path, sql_threads: list[int]
) -> None:
    ui = drive()
    inspect_with_a_picture(ui, tmp_path)
    assert sql_threads
    assert threading.get_ident() not in sql_threads


def test_no_picture_is_decoded_on_the_windows_thread(
    ui: Driver, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    threads: list[int] = []
    load = Image.open

    def noted(*what: object, **how: object) -> Image.Image:
        threads.append(threading.get_ident())
        return load(*what, **how)

    monkeypatch.setattr(Image, "open", noted)
    inspect_with_a_picture(ui, tmp_path)
    assert threads
    assert threading.get_ident() not in threads


def test_nothing_is_judged_on_the_windows_thread(ui: Driver, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    threads: list[int] = []
    judge = services.judge

    def noted(*what: object) -> object:
        threads.append(threading.get_ident())
        return judge(*what)

    monkeypatch.setattr(services, "judge", noted)
    inspect_with_a_picture(ui, tmp_path)
    assert threads
    assert threading.get_ident() not in threads


def test_an_answer_is_on_the_disk_before_it_is_shown(ui: Driver, monkeypatch: pytest.MonkeyPatch) -> None:
    ui.tap("All items")
    ui.tap("RS-02")
    ui.tap("Before use")
    order: list[str] = []
    save, ask = ui.app.services.register.save_draft, ui.page._ask
    monkeypatch.setattr(ui.app.services.register, "save_draft", lambda draft: (save(draft), order.append("saved")))
    monkeypatch.setattr(ui.page, "_ask", lambda: (ask(), order.append("shown")))
    ui.good()
    assert order[:2] == ["saved", "shown"]
