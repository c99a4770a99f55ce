"""`throatmark photo-length`: the worked camera through a real file and the command line."""

import json
from pathlib import Path

import pytest
from PIL import Image

from app.command import main
from app.photos.exif import EXIF_IFD, FOCAL_35
from app.photos.length import photo_of

# The project's reference geometry, computed independently with OpenCV 5.0: f 3000 px, 4000 × 3000 pixels.
CARD = ["1485.714,1328.571", "2211.744,1438.359", "2159.793,1842.049", "1480.811,1728.061"]
PATH = ["2326.40,1536.58", "2537.24,1569.15"]
# 3000 px over the diagonal of 5000 px, of a frame whose diagonal is 43.267 mm.
FOCAL = 26


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    return saved(tmp_path / "rope.jpg", (4000, 3000))


def saved(file: Path, size: tuple[int, int], orientation: int = 1, focal: int = FOCAL) -> Path:
    exif = Image.Exif()
    exif[0x0112] = orientation
    exif.get_ifd(EXIF_IFD)[FOCAL_35] = focal
    Image.new("L", size, 128).save(file, exif=exif)
    return file


def call(*arguments: object) -> int:
    try:
        return main(["photo-length", *map(str, arguments)])
    except SystemExit as ended:
        return int(ended.code or 0)


def measured(capsys: pytest.CaptureFixture[str], *arguments: object) -> dict[str, object]:
    assert call(*arguments, "--json") == 0
    return json.loads(capsys.readouterr().out)


def test_worked_length_is_printed_with_its_doubt(picture: Path, capsys: pytest.CaptureFixture[str]) -> None:
    found = measured(capsys, picture, "--card", *CARD, "--path", *PATH, "--rope-mm", 0)
    assert found["length_mm"] == pytest.approx(24.0, abs=0.002)
    # ± 0.257 mm by Monte Carlo for 1 px on every coordinate; here the card's corners are good to half a pixel.
    assert 0.1 < found["u_mm"] < 0.257
    assert found["good_to_mm"] == pytest.approx(1.645 * found["u_mm"], abs=0.2)
    assert set(found) == {"length_mm", "u_mm", "good_to_mm", "reading", "warnings"}


def test_the_doubt_is_printed_as_the_window_shows_it(picture: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """With u as it is recorded, up to the next tenth: 0.25 mm stands as 0.3, and 1.645 × 0.3 is 0.49."""
    found = measured(capsys, picture, "--card", *CARD, "--path", *PATH, "--rope-mm", 24)
    assert 0.2 < float(str(found["u_mm"])) < 0.3
    assert call(picture, "--card", *CARD, "--path", *PATH, "--rope-mm", 24) == 0
    assert "good to ± 0.5 mm (1.645 u; standard uncertainty u 0.3 mm)" in capsys.readouterr().out


def test_it_says_that_the_corners_are_taken_as_given(picture: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert call(picture, "--card", *CARD, "--path", *PATH, "--rope-mm", 24) == 0
    assert "corners are taken as given, each good to 0.5 pixel: its edges are not looked for" in capsys.readouterr().out


def test_without_a_diameter_it_is_the_length_on_the_cards_plane_and_says_that_a_rope_reads_long(
    picture: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    flat = measured(capsys, picture, "--card", *CARD, "--path", *PATH, "--rope-mm", 0)
    found = measured(capsys, picture, "--card", *CARD, "--path", *PATH)
    assert (found["length_mm"], found["u_mm"]) == (flat["length_mm"], flat["u_mm"])
    assert flat["warnings"] == []
    assert "A rope that lies on it is nearer to the camera and reads long" in str(found["warnings"])


def test_a_rope_at_an_unknown_distance_is_told_with_the_doubt_of_it(
    tmp_path: Path, picture: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    blind = saved(tmp_path / "blind.jpg", (4000, 3000), focal=0)
    known = measured(capsys, picture, "--card", *CARD, "--path", *PATH, "--rope-mm", 24)
    found = measured(capsys, blind, "--card", *CARD, "--path", *PATH, "--rope-mm", 24)
    assert found["u_mm"] > 3 * float(str(known["u_mm"]))
    assert "Give the distance" in str(found["warnings"])


def test_a_length_that_nobody_can_know_well_enough_is_called_no_reading(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    blind = saved(tmp_path / "blind.jpg", (4000, 3000), focal=0)
    found = measured(capsys, blind, "--card", *CARD, "--path", *PATH, "--rope-mm", 80)
    assert found["reading"] is False
    assert "keep it in the picture only" in str(found["warnings"])


def test_corrected_length_carries_no_warning(picture: Path, capsys: pytest.CaptureFixture[str]) -> None:
    found = measured(capsys, picture, "--card", *CARD, "--path", *PATH, "--camera-mm", 350, "--rope-mm", 24)
    assert found["length_mm"] == pytest.approx(24.0 * (350 - 24) / 350, abs=0.002)
    assert found["warnings"] == []


def test_a_bent_path_is_the_sum_of_its_pieces(picture: Path, capsys: pytest.CaptureFixture[str]) -> None:
    there = measured(capsys, picture, "--card", *CARD, "--path", *PATH, "--rope-mm", 0)["length_mm"]
    there_and_back = measured(capsys, picture, "--card", *CARD, "--path", *PATH, PATH[0], "--rope-mm", 0)["length_mm"]
    assert there_and_back == pytest.approx(2 * float(str(there)), abs=0.002)


@pytest.mark.parametrize("size", ["85.60x53.98", "8.56x5.398cm", "3.37008x2.12520in", "85.60×53.98mm"])
def test_a_cards_size_may_be_given_in_any_unit(picture: Path, capsys: pytest.CaptureFixture[str], size: str) -> None:
    found = measured(capsys, picture, "--card", *CARD, "--card-size", size, "--path", *PATH, "--rope-mm", 0)
    assert found["length_mm"] == pytest.approx(24.0, abs=0.003)


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["--card", *CARD, "--path", PATH[0]], "the path has no length"),
        (["--card", *CARD, "--path", PATH[0], "4001,10"], "lies outside the picture, which is 4000 × 3000"),
        (["--card", "0,0", "90,0", "90,60", "0,60", "--path", *PATH], "the card is only 90 pixels long"),
        (["--card", *CARD, "--card-size", "100x100", "--path", *PATH], "the card's own sides disagree"),
        (["--card", CARD[0], CARD[2], CARD[1], CARD[3], "--path", *PATH], "the corners do not go round"),
        (
            ["--card", *CARD, "--path", *PATH, "--camera-mm", "300", "--rope-mm", "160"],
            "nearer than two rope diameters",
        ),
        (["--card", *CARD, "--path", *PATH, "--rope-mm", "24", "--camera-mm", "700"], "given as 700 mm"),
        (["--card", *CARD, "--path", *PATH, "--rope-mm", "-1"], "no length in mm above zero"),
        (["--card", *CARD, "--card-size", "85.6", "--path", *PATH], "a size is written WxH"),
        (["--card", *CARD, "--path", *PATH, "nan,nan"], "a point is written x,y"),
    ],
)
def test_what_cannot_be_measured_is_refused_with_the_reason(
    picture: Path, capsys: pytest.CaptureFixture[str], arguments: list[str], said: str
) -> None:
    assert call(picture, *arguments) == 2
    caught = capsys.readouterr()
    assert said in caught.err
    assert not caught.out


@pytest.mark.parametrize("what", ["text", "missing", "folder", "cut"])
def test_a_file_that_is_no_photograph_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str], what: str) -> None:
    file = tmp_path / "rope.jpg"
    if what == "text":
        file.write_text("no picture")
    elif what == "folder":
        file.mkdir()
    elif what == "cut":
        file.write_bytes(saved(tmp_path / "whole.jpg", (400, 300)).read_bytes()[:30])
    assert call(file, "--card", *CARD, "--path", *PATH) == 2
    assert str(file) in capsys.readouterr().err


@pytest.mark.parametrize(
    ("orientation", "upright"), [(1, (400, 300)), (3, (400, 300)), (6, (300, 400)), (8, (300, 400))]
)
def test_points_are_those_of_the_upright_picture(tmp_path: Path, orientation: int, upright: tuple[int, int]) -> None:
    photo = photo_of(saved(tmp_path / "turned.jpg", (400, 300), orientation))
    assert (photo.width, photo.height) == upright


def test_the_focal_length_is_read_from_the_35_mm_equivalent(picture: Path) -> None:
    # CIPA DCG-001 (from memory): by the diagonals. 26 / 43.267 × 5000 = 3004.6 px.
    assert photo_of(picture).focal_px == pytest.approx(3004.6, abs=0.1)


def test_an_unknown_focal_length_is_none(tmp_path: Path) -> None:
    assert photo_of(saved(tmp_path / "unknown.jpg", (400, 300), focal=0)).focal_px is None
