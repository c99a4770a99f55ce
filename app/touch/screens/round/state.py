"""A round under way as its list shows it: what became of each item, and what comes next."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta

from app.register import Draft, ItemRow, Register, RoundDraft, new_id
from inspection_rules.case import Use
from inspection_rules.judge import judge
from inspection_rules.judgement import Ruling
from inspection_rules.record import Person
from inspection_rules.rounds import Round, RoundEntry, RoundSummary, Whereabouts
from inspection_rules.standing import Judged
from inspection_rules.use_told import differ, joined
from inspection_rules.words import InspectionKind


@dataclass(frozen=True, slots=True)
class Line:
    """One item of the round.

    Attributes:
        row: how it stands in the register; None when the register does not know it.
        entry: what became of it in this round; None while nothing did.
        started: its inspection before use that was interrupted.
        earlier: a look of that day from before the round, which counts only if the person says so.
        met: whether it belongs to another place.
    """

    item: str
    row: ItemRow | None
    entry: RoundEntry | None
    started: Draft | None
    earlier: Judged | None
    met: bool

    @property
    def tag(self) -> str:
        """Its tag, or its id when the register does not know it."""
        return self.row.tag if self.row else self.item

    @property
    def title(self) -> str:
        """Its tag and what it is."""
        return f"{self.tag} · {self.row.description}" if self.row and self.row.description else self.tag


@dataclass(frozen=True, slots=True)
class State:
    """A round under way with all that its pages show; `summary` is what it says as things stand."""

    draft: RoundDraft
    lines: tuple[Line, ...]
    summary: RoundSummary

    @property
    def made(self) -> Round:
        """What was said so far."""
        return self.draft.made

    @property
    def done(self) -> int:
        """How many items have their answer."""
        return sum(one.entry is not None for one in self.lines)

    @property
    def next(self) -> Line | None:
        """The item to go to: the one the hands were at, else the next one on the way that has no answer yet."""
        still = [one for one in self.lines if one.entry is None]
        order = [one.item for one in self.lines]
        here = order.index(self.draft.hands) if self.draft.hands in order else -1
        return next((one for one in still if order.index(one.item) >= here), still[0] if still else None)

    def line(self, item: str) -> Line:
        """Return the line of an item of the round."""
        return next(one for one in self.lines if one.item == item)


def start(register: Register, place: str, purpose: str, by: Person, now: datetime) -> RoundDraft:
    """Begin a round of a place in its walking order, and keep it."""
    offset = now.utcoffset()
    made = Round(
        id=new_id(),
        begun=now.astimezone(UTC),
        at=now.astimezone(UTC),
        utc_offset_minutes=int(offset.total_seconds() // 60) if offset else 0,
        by=by,
        place=place,
        purpose=purpose,
        expected=register.walking_order(place),
    )
    draft = RoundDraft(made)
    register.save_round(draft)
    return draft


def read(register: Register, draft: RoundDraft, now: datetime) -> State:
    """Return a round as things stand; what was inspected since it began is taken in, and kept."""
    made = draft.made
    since = (_begun(made) + timedelta(minutes=made.utc_offset_minutes)).date()
    looks = register.looks(made.items, since)
    taken = for_the_use(register, take_in(draft, looks), looks)
    if taken != draft:
        register.save_round(taken)
    made = taken.made
    rows = register.rows_of(made.items, now.date())
    started = {
        one.inspection.item: one
        for one in reversed(register.drafts())
        if one.inspection.kind is InspectionKind.BEFORE_USE
    }
    earlier = {one.inspection.item: one for one in looks if one.inspection.at < _begun(made)}
    return State(taken, _lines(made, rows, started, earlier), register.round_summary(signed_at(made, now)))


def take_in(draft: RoundDraft, looks: list[Judged]) -> RoundDraft:
    """Return the round with the looks that were begun since it began; what was said after one of them stands.

    An item whose look no longer counts, since it was corrected, has no answer any more.
    """
    known = {one.inspection.id for one in looks}
    kept = tuple(one for one in draft.made.entries if not one.inspection or one.inspection in known)
    if kept != draft.made.entries:
        draft = replace(draft, made=draft.made.model_copy(update={"entries": kept}))
    for look in looks:
        if look.inspection.at >= _begun(draft.made) and look.inspection.id not in draft.taken:
            draft = counted(draft, look)
    return draft


def with_use(draft: RoundDraft, use: Use | None) -> RoundDraft:
    """Return the round with what was told of the use it is made for."""
    return replace(draft, made=draft.made.model_copy(update={"use": use}))


def for_the_use(register: Register, draft: RoundDraft, looks: Iterable[Judged]) -> RoundDraft:
    """Return the round with every look judged for the use as it is told now, whenever it was told."""
    known = {one.inspection.id: one for one in looks}
    entries = tuple(
        one.model_copy(update={"not_for_this_use": _against(register, draft, known[one.inspection])})
        if one.inspection in known
        else one
        for one in draft.made.entries
    )
    return replace(draft, made=draft.made.model_copy(update={"entries": entries}))


def _against(register: Register, draft: RoundDraft, look: Judged) -> tuple[Ruling, ...]:
    use, logged = joined(look.judgement.use, draft.made.use), look.judgement.not_for_this_use
    if use == look.judgement.use:
        return logged
    case = register.case(look.inspection, on=look.judgement.on, use=use)
    against = judge(case, register.book()).not_for_this_use
    if look.inspection.id not in draft.own_use:
        return against
    return (*logged, *(one for one in against if one not in logged))


def counted(draft: RoundDraft, look: Judged, note: str = "") -> RoundDraft:
    """Return the round with a look as its item's answer; `note` says of one from before the round when it was made."""
    entry = RoundEntry(
        item=look.inspection.item,
        whereabouts=Whereabouts.INSPECTED,
        inspection=look.inspection.id,
        not_for_this_use=look.judgement.not_for_this_use,
        note=note,
    )
    own = (look.inspection.id,) if differ(look.judgement.use, draft.made.use) else ()
    taken = (*draft.taken, look.inspection.id)
    return replace(answered(draft, entry), taken=taken, own_use=(*draft.own_use, *own))


def answered(draft: RoundDraft, entry: RoundEntry) -> RoundDraft:
    """Return the round with an item's answer, in place of the one it had."""
    others = without(draft, entry.item).made.entries
    return replace(draft, made=draft.made.model_copy(update={"entries": (*others, entry)}))


def without(draft: RoundDraft, item: str) -> RoundDraft:
    """Return the round with an item's answer taken back."""
    entries = tuple(one for one in draft.made.entries if one.item != item)
    return replace(draft, made=draft.made.model_copy(update={"entries": entries}))


def with_met(draft: RoundDraft, item: str) -> RoundDraft:
    """Return the round with an item that was met there and belongs elsewhere; one of the round stays as it is."""
    if item in draft.made.items:
        return replace(draft, hands=item)
    return replace(draft, hands=item, made=draft.made.model_copy(update={"met": (*draft.made.met, item)}))


def without_met(draft: RoundDraft, item: str) -> RoundDraft:
    """Return the round without an item that was met, and without what was said of it."""
    draft = without(draft, item)
    met = tuple(one for one in draft.made.met if one != item)
    return replace(draft, made=draft.made.model_copy(update={"met": met}))


def signed_at(made: Round, now: datetime, by: Person | None = None) -> Round:
    """Return the round as it is signed now."""
    offset = now.utcoffset()
    # model_validate, since model_copy would let a wrong value through to the record.
    return Round.model_validate(
        {
            **dict(made),
            "begun": _begun(made),
            "at": now.astimezone(UTC),
            "utc_offset_minutes": int(offset.total_seconds() // 60) if offset else 0,
            "by": by or made.by,
        }
    )


def _lines(
    made: Round, rows: Mapping[str, ItemRow], started: Mapping[str, Draft], earlier: Mapping[str, Judged]
) -> tuple[Line, ...]:
    entries = {one.item: one for one in made.entries}
    return tuple(
        Line(
            item=item,
            row=rows.get(item),
            entry=entries.get(item),
            started=started.get(item),
            earlier=earlier.get(item) if item not in entries else None,
            met=item not in made.expected,
        )
        for item in made.items
    )


def _begun(made: Round) -> datetime:
    return made.begun or made.at
