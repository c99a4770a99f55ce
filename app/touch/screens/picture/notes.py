"""What is said of the pictures of a visit: added to, taken back, and found again at earlier visits."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import date

from app.touch.visit import Visit
from inspection_rules.pictures import Marking, PictureNote
from inspection_rules.record import Inspection
from inspection_rules.words import View


@dataclass(frozen=True, slots=True)
class Earlier:
    """A picture of an earlier visit: its day and what is said of it."""

    on: date
    note: PictureNote


def note_of(visit: Visit, sha: str, part: str) -> PictureNote:
    """Return what is said of a picture in this visit."""
    return visit.inspection.noted(sha) or PictureNote(picture=sha, part=part)


def with_note(visit: Visit, note: PictureNote) -> Visit:
    """Say something of a picture, in the place of what was said of it before."""
    old = visit.inspection
    others = tuple(one for one in old.noted_pictures if one.picture != note.picture)
    inspection = Inspection.model_validate({**dict(old), "noted_pictures": (*others, note)})
    return replace(visit, inspection=inspection)


def with_view(visit: Visit, sha: str, part: str, view: View | None) -> Visit:
    """Say what a picture is a view of."""
    note = note_of(visit, sha, part)
    return with_note(visit, note.model_copy(update={"view": view}))


def with_markings(visit: Visit, sha: str, part: str, markings: Sequence[Marking]) -> Visit:
    """Lay these markings over a picture, in the place of those it had."""
    note = note_of(visit, sha, part)
    return with_note(visit, PictureNote.model_validate({**dict(note), "markings": tuple(markings)}))


def series(inspections: Iterable[Inspection], part: str, view: View, but: str) -> list[Earlier]:
    """Return the pictures of one part in one view, the newest first, without the one of this hash."""
    found = [
        Earlier(one.on, note)
        for one in sorted(inspections, key=lambda one: one.at, reverse=True)
        for note in reversed(one.noted_pictures)
        if (note.part, note.view) == (part, view) and note.picture != but
    ]
    return list({one.note.picture: one for one in reversed(found)}.values())[::-1]
