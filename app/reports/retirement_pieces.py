"""What stands below an item's heading in the report: its reasons, then what its inspections say as a whole."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

from app.figures import figure
from app.reports.drawing import draw
from app.reports.paper import FONT, MARGIN, PICTURE, WIDTH, Paper, Paragraph
from app.reports.retirement_pictures import Album, Picture, Row
from app.reports.stopped import Reason, Shot, Stopped
from app.reports.wording import SLIP, comes_back, doubt_line, part_name, person, reading_line, source_line
from inspection_rules.book import shipped
from inspection_rules.history import INCIDENT, NEW_SPLICE
from inspection_rules.judgement import Ruling
from inspection_rules.record import Inspection
from inspection_rules.words import Answer, Mend

if TYPE_CHECKING:
    from app.register import Register

CONTINUED = 8.0  # millimetres that the line takes which says whose block goes on
_FINAL = "nothing: condemned is final"
_GAP = 5.0
_FIGURE = 44.0
_COLUMN = WIDTH - PICTURE - _GAP


class Piece(Protocol):
    """A piece of a block, set on one page where that holds it."""

    def height(self, paper: Paper) -> float:
        """Return the height it asks for before it is begun on a page."""

    def write(self, paper: Paper) -> None:
        """Set it where the pen stands."""


@dataclass(frozen=True, slots=True)
class _Group:
    """One reason as it is set: its texts, and beside them its picture, or a drawing of its place."""

    paragraphs: tuple[Paragraph, ...]
    picture: Picture
    place: str = ""

    def height(self, paper: Paper) -> float:
        """Its own, or, where it is longer than a page, the height its picture takes at its head."""
        beside = self.picture.height(paper, self.picture.size[0])
        whole = max(paper.measured(self.paragraphs, _COLUMN), beside) + 6
        return whole if whole <= paper.full - CONTINUED else beside + 6

    def write(self, paper: Paper) -> None:
        paper.hairline(MARGIN, MARGIN + WIDTH, paper.get_y())
        paper.set_y(paper.get_y() + 2.5)
        top, page = paper.get_y(), paper.page_no()
        wide = self.picture.size[0]
        left = MARGIN + WIDTH - wide
        if self.place:
            draw(paper, figure(self.place), left, top, wide, FONT)
        self.picture.write(paper, left, top, wide)
        bottom = paper.get_y()
        paper.set_y(top)
        paper.write_paragraphs(self.paragraphs, MARGIN, _COLUMN)
        if paper.page_no() == page:
            paper.set_y(max(paper.get_y(), bottom))
        paper.set_y(paper.get_y() + 3)


@dataclass(frozen=True, slots=True)
class _Whole:
    """What an inspection says as a whole, said once: its note, and the first row of the pictures of no finding."""

    paragraphs: tuple[Paragraph, ...]
    first: Row | None

    def height(self, paper: Paper) -> float:
        whole = paper.measured(self.paragraphs, WIDTH) + (self.first.height(paper) if self.first else 0) + 5
        return whole if whole <= paper.full - CONTINUED else 20.0

    def write(self, paper: Paper) -> None:
        paper.hairline(MARGIN, MARGIN + WIDTH, paper.get_y())
        paper.set_y(paper.get_y() + 2.5)
        paper.write_paragraphs(self.paragraphs, MARGIN, WIDTH)
        if self.first is not None:
            paper.keep(self.first.height(paper))
            self.first.write(paper)
        paper.set_y(paper.get_y() + 2)


def pieces(one: Stopped, register: "Register") -> Iterator[Piece]:
    """Return the pieces of an item's block: its reasons with their pictures, then its inspections as a whole."""
    album = Album(register)
    for reason in one.reasons:
        yield _group(one, reason, album)
        yield from album.rows([(shot, "") for shot in reason.shots[1:] if not album.has(shot)])
    for inspection in one.inspections:
        shots = [Shot(sha, inspection) for sha in dict.fromkeys(inspection.pictures)]
        new = [(shot, _part(one, shot)) for shot in shots if not album.has(shot)]
        rows = list(album.rows(new))
        if not rows and not inspection.note:
            continue
        yield _Whole(tuple(_of_whole(inspection, pictures=bool(rows))), rows[0] if rows else None)
        yield from rows[1:]


def _part(one: Stopped, shot: Shot) -> str:
    return part_name(one.item, shot.note.part) if shot.note.part else ""


def inspected(inspection: Inspection) -> str:
    """Return the day of an inspection, its kind and who made it."""
    return f"{inspection.on.isoformat()} · {inspection.kind.value} · {person(inspection.by)}"


def _of_whole(inspection: Inspection, *, pictures: bool) -> Iterator[Paragraph]:
    if inspection.note:
        yield Paragraph("Note of this inspection", 10.5, "semibold", after=0.5)
        yield Paragraph(inspected(inspection), 8.8, after=0.5)
        yield Paragraph(inspection.note, 8.8, after=2)
    if pictures:
        yield Paragraph("Pictures of this inspection", 10.5, "semibold", after=0.5)
        yield Paragraph(f"{inspected(inspection)}; taken for none of the findings above", 8.8, after=1.5)


def _group(one: Stopped, reason: Reason, album: Album) -> _Group:
    """A reason beside the picture taken for it, or beside a drawing of its place where there is none to be seen."""
    paragraphs = tuple(_paragraphs(one, reason))
    if reason.shots:
        there = album.has(reason.shots[0])
        picture = album.picture(reason.shots[0], _FIGURE if there else PICTURE)
        if there or picture.data is not None:
            return _Group(paragraphs, picture)
    observation = shipped().observations.get(reason.ruling.observation)
    place = observation.figure if observation else ""
    why = "its picture cannot be shown" if reason.shots else "no picture taken of it"
    caption = f"the place; {why}" if place else why
    return _Group(
        paragraphs, Picture(caption, None, (_FIGURE, figure(place).height * _FIGURE if place else 0.0)), place
    )


def _paragraphs(one: Stopped, reason: Reason) -> Sequence[Paragraph]:
    ruling = reason.ruling
    details = [
        ("Part", part_name(one.item, ruling.part)),
        ("Reading", reading_line(ruling)),
        ("Uncertainty", doubt_line(ruling)),
        ("Source", source_line(ruling.source)),
        ("Rule", _rule(reason)),
        ("Found", _found(reason)),
        ("Note", _note(reason)),
        ("Comes back by", _way_back(one, ruling)),
    ]
    several = f"Open finding {reason.number} of {reason.of} of this rule here; each has to be settled."
    found = [
        Paragraph(ruling.title, 10.5, "semibold", after=0.5),
        *([Paragraph(several, 8.8, "semibold", after=0.5)] if reason.of > 1 else []),
        Paragraph(ruling.sentence, 10.5, after=0.5),
        *([Paragraph(ruling.action, 10.5)] if ruling.action else []),
        *(Paragraph(text, 8.8, after=0.5, heading=name) for name, text in details if text),
    ]
    if ruling.measure == "slip":
        found.append(Paragraph(SLIP, 8.8, after=0.5))
    return found


def _way_back(one: Stopped, ruling: Ruling) -> str:
    """One way back for an item: what nothing mends leaves no other."""
    if one.condemned:
        return _FINAL
    final = any(r.ruling.answer is Answer.REMOVE and r.ruling.mends is Mend.NOTHING for r in one.reasons)
    own = ruling.answer is Answer.REMOVE and ruling.mends is Mend.NOTHING
    return "" if final and not own else comes_back(ruling)


def _found(reason: Reason) -> str:
    """When and by whom it was found, and the earlier days on which it was found the very same."""
    if reason.inspection is not None:
        last = inspected(reason.inspection)
    elif reason.ruling.rule in (INCIDENT, NEW_SPLICE):
        last = reason.on.isoformat()
    else:
        last = f"{reason.on.isoformat()}; that record cannot be read"
    if not reason.earlier:
        return last
    *between, first = (one.isoformat() for one in reason.earlier)
    again = f"; the same on {', '.join(between)}" if between else ""
    return f"{last}; first found {first}{again}"


def _rule(reason: Reason) -> str:
    ruling = reason.ruling
    version = next((p.version for p in reason.judgement.packs if p.id == ruling.pack), "") if reason.judgement else ""
    return f"{ruling.rule} of {ruling.pack} {version}".strip()


def _note(reason: Reason) -> str:
    """What the inspectors wrote at that place, and why it could not be examined; an earlier one with its day."""
    found: dict[str, str] = {}
    for one in reason.inspections:
        for word in _written(one, reason.ruling):
            found.setdefault(word, word if one is reason.inspection else f"{word} ({one.on.isoformat()})")
    return "; ".join(found.values())


def _written(inspection: Inspection, ruling: Ruling) -> Iterator[str]:
    """What was written at the place, but for what the ruling's sentence tells already."""
    finding = inspection.finding(ruling.part, ruling.observation)
    reading = inspection.reading(ruling.part, ruling.observation)
    words = [finding.reason, finding.note] if finding else []
    words += [reading.note] if reading else []
    yield from (word for word in words if word and word not in ruling.sentence)
