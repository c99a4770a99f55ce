"""What is listed of a picture is held against its own bytes and against the record that names it."""

from collections.abc import Callable
from io import BytesIO
from typing import Any

import pytest
from PIL import Image

from app.photos import Photo, intake
from app.photos.exif import chosen_exif
from app.register import Register
from inspection_rules.pictures import PictureNote

from .making import inspection, judgement

Sql = Callable[..., list[Any]]


def pictured(register: Register, *, named: bool = True, taken: str | None = "2050-03-01T08:00:00") -> Photo:
    """Log an inspection with a picture; its note names the file that was made from, or does not."""
    data = BytesIO()
    Image.new("RGB", (40, 30), "#8f826a").save(data, "JPEG", exif=chosen_exif(taken, None))
    photo = intake(data.getvalue(), "eye.jpg")
    note = PictureNote(picture=photo.sha256, part="A", original=photo.original_sha256 if named else None)
    look = inspection("n1", 1, pictures=(photo.sha256,), noted_pictures=(note,))
    register.log_inspection(look, judgement(1), [photo])
    return photo


@pytest.mark.parametrize("named", [True, False])
@pytest.mark.parametrize("taken", ["2050-03-01T08:00:00", None])
def test_a_picture_as_it_was_taken_in_has_no_fault(register: Register, named: bool, taken: str | None) -> None:
    pictured(register, named=named, taken=taken)
    assert register.verify() == []


@pytest.mark.parametrize("day", ["'2050-03-02T08:00:00'", "NULL", "12", "x'ff'"])
def test_another_time_listed_of_a_picture_is_named(register: Register, unguarded_sql: Sql, day: str) -> None:
    pictured(register)
    unguarded_sql(f"UPDATE picture SET taken_at = {day}", file="pictures.db")
    (fault,) = register.verify()
    assert (fault.record_id, fault.kind) == ("n1", "picture")
    assert "the time it was taken" in fault.sentence


def test_another_original_listed_of_a_picture_is_named(register: Register, unguarded_sql: Sql) -> None:
    pictured(register)
    unguarded_sql("UPDATE picture SET original_sha256 = ?", "0" * 64, file="pictures.db")
    (fault,) = register.verify()
    assert (fault.record_id, fault.kind) == ("n1", "picture")
    assert "the check sum of its original file" in fault.sentence


def test_the_file_a_picture_was_made_from_is_told_by_its_hash(register: Register) -> None:
    photo = pictured(register)
    assert register.original_hash(photo.sha256) == photo.original_sha256
    assert register.original_hash("0" * 64) is None
