"""What the report speaks of, read from the register: the items that are not to be used, each with its reasons."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from app.register import RegisterError
from inspection_rules.events import Decision
from inspection_rules.item import Item
from inspection_rules.judgement import Judgement, PackStamp, Ruling
from inspection_rules.record import Inspection
from inspection_rules.standing import Judged, Open, Standing
from inspection_rules.words import Answer, DecisionKind, State

if TYPE_CHECKING:
    from app.register import ItemRow, Register

_PAGE = 500


@dataclass(frozen=True, slots=True)
class Reason:
    """What one rule still holds or removes one part for, as the latest inspection found it.

    Attributes:
        since: the date it was first found; `on` is when it was found last.
        inspection, judgement: None where the record of the inspection cannot be read.
        picture: hash of the picture taken for it, else of one taken at that inspection; empty without one.
    """

    ruling: Ruling
    since: date
    on: date
    inspection: Inspection | None
    judgement: Judgement | None
    picture: str


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
    """Each finding once, however many inspections made it, in the order of the standing: worst first."""
    found: dict[tuple[str, str, str], list[Open]] = {}
    for one in standing.open:
        found.setdefault((one.ruling.rule, one.ruling.part, one.ruling.observation), []).append(one)
    for several in found.values():
        # A finding that once asked for removal is not told by a later, milder one.
        worst = max(one.ruling.answer.severity for one in several)
        latest = max((one for one in several if one.ruling.answer.severity == worst), key=lambda one: one.on)
        yield _reason(latest.ruling, min(one.on for one in several), latest.on, judged.get(latest.inspection))


def _reason(ruling: Ruling, since: date, on: date, judged: Judged | None) -> Reason:
    if judged is None:
        return Reason(ruling, since, on, None, None, "")
    inspection = judged.inspection
    entries = [
        inspection.finding(ruling.part, ruling.observation),
        inspection.reading(ruling.part, ruling.observation),
    ]
    own = [sha for entry in entries if entry for sha in entry.pictures]
    picture = (own or list(inspection.pictures) or [""])[0]
    return Reason(ruling, since, on, inspection, judged.judgement, picture)


def _judgements(one: Stopped) -> Iterator[Judgement]:
    yield from (reason.judgement for reason in one.reasons if reason.judgement is not None)
    if one.latest is not None:
        yield one.latest.judgement
