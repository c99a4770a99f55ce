"""The day a photograph was taken is said where it comes in and on its page; it never stops one."""

import hashlib
from datetime import datetime, timedelta
from pathlib import Path

import pytest
from driver import Driver
from harbour import NOW
from PIL import Image
from table import write
from test_photographs import NOW_SEEN, to_photographs

from app.photos.exif import chosen_exif
from app.register import Register


def taken(ui: Driver, folder: Path, when: datetime | None) -> Driver:
    """Take in a picture of that day for the marks of eye A."""
    made = write(folder / "pictures", NOW_SEEN)
    text = when.replace(tzinfo=None, microsecond=0).isoformat() if when else None
    with Image.open(made) as picture:
        picture.save(made, "JPEG", exif=chosen_exif(text, None))
    to_photographs(ui, folder, None)
    ui.quiet()
    return ui


@pytest.mark.parametrize(
    ("ago", "said"),
    [
        (timedelta(days=3), "Taken 3 days before this inspection."),
        (timedelta(days=4 * 366), "Taken 4 years before this inspection."),
        (timedelta(days=-400), "Dated after this inspection: the camera's clock, or not this picture."),
    ],
)
def test_a_picture_of_another_day_is_told_of_where_it_comes_in(
    ui: Driver, tmp_path: Path, register: Register, ago: timedelta, said: str
) -> None:
    taken(ui, tmp_path, NOW - ago)
    assert ui.shows(said)
    assert len(register.drafts()[0].inspection.noted_pictures) == 1


def test_a_picture_of_the_day_says_its_day_and_no_more(ui: Driver, tmp_path: Path) -> None:
    taken(ui, tmp_path, NOW)
    assert ui.shows("Taken ")
    assert not ui.shows("before this inspection")


def test_a_picture_without_a_date_says_so(ui: Driver, tmp_path: Path) -> None:
    assert taken(ui, tmp_path, None).shows("No date in the file")


def test_its_own_page_says_when_it_was_taken(ui: Driver, tmp_path: Path) -> None:
    taken(ui, tmp_path, NOW - timedelta(days=3))
    ui.tap("Look near, measure, mark up")
    ui.quiet()
    assert ui.shows("Taken 3 days before this inspection.")


def test_the_same_file_at_a_second_place_is_told_with_the_first(ui: Driver, tmp_path: Path) -> None:
    to_photographs(ui, tmp_path)
    ui.back()
    ui.say_the_state()
    ui.read("0")
    ui.tap("Picture")
    ui.tap("Choose picture files")
    ui.tap("throat.jpg")
    ui.tap("Take in 1 picture")
    ui.quiet()
    assert ui.shows("This picture is already at: ")


def test_the_record_names_the_file_a_picture_was_made_from(ui: Driver, tmp_path: Path, register: Register) -> None:
    to_photographs(ui, tmp_path)
    (note,) = register.drafts()[0].inspection.noted_pictures
    assert note.original == hashlib.sha256((tmp_path / "pictures" / "throat.jpg").read_bytes()).hexdigest()
