"""The pictures of the retirement report: each with what is said of it, its markings, and the day it was taken."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from io import BytesIO
from typing import TYPE_CHECKING

from app.figures.markings import over_picture
from app.photos.day import taken_day
from app.reports.drawing import draw
from app.reports.paper import FONT, MARGIN, WIDTH, Paper, Paragraph, picture_size
from app.reports.stopped import Shot
from app.reports.wording import picture_line, taken_apart
from inspection_rules.pictures import Marking

if TYPE_CHECKING:
    from app.register import Register

_A_ROW, _GUTTER = 3, 4.0
_CELL = (WIDTH - _GUTTER * (_A_ROW - 1)) / _A_ROW
_CAPTION, _ODD = 7.0, 8.5


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture as it is set: its bytes, None where it is not shown here, with caption and markings.

    Attributes:
        odd: what is to be minded about the day it was taken.
    """

    caption: str
    data: bytes | None
    size: tuple[float, float]
    markings: tuple[Marking, ...] = ()
    odd: str = ""

    def write(self, paper: Paper, left: float, top: float, width: float) -> None:
        """Set it there with its caption below, in a column of this width; the pen stands below it then."""
        wide, high = self.size
        if self.data is not None:
            paper.image(BytesIO(self.data), left, top, wide, high)
            if self.markings:
                draw(paper, over_picture(self.markings, round(wide * 100), round(high * 100)), left, top, wide, FONT)
        paper.set_y(top + high + 0.8)
        paper.write_paragraphs(self._below, left, width)

    def height(self, paper: Paper, width: float) -> float:
        """Return what it takes of the page in a column of this width."""
        return self.size[1] + 0.8 + paper.measured(self._below, width)

    @property
    def _below(self) -> list[Paragraph]:
        odd = [Paragraph(self.odd, _ODD, "bold", after=0)] if self.odd else []
        return [*odd, Paragraph(self.caption, _CAPTION, after=0)]


class Album:
    """The pictures of one item's block: each is shown once with the same markings, and named where it comes again."""

    def __init__(self, register: "Register") -> None:
        self._register = register
        self._shown: set[tuple[str, tuple[Marking, ...]]] = set()

    def has(self, shot: Shot) -> bool:
        """Whether it stands in the block already, with the same markings."""
        return (shot.sha, shot.note.markings) in self._shown

    def picture(self, shot: Shot, box: float, part: str = "") -> Picture:
        """Return a picture as it is set, at most so wide and high."""
        name = f"picture {shot.sha[:16]}"
        markings = shot.note.markings
        if self.has(shot):
            return Picture(f"{name}, above", None, (box, 0.0))
        data = self._register.picture(shot.sha)
        size = picture_size(data, box, box) if data else None
        if data is None or size is None:
            return Picture(f"{name}: it cannot be shown", None, (box, 0.0))
        self._shown.add((shot.sha, markings))
        taken = taken_day(data)
        caption = picture_line(name, part, shot.note.view, taken)
        return Picture(caption, data, size, markings, taken_apart(taken, shot.inspection.on))

    def rows(self, shots: Iterable[tuple[Shot, str]]) -> Iterator["Row"]:
        """Set pictures, each with the part it is of, in rows beside each other."""
        found = [self.picture(shot, _CELL, part) for shot, part in shots]
        for first in range(0, len(found), _A_ROW):
            yield Row(tuple(found[first : first + _A_ROW]))


@dataclass(frozen=True, slots=True)
class Row:
    """Pictures beside each other; a row is never broken over two pages."""

    pictures: tuple[Picture, ...]

    def height(self, paper: Paper) -> float:
        """Return what it takes of the page."""
        return max(one.height(paper, _CELL) for one in self.pictures) + 3

    def write(self, paper: Paper) -> None:
        """Set it where the pen stands."""
        top = bottom = paper.get_y()
        for number, one in enumerate(self.pictures):
            one.write(paper, MARGIN + number * (_CELL + _GUTTER), top, _CELL)
            bottom = max(bottom, paper.get_y())
        paper.set_y(bottom + 3)
