"""One typeface serves the screens and the reports, so both can write every sign they need."""

from pathlib import Path

import pytest
from fontTools.ttLib import TTFont
from fpdf import FPDF
from pypdf import PdfReader

from app.resources import asset

WEIGHTS = ["Inter-Regular.ttf", "Inter-SemiBold.ttf", "Inter-Bold.ttf"]
FRACTIONS = "½¼¾⅛⅜⅝⅞"
SIXTEENTHS = "⁰¹²³⁴⁵⁶⁷⁸⁹⁄₀₁₂₃₄₅₆₇₈₉"
SIGNS = "±×≥≤°µØ−–—…′″→←•·✓✗€‘’“”≈⌫"
LANGUAGES = "ÀÉÎÕÜßæøåþðñçłşğıčřżőțΩλЖяї"


@pytest.fixture(params=WEIGHTS)
def font(request: pytest.FixtureRequest) -> TTFont:
    return TTFont(asset(f"fonts/{request.param}"))


@pytest.mark.parametrize("sign", FRACTIONS + SIXTEENTHS + SIGNS + LANGUAGES)
def test_every_sign_the_screens_write_has_a_drawn_glyph(font: TTFont, sign: str) -> None:
    name = font.getBestCmap().get(ord(sign))
    assert name is not None and font["glyf"][name].numberOfContours != 0


def test_all_ascii_is_there(font: TTFont) -> None:
    assert set(range(0x20, 0x7F)) <= set(font.getBestCmap())


def test_spaces_between_thousands_are_blank_and_take_room(font: TTFont) -> None:
    for space in "\u00a0\u2009\u202f":
        name = font.getBestCmap()[ord(space)]
        assert font["glyf"][name].numberOfContours == 0
        assert font["hmtx"][name][0] > 0


def test_figures_line_up_under_each_other(font: TTFont) -> None:
    """Ten figures in a row stray by less than a fiftieth of the type size."""
    cmap = font.getBestCmap()
    widths = [font["hmtx"][cmap[ord(figure)]][0] for figure in "0123456789"]
    assert 10 * (max(widths) - min(widths)) < font["head"].unitsPerEm / 50


def test_embedding_in_a_document_is_allowed(font: TTFont) -> None:
    """OpenType OS/2 fsType 0 is "installable embedding": no restriction."""
    assert font["OS/2"].fsType == 0


def test_a_report_can_be_read_back_with_every_sign(tmp_path: Path) -> None:
    written = FRACTIONS + SIXTEENTHS + SIGNS
    page = FPDF()
    page.add_page()
    page.add_font("text", fname=asset("fonts/Inter-Regular.ttf"))
    page.set_font("text", size=14)
    page.cell(text=written)
    page.output(str(tmp_path / "signs.pdf"))
    read = PdfReader(tmp_path / "signs.pdf").pages[0].extract_text()
    assert set(written) - set(read) == set()


def test_the_licence_ships_with_the_fonts() -> None:
    text = asset("fonts/Inter-OFL.txt").read_text(encoding="utf-8")
    assert "The Inter Project Authors" in text
    assert "SIL OPEN FONT LICENSE Version 1.1" in text
