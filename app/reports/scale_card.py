"""The scale card: a frame of known size to lay beside a rope that is photographed, printed at true size.

Its outer edge is what a photograph is measured by: black on white whatever it lies on. Printers shrink and stretch, so
a line to check with a rule stands in the middle.
"""

from datetime import date
from pathlib import Path

from fpdf import FPDF

from app.reports.saving import check_place, save

WIDTH_MM, HEIGHT_MM = 180.0, 120.0
FRAME_MM, WHITE_MM = 6.0, 8.0
CHECK_MM = 100
TITLE = "Scale card"
SAYS = (
    "Print at 100 %, not fitted to the page. Lay a steel rule along the line below: it must be 100 mm long, to half a "
    "millimetre, and the one at the side 60 mm. If they are not, the card is of no use: print it again.",
    "Glue it on something flat. Cut along the outer, thin line, and leave the white margin round the frame.",
    "Lay it beside the rope, on the surface that the rope lies on, and hold the camera above both.",
)


def scale_card(out: Path, on: date) -> Path:
    """Write the card as a PDF and return where it is. The same date makes the same bytes.

    Raises:
        ReportError: the file cannot be written there; the message names the remedy.
    """
    check_place(out)
    from app.reports.paper import FONT, MARGIN, Paper, Paragraph

    size = f"{WIDTH_MM:g} × {HEIGHT_MM:g} mm"
    paper = Paper(TITLE, f"{TITLE}, frame {size} outside", on)
    paper.add_page(orientation="landscape")
    paper.set_y(MARGIN - 8)
    paper.write_paragraphs([Paragraph(f"{TITLE} · {size}", 13, "bold")], MARGIN, 240)
    left, top = (paper.w - WIDTH_MM) / 2, 34.0
    _frame(paper, left, top)
    inside = left + FRAME_MM + 8
    paper.set_y(top + FRAME_MM + 7)
    paper.write_paragraphs([Paragraph(one, 9.5, after=2.0) for one in SAYS], inside, WIDTH_MM - 2 * FRAME_MM - 42)
    _rule(paper, left + (WIDTH_MM - CHECK_MM) / 2, top + HEIGHT_MM - FRAME_MM - 14, FONT)
    _upright(paper, left + WIDTH_MM - FRAME_MM - 12, top + (HEIGHT_MM - 60) / 2)
    save(paper.bytes(), out)
    return out


def _frame(paper: FPDF, left: float, top: float) -> None:
    paper.set_draw_color(150)
    paper.set_line_width(0.1)
    paper.rect(left - WHITE_MM, top - WHITE_MM, WIDTH_MM + 2 * WHITE_MM, HEIGHT_MM + 2 * WHITE_MM)
    # Filled and not stroked: half of a stroke would lie outside the size that is printed on it.
    paper.set_fill_color(0)
    paper.rect(left, top, WIDTH_MM, HEIGHT_MM, style="F")
    paper.set_fill_color(255)
    inner = WIDTH_MM - 2 * FRAME_MM, HEIGHT_MM - 2 * FRAME_MM
    paper.rect(left + FRAME_MM, top + FRAME_MM, *inner, style="F")
    paper.set_fill_color(0)


def _rule(paper: FPDF, left: float, y: float, font: str) -> None:
    """Draw the line to check along, with a stroke at every 10 mm."""
    paper.set_draw_color(0)
    paper.set_line_width(0.25)
    paper.line(left, y, left + CHECK_MM, y)
    paper.set_font(font, "", 8)
    paper.set_text_color(0)
    for mm in range(0, CHECK_MM + 1, 10):
        paper.line(left + mm, y, left + mm, y - (5 if mm % 50 == 0 else 3))
        if mm % 50 == 0:
            said = f"{mm} mm"
            paper.text(left + mm - paper.get_string_width(said) / 2, y + 4, said)


def _upright(paper: FPDF, x: float, top: float) -> None:
    """Draw the line to check across: 60 mm."""
    paper.line(x, top, x, top + 60)
    for mm in range(0, 61, 10):
        paper.line(x, top + mm, x - (5 if mm % 30 == 0 else 3), top + mm)
    said = "60 mm"
    paper.text(x - paper.get_string_width(said) - 1, top + 64, said)
