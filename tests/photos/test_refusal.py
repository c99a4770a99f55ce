"""Whatever is wrong with a file, it ends in one refusal that says what and what to do."""

import io
import sys
import zipfile

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from app.photos import PhotoRefused, intake
from app.photos.intake import FILE_LIMIT

from .pictures import decoded, encoded, png, textured

WHOLE = encoded(textured((320, 240)))
BEGINNINGS = [b"", b"\xff\xd8\xff\xe0", b"\x89PNG\r\n\x1a\n", b"RIFF\x00\x01\x00\x00WEBP"]
PROGRESSIVE = encoded(textured((320, 240)), progressive=True)


def test_a_refusal_names_the_file_the_reason_and_the_remedy() -> None:
    with pytest.raises(PhotoRefused) as caught:
        intake(b"", "DSC_0001.jpg")
    assert str(caught.value) == "DSC_0001.jpg: the file is empty. Take or choose the photograph again."


def test_a_picture_of_200_megapixels_in_a_few_kilobytes_is_refused_unread() -> None:
    bomb = png(20_000, 10_000, 1, (b"\x00" + bytes(2_500)) * 10_000)
    assert len(bomb) < 100_000
    with pytest.raises(PhotoRefused, match="more than 120 million pixels"):
        intake(bomb, "bomb.png")


def test_a_picture_just_over_the_limit_is_refused_too() -> None:
    with pytest.raises(PhotoRefused, match="more than 120 million pixels"):
        intake(png(12_001, 10_000, 1, (b"\x00" + bytes(1_501)) * 10_000), "over.png")


def test_a_file_over_the_limit_is_refused() -> None:
    with pytest.raises(PhotoRefused, match="the most is 64"):
        intake(WHOLE + bytes(FILE_LIMIT), "heavy.jpg")


@pytest.mark.parametrize("whole", [WHOLE, PROGRESSIVE], ids=["baseline", "progressive"])
@pytest.mark.parametrize("share", [0.001, 0.01, 0.1, 0.3, 0.5, 0.7, 0.9, 0.99, 0.999])
def test_a_photograph_cut_short_is_refused(whole: bytes, share: float) -> None:
    with pytest.raises(PhotoRefused):
        intake(whole[: int(len(whole) * share)], "cut.jpg")


@pytest.mark.parametrize("whole", [WHOLE, PROGRESSIVE], ids=["baseline", "progressive"])
def test_a_photograph_cut_at_any_kilobyte_is_refused(whole: bytes) -> None:
    for end in range(0, len(whole) - 2, 1024):
        with pytest.raises(PhotoRefused):
            intake(whole[:end], "cut.jpg")


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_other_pictures_cut_short_are_refused(kind: str) -> None:
    whole = encoded(textured((320, 240)), kind)
    with pytest.raises(PhotoRefused):
        intake(whole[: len(whole) // 2], "cut")


def test_a_photograph_cut_in_its_pixels_is_called_damaged() -> None:
    with pytest.raises(PhotoRefused, match="damaged or incomplete"):
        intake(WHOLE[: len(WHOLE) // 2], "cut.jpg")


def test_an_archive_under_a_photograph_s_name_is_refused() -> None:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        archive.writestr("photo.jpg", WHOLE)
    with pytest.raises(PhotoRefused, match="not a photograph of a kind"):
        intake(out.getvalue(), "archive.jpg")


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_a_moving_picture_is_refused(kind: str) -> None:
    frames = [Image.new("RGB", (32, 32), colour) for colour in ("red", "blue", "green")]
    film = encoded(frames[0], kind, save_all=True, append_images=frames[1:], duration=100)
    with pytest.raises(PhotoRefused, match="moving picture"):
        intake(film, "film")


@pytest.mark.parametrize("kind", ["GIF", "TIFF", "BMP"])
def test_other_kinds_of_picture_are_refused(kind: str) -> None:
    with pytest.raises(PhotoRefused, match="Use a JPEG, PNG or WebP file"):
        intake(encoded(Image.new("RGB", (32, 32)), kind), "other")


def test_heic_without_its_reader_says_how_to_go_on(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "pillow_heif", None)
    with pytest.raises(PhotoRefused, match="Set the camera to JPEG"):
        intake(b"\x00\x00\x00\x18ftypheic" + bytes(200), "IMG_0001.HEIC")


def test_metadata_full_to_the_brim_does_no_harm() -> None:
    exif = Image.Exif()
    exif[0x010E] = "x" * 65_000
    photo = intake(encoded(textured((320, 240)), exif=exif), "brim.jpg")
    assert len(photo.jpeg) < 200_000 and not decoded(photo.jpeg).getexif()


@pytest.mark.parametrize(
    "junk", [b"", b"MM\x00*\xff\xff\xff\xff", b"II*\x00\x08\x00\x00\x00\xff\xff" * 9, b"\xff" * 400]
)
def test_damaged_metadata_leaves_the_picture(junk: bytes) -> None:
    photo = intake(encoded(textured((320, 240)), exif=b"Exif\x00\x00" + junk), "odd.jpg", keep_place=True)
    assert (photo.width, photo.taken_at, photo.place) == (320, None, None)


@given(st.binary(max_size=400), st.sampled_from(BEGINNINGS))
def test_junk_is_refused_whatever_it_begins_with(junk: bytes, start: bytes) -> None:
    with pytest.raises(PhotoRefused):
        intake(start + junk, "junk")


@given(st.data())
def test_bytes_changed_at_random_end_in_a_photograph_or_a_refusal(data: st.DataObject) -> None:
    hurt = bytearray(data.draw(st.sampled_from([WHOLE, PROGRESSIVE])))
    for place in data.draw(st.lists(st.integers(0, len(hurt) - 1), min_size=1, max_size=20)):
        hurt[place] = data.draw(st.integers(0, 255))
    try:
        photo = intake(bytes(hurt), "hurt.jpg", keep_place=True)
    except PhotoRefused as refusal:
        assert refusal.name == "hurt.jpg"
    else:
        assert decoded(photo.jpeg).size == (photo.width, photo.height)
