"""The pages of the retirement report."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import TYPE_CHECKING

from app.figures import sign
from app.reports.drawing import draw
from app.reports.paper import FONT, MARGIN, WIDTH, Paper, Paragraph
from app.reports.retirement_pieces import CONTINUED, inspected, pieces
from app.reports.stopped import Findings, Stopped
from app.reports.wording import CAUTIONS, counted, heading, item_line, person
from inspection_rules.words import Answer, State

if TYPE_CHECKING:
    from app.register import ChainEnd, Fault, Register

_SIGN = 15.0
_GAP = 5.0


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
    """One item; it starts a new page rather than break, and breaks between its pieces when it is too long."""
    title, plain = _title(one), _beyond_rulings(one)
    parts = list(pieces(one, register))
    heights = [piece.height(paper) for piece in parts]
    signatures = _signatures_height(one)
    head = _title_height(paper, title) + paper.measured(plain, WIDTH)
    whole = head + sum(heights) + signatures
    # What is too long for one page at least begins with its first piece below its heading.
    paper.keep(whole if whole <= paper.full else head + sum(heights[:1]))
    _write_title(paper, one, title)
    paper.write_paragraphs(plain, MARGIN, WIDTH)
    for number, (piece, height) in enumerate(zip(parts, heights, strict=True), 1):
        # Nobody signs a page that does not say what for: the last piece takes the signatures along.
        along = signatures if number == len(parts) and height + signatures <= paper.full - CONTINUED else 0.0
        if paper.keep(height + along):
            _continued(paper, one)
        piece.write(paper)
    if paper.keep(signatures):
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
        found.append(Paragraph(inspected(one.latest.inspection), size=8.8, heading="Last inspected"))
    if one.standing.overdue:
        if one.reasons:
            found.append(Paragraph("An inspection that was due has not been made.", 10.5, "semibold"))
        found.append(Paragraph("the inspection that is due, by a competent person", size=8.8, heading="Comes back by"))
    return [*found, Paragraph("", 4)] if found else []


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
            "inspections": [inspection.model_dump(mode="json") for inspection in one.inspections],
        }
        for one in found.stopped
    ]
    return json.dumps(records, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()
