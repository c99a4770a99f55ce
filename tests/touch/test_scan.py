"""Scanning labels: one item is opened, several are chosen from, none is said."""

import threading
from pathlib import Path

import pytest
from driver import Driver
from harbour import BURIED, EXAMINER, NOW
from PIL import Image

from app import scanning
from app.register import Register
from app.touch.screens.item.item import ItemPage

segno = pytest.importorskip("segno", reason="segno, which makes the codes, is not installed")
pytestmark = pytest.mark.skipif(
    not scanning.reader_installed(), reason="no label reader: the extra `scan` is not installed"
)


def scan(ui: Driver, folder: Path, text: str) -> None:
    """Scan a picture of a label that says this."""
    pictures = folder / "pictures"
    pictures.mkdir(exist_ok=True)
    if text:
        segno.make(text).save(str(pictures / "label.png"), scale=8, border=4)
    else:
        Image.new("RGB", (320, 240), "grey").save(pictures / "label.png")
    ui.app.pictures_folder = pictures
    ui.tap("All items")
    ui.tap("Scan a label")
    ui.tap("Choose picture files")
    ui.tap("label.png")
    ui.tap("Take in 1 picture")
    ui.quiet()


def test_the_item_with_the_labels_tag_is_opened(ui: Driver, folder: Path) -> None:
    scan(ui, folder, "rs02")
    assert isinstance(ui.page, ItemPage)
    assert ui.shows("gangway sling")


def test_of_several_items_with_the_tag_one_is_chosen(ui: Driver, folder: Path, register: Register) -> None:
    register.add_item(BURIED.model_copy(update={"id": "other", "tag": "RS 2", "place": "locker"}), EXAMINER, NOW)
    scan(ui, folder, "RS-02")
    assert ui.shows("More than one item has this tag")
    ui.tap("RS 2")
    assert isinstance(ui.page, ItemPage)


def test_a_tag_nobody_has_is_said_and_searched_for(ui: Driver, folder: Path) -> None:
    scan(ui, folder, "RS-0")
    assert ui.shows("The label says RS-0. No item here has this tag.")
    ui.tap("Search for RS-0")
    assert [row["key"] for row in ui.page.ids.list.data] == ["rs-01", "rs-02"]


def test_a_picture_without_a_code_says_what_to_do(ui: Driver, folder: Path) -> None:
    scan(ui, folder, "")
    assert ui.shows("No code could be read on label.png.")


def test_codes_are_read_away_from_the_windows_thread(ui: Driver, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    threads = []
    read = scanning.read_codes
    monkeypatch.setattr(scanning, "read_codes", lambda image: (threads.append(threading.get_ident()), read(image))[1])
    scan(ui, folder, "RS-02")
    assert threads
    assert threading.get_ident() not in threads
