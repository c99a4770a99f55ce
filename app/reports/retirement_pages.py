"""The pages of the retirement report."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from io import BytesIO
from typing import TYPE_CHECKING

from app.figures import figure, sign
from app.figures.markings import over_picture
from app.reports.drawing import draw
from app.reports.paper import FONT, MARGIN, PICTURE, WIDTH, Paper, Paragraph, picture_size
from app.reports.stopped import Findings, Reason, Stopped
from app.reports.wording import (
    CAUTIONS,
    SLIP,
    comes_back,
    counted,
    doubt_line,
    heading,
    item_line,
    part_name,
    person,
    reading_line,
    source_line,
)
from inspection_rules.book import shipped
from inspection_rules.judgement import Ruling
from inspection_rules.pictures import Marking
from inspection_rules.record import Inspection
from inspection_rules.words import Answer, Mend, State

if TYPE_CHECKING:
    from app.register import ChainEnd, Fault, Register

_FINAL = "nothing: condemned is final"
_SIGN = 15.0
_GAP = 5.0
_FIGURE = 44.0
_CONTINUED = 8.0
_COLUMN = WIDTH - PICTURE - _GAP


@dataclass(frozen=True, slots=True)
class _Group:
    """One reason as it is set: its texts, and beside them its picture with its markings, or a drawing of its place."""

    paragraphs: list[Paragraph]
    caption: str
    picture: bytes | None
    size: tuple[float, float]
    place: str
    markings: tuple[Marking, ...] = ()


@dataclass(frozen=True)
class Checked:
    """What verifying the register found, and where its chains of seals end."""

    faults: Sequence["Fault"]
    ends: Sequence["ChainEnd"]


def pages(found: Findings, register: "Register", on: date, title: str, place: str, checked: Checked) -> bytes:
    """Return the report as a PDF."""
    foot = f"{title} · {register.folder.name} · {on.isoformat()} · read it with its cautions"
    paper = Paper(title, foot, on)
    paper.add_page()
    _head(paper, found, register.folder.name, on, title, place, checked)
    if len(found.stopped) > 1:
        _list(paper, found)
    _cautions(paper)
    for one in found.stopped:
        _block(paper, one, register)
    _disposed(paper, found)
    if found.stopped:
        paper.embed_file(
            bytes=_records(found),
            basename="records.json",
            desc="The items in this report with their standing and the inspections behind it",
            mime_type="application/json",
            associated_file_relationship="Data",
            creation_date=datetime(on.year, on.month, on.day, tzinfo=UTC),
            modification_date=datetime(on.year, on.month, on.day, tzinfo=UTC),
            compress=True,
        )
    return paper.bytes()


def _head(paper: Paper, found: Findings, folder: str, on: date, title: str, place: str, checked: Checked) -> None:
    packs = ", ".join(f"{pack.id} {pack.version}" for pack in found.packs)
    about = [
        Paragraph(title, 22, "bold", after=1.5),
        *([Paragraph(place, 12, "semibold", after=1.5)] if place else []),
        Paragraph(on.isoformat(), heading="As of", after=0.4),
        Paragraph(folder, heading="Register", after=0.4),
        Paragraph(packs or "none: no judgement is spoken of", heading="Rule packs", after=0.4),
        *(
            Paragraph(f"{end.entries} entries of {end.device}, last seal {end.seal}", 8.8, heading="Records", after=0.4)
            for end in checked.ends
        ),
        *_verified(checked),
    ]
    paper.write_paragraphs(about, MARGIN, WIDTH)
    paper.bar()
    summary = [Paragraph(counted(len(found.remove), len(found.hold), found.count), 13, "bold", after=2)]
    if not found.stopped:
        summary.append(Paragraph("Nothing is to be removed and nothing is on hold.", 11, after=2))
    paper.set_y(paper.get_y() + 3)
    paper.write_paragraphs(summary, MARGIN, WIDTH)


def _verified(checked: Checked) -> list[Paragraph]:
    """Say whether the register fits its own seals: a report from one that does not proves nothing."""
    if not checked.faults:
        return [Paragraph("every seal, list and picture fits", heading="Verified", after=3)]
    first = checked.faults[0].sentence
    return [
        Paragraph("DO NOT RELY ON THIS REPORT", 14, "bold", after=0.5),
        Paragraph(
            f"The register does not fit its own seals: {len(checked.faults)} faults. The first: {first}", after=3
        ),
    ]


def _list(paper: Paper, found: Findings) -> None:
    """All tags at a glance, each with its sign."""
    for one in found.stopped:
        text = " · ".join(part for part in (one.tag, one.description, one.place) if part)
        line = [Paragraph(text, 9.5, after=1.2)]
        paper.keep(paper.measured(line, WIDTH - 8))
        draw(paper, sign(one.standing.answer), MARGIN, paper.get_y() - 0.3, 4.6, FONT)
        paper.write_paragraphs(line, MARGIN + 8, WIDTH - 8)
    paper.set_y(paper.get_y() + 4)


def _block(paper: Paper, one: Stopped, register: "Register") -> None:
    """One item; it starts a new page rather than break, and breaks between its reasons when it is too long."""
    title, plain = _title(one), _beyond_rulings(one)
    groups = _groups(one, register)
    heights = [
        _title_height(paper, title),
        paper.measured(plain, WIDTH),
        *(_group_room(paper, group) for group in groups),
        _signatures_height(one),
    ]
    # What is too long for one page at least begins with its first reason below its heading.
    paper.keep(sum(heights) if sum(heights) <= paper.full else sum(heights[:3]))
    _write_title(paper, one, title)
    paper.write_paragraphs(plain, MARGIN, WIDTH)
    for group, height in zip(groups, heights[2:], strict=False):
        if paper.keep(height):
            _continued(paper, one)
        _write_group(paper, group)
    if paper.keep(heights[-1]):
        _continued(paper, one)
    _write_signatures(paper, one)


def _title(one: Stopped) -> list[Paragraph]:
    standing = one.standing
    condemned = standing.state is State.CONDEMNED
    name = " · ".join(part for part in (one.tag, one.description) if part)
    where = " · ".join(part for part in (one.place, item_line(one.item) if one.item else "") if part)
    found = [
        Paragraph("DO NOT USE", 17, "bold", after=0.2),
        Paragraph(heading(standing.answer, standing.door, condemned=condemned), 10.5, "semibold", after=2),
        Paragraph(name, 13, "bold", after=0.6),
    ]
    return [*found, Paragraph(where, after=1.5)] if where else found


def _title_height(paper: Paper, title: Sequence[Paragraph]) -> float:
    return max(paper.measured(title, WIDTH - _SIGN - _GAP), _SIGN) + 5


def _write_title(paper: Paper, one: Stopped, title: Sequence[Paragraph]) -> None:
    paper.bar(1.2)
    paper.set_y(paper.get_y() + 2.5)
    top = paper.get_y()
    draw(paper, sign(one.standing.answer), MARGIN, top, _SIGN, FONT)
    paper.write_paragraphs(title, MARGIN + _SIGN + _GAP, WIDTH - _SIGN - _GAP)
    paper.set_y(max(paper.get_y(), top + _SIGN + 1))


def _continued(paper: Paper, one: Stopped) -> None:
    paper.write_paragraphs([Paragraph(f"{one.tag} – continued, DO NOT USE", 9.5, "semibold", after=2)], MARGIN, WIDTH)


def _beyond_rulings(one: Stopped) -> list[Paragraph]:
    """Why an item is stopped that no ruling speaks for: condemned, overdue, unreadable, never inspected."""
    found: list[Paragraph] = []
    if not one.reasons or one.condemned is not None:
        found.append(Paragraph(one.standing.sentence, 10.5, "semibold"))
    if one.condemned is not None:
        found.append(Paragraph(one.condemned.reason, size=8.8, heading="Decided"))
        found.append(Paragraph(f"{person(one.condemned.by)} · {one.condemned.on.isoformat()}", size=8.8, heading="By"))
    elif not one.reasons and one.latest is not None:
        found.append(Paragraph(_inspected(one.latest.inspection), size=8.8, heading="Last inspected"))
    if one.standing.overdue:
        if one.reasons:
            found.append(Paragraph("An inspection that was due has not been made.", 10.5, "semibold"))
        found.append(Paragraph("the inspection that is due, by a competent person", size=8.8, heading="Comes back by"))
    return [*found, Paragraph("", 4)] if found else []


def _reason_paragraphs(one: Stopped, reason: Reason) -> list[Paragraph]:
    ruling = reason.ruling
    details = [
        ("Part", part_name(one.item, ruling.part)),
        ("Reading", reading_line(ruling)),
        ("Uncertainty", doubt_line(ruling)),
        ("Source", source_line(ruling.source)),
        ("Rule", _rule(reason)),
        ("Inspected", _found(reason)),
        ("Note", _note(reason)),
        ("Comes back by", _way_back(one, ruling)),
    ]
    found = [
        Paragraph(ruling.title, 10.5, "semibold", after=0.5),
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


def _inspected(inspection: Inspection) -> str:
    return f"{inspection.on.isoformat()} · {inspection.kind.value} · {person(inspection.by)}"


def _found(reason: Reason) -> str:
    last = f"{reason.on.isoformat()}; that record cannot be read"
    if reason.inspection is not None:
        last = _inspected(reason.inspection)
    return last if reason.since == reason.on else f"{last}; first found {reason.since.isoformat()}"


def _rule(reason: Reason) -> str:
    ruling = reason.ruling
    version = next((p.version for p in reason.judgement.packs if p.id == ruling.pack), "") if reason.judgement else ""
    return f"{ruling.rule} of {ruling.pack} {version}".strip()


def _note(reason: Reason) -> str:
    """What the inspector wrote at that place and of the whole, and why it could not be examined."""
    if reason.inspection is None:
        return ""
    finding = reason.inspection.finding(reason.ruling.part, reason.ruling.observation)
    reading = reason.inspection.reading(reason.ruling.part, reason.ruling.observation)
    words = [finding.reason, finding.note] if finding else []
    words += [reading.note if reading else "", reason.inspection.note]
    return "; ".join(word for word in words if word)


def _groups(one: Stopped, register: "Register") -> list[_Group]:
    """The reasons as they are set; a picture that several of them name is shown with the first."""
    found: list[_Group] = []
    shown: set[str] = set()
    for reason in one.reasons:
        paragraphs = _reason_paragraphs(one, reason)
        if reason.picture in shown:
            caption = f"picture {reason.picture[:16]}, above"
            found.append(_Group(paragraphs, caption, None, (_FIGURE, 0), ""))
            continue
        data = register.picture(reason.picture) if reason.picture else None
        size = picture_size(data, PICTURE, PICTURE) if data else None
        if data is not None and size is not None:
            caption = f"picture {reason.picture[:16]}"
            found.append(_Group(paragraphs, caption, data, size, "", _markings(reason)))
            shown.add(reason.picture)
        else:
            found.append(_drawn_place(reason, paragraphs))
    return found


def _markings(reason: Reason) -> tuple[Marking, ...]:
    """What the inspector laid over the picture; the picture itself has none of it."""
    note = reason.inspection.noted(reason.picture) if reason.inspection else None
    return note.markings if note else ()


def _drawn_place(reason: Reason, paragraphs: list[Paragraph]) -> _Group:
    """A reason without a picture, beside a drawing of its place."""
    observation = shipped().observations.get(reason.ruling.observation)
    place = observation.figure if observation else ""
    why = "its picture cannot be shown" if reason.picture else "no picture taken"
    caption = f"the place; {why}" if place else why
    return _Group(paragraphs, caption, None, (_FIGURE, figure(place).height * _FIGURE if place else 0), place)


def _group_room(paper: Paper, group: _Group) -> float:
    """The height a reason takes, or, where it is longer than a page, the height its picture takes at its head."""
    beside = group.size[1] + 5
    whole = max(paper.measured(group.paragraphs, _COLUMN), beside) + 6
    return whole if whole <= paper.full - _CONTINUED else beside + 6


def _write_group(paper: Paper, group: _Group) -> None:
    paper.hairline(MARGIN, MARGIN + WIDTH, paper.get_y())
    paper.set_y(paper.get_y() + 2.5)
    top, page = paper.get_y(), paper.page_no()
    wide, high = group.size
    left = MARGIN + WIDTH - wide
    if group.picture is not None:
        paper.image(BytesIO(group.picture), left, top, wide, high)
        if group.markings:
            draw(paper, over_picture(group.markings, round(wide * 100), round(high * 100)), left, top, wide, FONT)
    elif group.place:
        draw(paper, figure(group.place), left, top, wide, FONT)
    paper.set_y(top + high + 0.8)
    paper.write_paragraphs([Paragraph(group.caption, 7, after=0)], left, wide)
    bottom = paper.get_y()
    paper.set_y(top)
    paper.write_paragraphs(group.paragraphs, MARGIN, _COLUMN)
    if paper.page_no() == page:
        paper.set_y(max(paper.get_y(), bottom))
    paper.set_y(paper.get_y() + 3)


def _signatures_height(one: Stopped) -> float:
    return 30.0 if one.standing.answer is Answer.REMOVE else 18.0


def _write_signatures(paper: Paper, one: Stopped) -> None:
    rows = [("Examined by", "Competence", "Date")]
    if one.standing.answer is Answer.REMOVE:
        rows.append(("Disposal witnessed by", "How", "Date"))
    for row in rows:
        y = paper.get_y() + 7.5
        x = MARGIN
        for name, wide in zip(row, (WIDTH * 0.44, WIDTH * 0.32, WIDTH * 0.24), strict=True):
            paper.hairline(x, x + wide - 4, y)
            paper.set_y(y + 0.6)
            paper.write_paragraphs([Paragraph(name, 7.5, after=0)], x, wide - 4)
            x += wide
    paper.set_y(paper.get_y() + 8)


def _disposed(paper: Paper, found: Findings) -> None:
    if not found.disposed:
        return
    names = "; ".join(" · ".join(part for part in one if part) for one in found.disposed)
    lines = [
        Paragraph("Disposed of, with a photograph on record", 10.5, "semibold", after=0.8),
        Paragraph(names, 9.5, after=5),
    ]
    paper.keep(paper.measured(lines, WIDTH))
    paper.write_paragraphs(lines, MARGIN, WIDTH)


def _cautions(paper: Paper) -> None:
    lines = [
        Paragraph("Cautions", 12, "bold", after=1.2),
        *(Paragraph(f"{index}.  {text}", 9.5, after=1) for index, text in enumerate(CAUTIONS, 1)),
    ]
    paper.keep(paper.measured(lines, WIDTH) + 4)
    paper.bar(0.4)
    paper.set_y(paper.get_y() + 3)
    paper.write_paragraphs(lines, MARGIN, WIDTH)
    paper.set_y(paper.get_y() + 5)


def _records(found: Findings) -> bytes:
    """What the report speaks of as canonical JSON: sorted keys, no spaces, UTF-8."""
    records = [
        {
            "item": one.item.model_dump(mode="json") if one.item else one.id,
            "standing": one.standing.model_dump(mode="json"),
            "inspections": [
                reason.inspection.model_dump(mode="json") for reason in _each_once(one) if reason.inspection
            ],
        }
        for one in found.stopped
    ]
    return json.dumps(records, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()


def _each_once(one: Stopped) -> list[Reason]:
    """The reasons, one for each inspection."""
    return list({reason.inspection.id: reason for reason in one.reasons if reason.inspection}.values())
