"""Reading labels' codes from pictures."""

from io import BytesIO

import pytest
from PIL import Image, ImageFilter

from app import scanning
from app.photos import PhotoRefused

segno = pytest.importorskip("segno", reason="segno, which makes the codes, is not installed")
reader = pytest.mark.skipif(not scanning.reader_installed(), reason="no label reader: install the extra `scan`")


def label(text: str, scale: int = 8) -> Image.Image:
    """A QR code on a grey photograph of some size."""
    out = BytesIO()
    segno.make(text, error="m").save(out, kind="png", scale=scale, border=4)
    code = Image.open(out).convert("RGB")
    photo = Image.new("RGB", (1600, 1200), (150, 150, 140))
    photo.paste(code, (500, 300))
    return photo


@reader
@pytest.mark.parametrize("text", ["ML-04", "0199d2c4-7f00-7000-8000-0123456789ab", "Âncora 2"])
def test_a_code_is_read(text: str) -> None:
    assert scanning.read_codes(label(text)) == (text,)


@reader
@pytest.mark.parametrize("angle", [17, 45, 90, 135, 180, 270])
def test_a_turned_code_is_read(angle: int) -> None:
    turned = label("ML-04").rotate(angle, resample=Image.Resampling.BICUBIC, expand=True, fillcolor=(150, 150, 140))
    assert scanning.read_codes(turned) == ("ML-04",)


@reader
def test_a_blurred_code_is_read_and_a_ruined_one_gives_nothing() -> None:
    assert scanning.read_codes(label("ML-04").filter(ImageFilter.GaussianBlur(3))) == ("ML-04",)
    assert scanning.read_codes(label("ML-04").filter(ImageFilter.GaussianBlur(30))) == ()


@reader
def test_several_codes_are_all_read_from_top_to_bottom() -> None:
    photo = Image.new("RGB", (1600, 2400), (150, 150, 140))
    photo.paste(label("lower"), (0, 1200))
    photo.paste(label("upper"), (0, 0))
    assert scanning.read_codes(photo) == ("upper", "lower")


@reader
def test_a_picture_without_a_code_gives_nothing() -> None:
    assert scanning.read_codes(Image.new("RGB", (64, 64))) == ()


@reader
def test_a_file_is_read_as_a_photograph_is() -> None:
    out = BytesIO()
    label("ML-04").save(out, "JPEG", quality=80)
    assert scanning.read_file(out.getvalue(), "label.jpg") == ("ML-04",)


def test_a_file_that_is_no_picture_says_so() -> None:
    with pytest.raises(PhotoRefused, match=r"label\.jpg"):
        scanning.read_file(b"no picture", "label.jpg")


def test_without_a_reader_it_says_what_to_do(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(scanning, "find_spec", lambda _name: None)
    with pytest.raises(scanning.ScanRefused, match="Type the tag instead"):
        scanning.read_codes(Image.new("RGB", (64, 64)))
