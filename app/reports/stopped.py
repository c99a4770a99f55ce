"""What the report speaks of, read from the register: the items that are not to be used, each with its reasons."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from app.register import RegisterError
from inspection_rules.book import shipped
from inspection_rules.events import Decision
from inspection_rules.item import Item
from inspection_rules.judgement import Judgement, PackStamp, Ruling
from inspection_rules.pictures import VIEW_AT, PictureNote
from inspection_rules.record import Inspection
from inspection_rules.standing import Judged, Open, Standing
from inspection_rules.words import Answer, DecisionKind, State

if TYPE_CHECKING:
    from app.register import ItemRow, Register

_PAGE = 500


@dataclass(frozen=True, slots=True)
class Shot:
    """A picture with the inspection it belongs to."""

    sha: str
    inspection: Inspection

    @property
    def note(self) -> PictureNote:
        """What is said of it there."""
        return self.inspection.noted(self.sha) or PictureNote(picture=self.sha)


@dataclass(frozen=True, slots=True)
class Reason:
    """What a rule still holds or removes a part for, as an inspection found it.

    Attributes:
        on: when it was found; the last time, where several inspections found the very same.
        inspection, judgement: None where the record of the inspection cannot be read, or it was no inspection.
        earlier: the days it was found the very same before, the latest first. `before`: those inspections.
        number, of: which of the open findings of this rule on this part it is, and how many there are.
        shots: the pictures taken for it, the newest first.
    """

    ruling: Ruling
    on: date
    inspection: Inspection | None
    judgement: Judgement | None
    earlier: tuple[date, ...]
    before: tuple[Inspection, ...]
    number: int
    of: int
    shots: tuple[Shot, ...]

    @property
    def inspections(self) -> tuple[Inspection, ...]:
        """Every inspection that found it, the latest first."""
        return ((self.inspection,) if self.inspection else ()) + self.before


@dataclass(frozen=True, slots=True)
class Stopped:
    """One item that is not to be used.

    Attributes:
        item: None where its own record cannot be read; `tag`, `description`, `place` come from the list then.
        condemned: the decision that condemned it.
    """

    id: str
    tag: str
    description: str
    place: str
    item: Item | None
    standing: Standing
    reasons: tuple[Reason, ...]
    latest: Judged | None
    condemned: Decision | None

    @property
    def inspections(self) -> tuple[Inspection, ...]:
        """The inspections that found the reasons, each once."""
        return tuple({one.id: one for reason in self.reasons for one in reason.inspections}.values())


@dataclass(frozen=True, slots=True)
class Findings:
    """All the report speaks of.

    Attributes:
        count: items in the register on that date, those disposed of left out.
        disposed: tags and descriptions of what was destroyed.
    """

    remove: tuple[Stopped, ...]
    hold: tuple[Stopped, ...]
    disposed: tuple[tuple[str, str], ...]
    count: int

    @property
    def stopped(self) -> tuple[Stopped, ...]:
        """To remove first, then on hold."""
        return (*self.remove, *self.hold)

    @property
    def packs(self) -> tuple[PackStamp, ...]:
        """The rule packs that the judgements spoken of used, each version once."""
        found = {
            (pack.id, pack.version, pack.sha256): pack
            for one in self.stopped
            for judgement in _judgements(one)
            for pack in judgement.packs
        }
        return tuple(found[key] for key in sorted(found))


def findings(register: "Register", on: date) -> Findings:
    """Read what is not to be used on a local date, in the order of the tags."""
    remove: list[Stopped] = []
    hold: list[Stopped] = []
    disposed: list[tuple[str, str]] = []
    count = 0
    for row in _rows(register, on):
        standing = register.standing(row.id, on)
        if standing.state is State.DISPOSED:
            disposed.append((row.tag, row.description))
            continue
        count += 1
        if standing.answer is Answer.REMOVE:
            remove.append(_stopped(register, row, standing, on))
        elif standing.answer is Answer.HOLD:
            hold.append(_stopped(register, row, standing, on))
    return Findings(tuple(remove), tuple(hold), tuple(disposed), count)


def _rows(register: "Register", on: date) -> Iterator["ItemRow"]:
    rows = register.find(limit=_PAGE, on=on)
    while rows:
        yield from rows
        rows = register.find(limit=_PAGE, after=rows[-1], on=on) if len(rows) == _PAGE else []


def _stopped(register: "Register", row: "ItemRow", standing: Standing, on: date) -> Stopped:
    item, judged, decision = None, {}, None
    # A record that cannot be read holds its item; the report still says so rather than failing.
    try:
        item = register.item(row.id)
        judged = {one.inspection.id: one for one in register.judged(row.id) if one.inspection.on <= on}
        if standing.state is State.CONDEMNED:
            decision = _condemning(register, row.id, on)
    except RegisterError:
        pass
    return Stopped(
        id=row.id,
        tag=item.tag if item else row.tag,
        description=item.description if item else row.description,
        place=item.place if item else row.place,
        item=item,
        standing=standing,
        reasons=tuple(_reasons(standing, judged)),
        latest=judged.get(standing.latest),
        condemned=decision,
    )


def _condemning(register: "Register", item_id: str, on: date) -> Decision | None:
    found = [
        record
        for record in register.history(item_id)
        if isinstance(record, Decision) and record.kind is DecisionKind.CONDEMN and record.on <= on
    ]
    return found[-1] if found else None


def _reasons(standing: Standing, judged: dict[str, Judged]) -> Iterator[Reason]:
    """Every finding that is open, in the order of the standing: worst first.

    What several inspections found the very same is told once, with all their days. Findings of one rule on one part
    that differ, by their value for instance, are each told: the worst answer first, then the newest.
    """
    places: dict[tuple[str, str, str], list[Open]] = {}
    for one in standing.open:
        places.setdefault((one.ruling.rule, one.ruling.part, one.ruling.observation), []).append(one)
    for several in places.values():
        same: dict[str, list[Open]] = {}
        for one in sorted(several, key=lambda one: (one.ruling.answer.severity, one.at), reverse=True):
            same.setdefault(one.ruling.model_dump_json(), []).append(one)
        for number, found in enumerate(same.values(), 1):
            yield _reason(found, judged, number, len(same))


def _reason(found: Sequence[Open], judged: dict[str, Judged], number: int, of: int) -> Reason:
    """Return one finding from all the times it was made, the latest first."""
    latest = judged.get(found[0].inspection)
    ruling = found[0].ruling
    before = tuple(judged[one.inspection].inspection for one in found[1:] if one.inspection in judged)
    inspections = ((latest.inspection,) if latest else ()) + before
    return Reason(
        ruling=ruling,
        on=found[0].on,
        inspection=latest.inspection if latest else None,
        judgement=latest.judgement if latest else None,
        earlier=tuple(dict.fromkeys(one.on for one in found[1:] if one.on != found[0].on)),
        before=before,
        number=number,
        of=of,
        shots=tuple(Shot(sha, one) for one in inspections for sha in _taken_for(one, ruling)),
    )


def _taken_for(inspection: Inspection, ruling: Ruling) -> tuple[str, ...]:
    """Return the pictures taken for what a ruling rests on: at its question, or of its part in its station's view."""
    key = ruling.part, ruling.observation
    own = [sha for entry in (inspection.finding(*key), inspection.reading(*key)) if entry for sha in entry.pictures]
    observation = shipped().observations.get(ruling.observation)
    view = VIEW_AT.get(observation.station) if observation else None
    for note in inspection.noted_pictures:
        measured = any(one.measured and one.measured.of == ruling.observation for one in note.markings)
        of_view = note.view is not None and note.view is view and note.picture in inspection.pictures
        if note.part == ruling.part and ruling.observation and (measured or of_view):
            own.append(note.picture)
    return tuple(dict.fromkeys(own))


def _judgements(one: Stopped) -> Iterator[Judgement]:
    yield from (reason.judgement for reason in one.reasons if reason.judgement is not None)
    if one.latest is not None:
        yield one.latest.judgement
