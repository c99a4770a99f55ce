"""Dates and places are read only when they are what the Exif standard says."""

import pytest
from PIL import Image

from app.photos.exif import chosen_exif, place_of, taken_at_of, turn_of

DATE_TIME, DATE_TIME_ORIGINAL, ORIENTATION, EXIF_IFD, GPS_IFD = 0x0132, 0x9003, 0x0112, 0x8769, 0x8825


def test_when_it_was_taken_goes_before_when_the_file_changed() -> None:
    exif = Image.Exif()
    exif[DATE_TIME] = "2051:01:01 00:00:00"
    exif.get_ifd(EXIF_IFD)[DATE_TIME_ORIGINAL] = "2050:10:12 09:30:05"
    assert taken_at_of(exif) == "2050-10-12T09:30:05"


def test_the_file_s_date_stands_in_for_a_missing_one() -> None:
    exif = Image.Exif()
    exif[DATE_TIME] = "2051:01:01 00:00:00"
    assert taken_at_of(exif) == "2051-01-01T00:00:00"


@pytest.mark.parametrize(
    "written", ["    :  :     :  :  ", "0000:00:00 00:00:00", "2050:02:30 10:00:00", "2050-10-12", "", b"\xff\xfe", 7]
)
def test_an_impossible_date_counts_as_none(written: object) -> None:
    exif = Image.Exif()
    exif.get_ifd(EXIF_IFD)[DATE_TIME_ORIGINAL] = written
    assert taken_at_of(exif) is None


def test_a_closing_nul_belongs_to_the_format() -> None:
    exif = Image.Exif()
    exif.get_ifd(EXIF_IFD)[DATE_TIME_ORIGINAL] = "2050:10:12 09:30:05\0"
    assert taken_at_of(exif) == "2050-10-12T09:30:05"


def gps(latitude: object, north: object, longitude: object, east: object) -> Image.Exif:
    exif = Image.Exif()
    exif.get_ifd(GPS_IFD).update({1: north, 2: latitude, 3: east, 4: longitude})
    return exif


def test_south_and_west_are_negative() -> None:
    place = place_of(gps((33, 30, 36.0), "S", (7, 15, 0.0), "W"))
    assert place == pytest.approx((-33.51, -7.25))


@pytest.mark.parametrize(
    ("latitude", "north", "longitude", "east"),
    [
        ((91, 0, 0), "N", (7, 0, 0), "E"),
        ((57, 0, 0), "N", (181, 0, 0), "E"),
        ((57, 0, 0), "X", (7, 0, 0), "E"),
        ((57, 0), "N", (7, 0, 0), "E"),
        ((float("nan"), 0, 0), "N", (7, 0, 0), "E"),
        (("57", "north", "0"), "N", (7, 0, 0), "E"),
        ((57, 0, 0), "N", None, None),
        (57, "N", 7, "E"),
    ],
)
def test_a_place_that_is_not_on_earth_counts_as_none(
    latitude: object, north: object, longitude: object, east: object
) -> None:
    assert place_of(gps(latitude, north, longitude, east)) is None


def test_what_is_chosen_can_be_read_back_from_bytes() -> None:
    exif = Image.Exif()
    exif.load(chosen_exif("2050-10-12T09:30:05", (-33.51, 151.2345)).tobytes())
    assert taken_at_of(exif) == "2050-10-12T09:30:05"
    assert place_of(exif) == pytest.approx((-33.51, 151.2345), abs=1e-7)


@pytest.mark.parametrize("said", [0, 9, -1, "6", None])
def test_an_orientation_outside_the_standard_turns_nothing(said: object) -> None:
    exif = Image.Exif()
    exif[ORIENTATION] = said
    assert turn_of(exif) is None
