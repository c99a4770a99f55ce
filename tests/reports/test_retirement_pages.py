"""How the retirement report is set: nothing is lost off the page, whatever was written, however many items."""

import re
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader

from app.register import Register
from app.reports import retirement_report
from inspection_rules.words import InspectionKind

from .conftest import ON, words
from .harbour import bedded, line, photo, present, sound

LONG = "The strand is worn through where it lay over the fairlead and the yarns beside it are glazed. " * 20


@pytest.fixture
def printed(program: Callable[[str], str], tmp_path: Path) -> Callable[[Path], list[Image.Image]]:
    """Turn a report into one grey picture a page, as a black-and-white printer would."""

    def render(path: Path) -> list[Image.Image]:
        made = [program("pdftoppm"), "-r", "50", "-gray", str(path), str(tmp_path / "page")]
        subprocess.run(made, check=True, capture_output=True)
        return [Image.open(one) for one in sorted(tmp_path.glob("page-*.pgm"))]

    return render


def stop(register: Register, tag: str, note: str = "", **more: object) -> None:
    item = bedded(register, line(tag, **more))
    found = present("body", "body_surface", "cut", note=note)
    sound(register, item, "2026-10-12", InspectionKind.PERIODIC, seen=found)


def test_forty_items_are_all_there_and_none_is_broken_over_two_pages(
    empty_register: Register, report: Callable[[], Path]
) -> None:
    for number in range(40):
        stop(empty_register, f"ML-{number:02}")
    pages = [page.extract_text() for page in PdfReader(report()).pages]
    for number in range(40):
        block = [page for page in pages if f"ML-{number:02} · bow spring\n" in page and "DO NOT USE" in page]
        assert len(block) == 1
    for page in pages:
        assert page.count("DO NOT USE") == page.count("Examined by")


def test_a_long_note_is_printed_to_its_last_word(empty_register: Register, report: Callable[[], Path]) -> None:
    stop(empty_register, "ML-01", note=f"{LONG}END OF NOTE")
    assert "END OF NOTE" in words(report())


def test_a_reason_longer_than_a_page_keeps_its_text_and_its_picture_on_the_paper(
    empty_register: Register, report: Callable[[], Path], printed: Callable[[Path], list[Image.Image]]
) -> None:
    """2,000 of the widest letters at one place, below an item that leaves little of its page."""
    stop(empty_register, "ML-00", note=LONG)
    item, picture = bedded(empty_register, line("ML-01")), photo()
    found = present("body", "body_surface", "cut", picture, note="@" * 2000)
    sound(empty_register, item, "2026-10-12", InspectionKind.PERIODIC, seen=found, photos=(picture,))
    made = report()
    assert words(made).count("@") == 2000
    assert empty_register.picture(picture.sha256) in made.read_bytes()
    for page in printed(made):
        foot = page.crop((0, round(page.height * 287 / 297), page.width, page.height))
        assert sum(foot.histogram()[:128]) == 0


def test_a_long_name_of_the_register_leaves_the_page_number_free(tmp_path: Path) -> None:
    with Register.create(tmp_path / ("harbour " * 20).strip(), "quay-1") as register:
        made = retirement_report(register, tmp_path / "retirement.pdf", ON)
    assert PdfReader(made).pages[0].extract_text().rstrip().endswith("page 1 of 1")


def test_a_word_longer_than_the_line_is_broken_and_kept(empty_register: Register, report: Callable[[], Path]) -> None:
    stop(empty_register, "ML-01", note="x" * 300)
    assert words(report()).replace(" ", "").count("x" * 300) == 1


def test_what_the_typeface_cannot_write_is_a_visible_box(empty_register: Register, report: Callable[[], Path]) -> None:
    stop(empty_register, "ML-01", description="綱 rope 🪢")
    assert "ML-01 · □ rope □" in words(report())


def test_accents_written_as_two_characters_are_composed(empty_register: Register, report: Callable[[], Path]) -> None:
    stop(empty_register, "ML-01", place="que\u0301 yard")
    assert "qué yard" in words(report())


def test_lines_and_tabs_of_a_note_are_set_as_blanks(empty_register: Register, report: Callable[[], Path]) -> None:
    stop(empty_register, "ML-01", note="first\nsecond\tthird")
    assert "first second third" in words(report())


def test_nothing_is_printed_in_the_margins(harbour_report: Path, printed: Callable[[Path], list[Image.Image]]) -> None:
    for page in printed(harbour_report):
        edge = round(page.width * 12 / 210)
        inner = page.crop((edge, edge // 2, page.width - edge, page.height - edge // 2))
        dark, kept = (sum(one.histogram()[:128]) for one in (page, inner))
        assert dark == kept > 0


def test_the_sign_of_an_item_is_still_dark_on_a_black_and_white_page(
    empty_register: Register, report: Callable[[], Path], printed: Callable[[Path], list[Image.Image]]
) -> None:
    """One item, on hold: its disc stands at the left margin and is no lighter than mid-grey."""
    stop(empty_register, "ML-01")
    pages = printed(report())
    strips = [page.crop((round(page.width * 18 / 210), 0, round(page.width * 33 / 210), page.height)) for page in pages]
    # Bars are thin: only the disc is dark over half its width for many rows.
    dark_rows = max(
        sum(sum(s.crop((0, y, s.width, y + 1)).histogram()[:110]) > s.width / 2 for y in range(s.height))
        for s in strips
    )
    assert dark_rows >= strips[0].width * 0.6


def test_it_is_produced_as_pdf_a_3b_with_every_font_embedded(harbour_report: Path) -> None:
    reader = PdfReader(harbour_report)
    metadata = reader.trailer["/Root"]["/Metadata"].get_data().decode()
    assert "<pdfaid:part>3</pdfaid:part>" in metadata
    assert "<pdfaid:conformance>B</pdfaid:conformance>" in metadata
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].get_object().values():
            descriptor = font.get_object()["/DescendantFonts"][0].get_object()["/FontDescriptor"].get_object()
            assert "/FontFile2" in descriptor


def test_no_date_in_it_is_the_clock_s(harbour_report: Path) -> None:
    metadata = PdfReader(harbour_report).trailer["/Root"]["/Metadata"].get_data().decode()
    assert re.findall(r'xmp:\w+Date="([^"]+)"', metadata) == ["2026-10-25T00:00:00+00:00"] * 3
    dates = re.findall(rb"/(?:CreationDate|ModDate) \(D:(\d+)", harbour_report.read_bytes())
    assert set(dates) == {b"20261025000000"}
