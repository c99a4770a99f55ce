"""Pages of a report: the typeface, texts that wrap and never fail on a character, and blocks kept whole."""

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from io import BytesIO
from typing import Literal

from fpdf import FPDF
from fpdf.enums import MethodReturnValue, WrapMode

from app.figures import Ink
from app.reports.drawing import INKS
from app.reports.metadata import MAKER, xmp
from app.resources import asset

FONT = "Inter"
MARGIN = 18.0
WIDTH = 210 - 2 * MARGIN
BOTTOM = 20.0
MISSING = "□"
PICTURE = 58.0
HEADING = 24.5

Style = Literal["", "B"]
_EMPHASIS = "SemiBold"
_LINE = 1.28
_MM = 25.4 / 72


@dataclass(frozen=True, slots=True)
class Paragraph:
    """A wrapped text.

    Attributes:
        size: in points.
        after: space below it, in millimetres.
        heading: a name set at the left of the column, the text beside it.
    """

    text: str
    size: float = 9.5
    weight: Literal["regular", "semibold", "bold"] = "regular"
    after: float = 1.0
    heading: str = ""


class Paper(FPDF):
    """An A4 document with a foot on every page.

    Attributes:
        foot: the text at the left of every page's foot.
    """

    def __init__(self, title: str, foot: str, on: date) -> None:
        super().__init__(format="A4", enforce_compliance="PDF/A-3B")
        self.foot = foot
        self._reserved: dict[int, float] = {}
        self._broken: dict[tuple[Paragraph, float], list[str]] = {}
        self.set_margins(MARGIN, MARGIN, MARGIN)
        self.set_auto_page_break(True, BOTTOM)
        self.c_margin = 0
        self.set_title(readable(title))
        self.set_creator(MAKER)
        self.set_producer(MAKER)
        self.set_lang("en")
        # The same register on the same date makes the same bytes, so the clock has no say.
        created = datetime(on.year, on.month, on.day, tzinfo=UTC)
        self.set_creation_date(created)
        self.set_xmp_metadata(xmp(readable(title), created))
        for style, name in (("", "Regular"), ("B", "Bold")):
            self.add_font(FONT, style, asset(f"fonts/Inter-{name}.ttf"))
        self.add_font(FONT + _EMPHASIS, "", asset("fonts/Inter-SemiBold.ttf"))
        self.alias_nb_pages()

    def footer(self) -> None:
        """Write the foot: FPDF calls this at the end of every page."""
        self.set_y(-14)
        self._pen("regular", 7.5, Ink.FAINT)
        self.cell(WIDTH - 30, 4, self._cut(self.readable(self.foot), WIDTH - 34))
        self.cell(30, 4, f"page {self.page_no()} of {{nb}}", align="R")

    def readable(self, text: str) -> str:
        """Return a text that the typeface can write: a visible box stands for what it cannot."""
        cmap = self.fonts[FONT.lower()].cmap  # type: ignore[union-attr]
        return "".join(one if one == "\n" or ord(one) in cmap else MISSING for one in readable(text))

    @property
    def room(self) -> float:
        """Millimetres left on this page."""
        return float(self.h - BOTTOM - self._reserved.get(self.page_no(), 0.0) - self.get_y())

    @property
    def full(self) -> float:
        """Millimetres a fresh page offers."""
        return float(self.h - BOTTOM - MARGIN)

    def measured(self, paragraphs: Sequence[Paragraph], width: float) -> float:
        """Return the height of paragraphs in a column of this width, in millimetres."""
        return sum(len(self._lines(one, width)) * _high(one) + one.after for one in paragraphs)

    def write_paragraphs(self, paragraphs: Sequence[Paragraph], x: float, width: float) -> None:
        """Write paragraphs in a column, over as many pages as they need."""
        for one in paragraphs:
            lines, high = self._lines(one, width), _high(one)
            if high > self.room:
                self.add_page()
            if one.heading:
                top = self.get_y()
                self._pen("semibold", one.size)
                self.set_x(x)
                self.cell(HEADING, high, one.heading)
                self.set_y(top)
            self._pen(one.weight, one.size)
            for line in lines:
                self.set_x(x + (HEADING if one.heading else 0))
                self.cell(width, high, line, new_x="LMARGIN", new_y="NEXT")
            self.set_y(self.get_y() + one.after)

    def keep(self, height: float) -> bool:
        """Start a new page unless this height fits here or this page is fresh; tell whether one was started."""
        if height <= self.room or self.room >= self.full - 0.01:
            return False
        self.add_page()
        return True

    def write_at_bottom(self, paragraphs: Sequence[Paragraph]) -> None:
        """Write paragraphs below a bar at the bottom of this page; what is written after them ends above them.

        Where this page has no room for them, they begin the next one.
        """
        height = self.measured(paragraphs, WIDTH) + 4
        self.keep(height)
        here = self.get_y()
        self.set_y(self.h - BOTTOM - height)
        self.bar(0.4)
        self.set_y(self.get_y() + 2)
        self.write_paragraphs(paragraphs, MARGIN, WIDTH)
        self._reserved[self.page_no()] = height + 2
        self.set_y(here)

    def bar(self, thick: float = 0.9) -> None:
        """Draw a bar across the page."""
        self.set_fill_color(INKS[Ink.INK])
        self.rect(MARGIN, self.get_y(), WIDTH, thick, style="F")
        self.set_y(self.get_y() + thick)

    def hairline(self, x0: float, x1: float, y: float, ink: Ink = Ink.FAINT) -> None:
        """Draw a thin line."""
        self.set_draw_color(INKS[ink])
        self.set_line_width(0.2)
        self.line(x0, y, x1, y)

    def bytes(self) -> bytes:
        """Return the finished document."""
        return bytes(self.output())

    def _cut(self, text: str, width: float) -> str:
        """Return as much of a text as one line of this width takes, with dots where it goes on."""
        if self.get_string_width(text) <= width:
            return text
        while text and self.get_string_width(f"{text}…") > width:
            text = text[:-1]
        return f"{text}…"

    def _lines(self, one: Paragraph, width: float) -> list[str]:
        """Break a paragraph into lines; each is broken once, to be measured and to be written."""
        key = (one, width)
        if key not in self._broken:
            self._pen(one.weight, one.size)
            text_width = width - (HEADING if one.heading else 0)
            found = self.multi_cell(
                text_width, _high(one), self.readable(one.text), align="L", dry_run=True,
                output=MethodReturnValue.LINES, wrapmode=WrapMode.WORD,
            )  # fmt: skip
            self._broken[key] = list(found)  # type: ignore[arg-type]
        return self._broken[key]

    def _pen(self, weight: str, size: float, ink: Ink = Ink.INK) -> None:
        if weight == "semibold":
            self.set_font(FONT + _EMPHASIS, "", size)
        else:
            self.set_font(FONT, "B" if weight == "bold" else "", size)
        self.set_text_color(INKS[ink])


def _high(one: Paragraph) -> float:
    return one.size * _MM * _LINE


def readable(text: str) -> str:
    """Return a text composed and without control characters, its line breaks kept."""
    plain = unicodedata.normalize("NFC", text).replace("\r\n", "\n").replace("\r", "\n").replace("\t", " ")
    return "".join(one if one == "\n" or unicodedata.category(one) != "Cc" else MISSING for one in plain)


def picture_size(data: bytes, width: float, height: float) -> tuple[float, float] | None:
    """Return the millimetres a picture takes inside this box; None when it cannot be read."""
    from PIL import Image, UnidentifiedImageError

    try:
        with Image.open(BytesIO(data)) as image:
            wide, high = image.size
    except (UnidentifiedImageError, OSError, Image.DecompressionBombError):
        return None
    scale = min(width / wide, height / high)
    return wide * scale, high * scale
