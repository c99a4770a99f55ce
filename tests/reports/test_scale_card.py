"""The scale card comes out of the PDF at its true size, and its edges are found in a picture of it."""

import shutil
import subprocess
from datetime import date
from pathlib import Path

import pytest
from PIL import Image, ImageChops

from app.photos.edges import fit_card
from app.reports import ReportError
from app.reports.scale_card import HEIGHT_MM, WIDTH_MM, scale_card

PX_PER_MM = 10
DPI = 25.4 * PX_PER_MM
ON = date(2050, 10, 12)


@pytest.fixture(scope="module")
def page(tmp_path_factory: pytest.TempPathFactory) -> Image.Image:
    if shutil.which("pdftoppm") is None:
        pytest.skip("pdftoppm (poppler-utils) is not installed")
    folder = tmp_path_factory.mktemp("card")
    pdf = scale_card(folder / "card.pdf", ON)
    subprocess.run(["pdftoppm", "-r", str(DPI), "-png", "-singlefile", pdf, folder / "card"], check=True)
    return Image.open(folder / "card.png").convert("L")


def frame(page: Image.Image) -> tuple[int, int, int, int]:
    """The outer edges of the frame: the first and last black along the rows and columns through its middle."""
    black = ImageChops.invert(page).point(lambda level: 255 if level > 200 else 0)
    across = black.crop((0, page.height // 2, page.width, page.height // 2 + 1)).getbbox()
    # The frame stands in the middle of the page from side to side, 34 mm below its upper edge.
    middle = page.width // 2 - 15 * PX_PER_MM
    down = black.crop((middle, 25 * PX_PER_MM, middle + 1, 165 * PX_PER_MM)).getbbox()
    return across[0], down[1] + 25 * PX_PER_MM, across[2], down[3] + 25 * PX_PER_MM


def test_the_frame_is_printed_at_its_true_size(page: Image.Image) -> None:
    left, top, right, bottom = frame(page)
    assert (right - left) / PX_PER_MM == pytest.approx(WIDTH_MM, abs=0.15)
    assert (bottom - top) / PX_PER_MM == pytest.approx(HEIGHT_MM, abs=0.15)


def test_its_edges_are_found_from_rough_taps_to_a_tenth_of_a_millimetre(page: Image.Image) -> None:
    left, top, right, bottom = frame(page)
    rough = [(left + 9, top - 8), (right + 7, top + 9), (right - 8, bottom + 6), (left - 6, bottom - 9)]
    (ax, ay), (bx, _), (_, cy), _ = fit_card(page, rough).corners
    assert (bx - ax) / PX_PER_MM == pytest.approx(WIDTH_MM, abs=0.1)
    assert (cy - ay) / PX_PER_MM == pytest.approx(HEIGHT_MM, abs=0.1)


def test_the_same_day_makes_the_same_bytes(tmp_path: Path) -> None:
    one, other = scale_card(tmp_path / "one.pdf", ON), scale_card(tmp_path / "other.pdf", ON)
    assert one.read_bytes() == other.read_bytes()


def test_a_place_that_is_not_there_is_told(tmp_path: Path) -> None:
    with pytest.raises(ReportError, match="does not exist"):
        scale_card(tmp_path / "nowhere" / "card.pdf", ON)
