"""One record in full: what was seen, read, done or decided, by whom, and what the rules said of it then."""

from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from itertools import groupby
from typing import Any

from kivy.uix.widget import Widget

from app.language import say, say_many, told
from app.register import Correction, ItemRevised, Past, RegisterError
from app.touch.screens.item.about import about_item
from app.touch.screens.item.history import kind_of, shots, struck_text
from app.touch.screens.item.photos import by_day
from app.touch.screens.use.words import SILENT, told_in_a_line
from app.touch.services import Looked, Services
from app.touch.widgets.buttons import QuietButton
from app.touch.widgets.card import Card
from app.touch.widgets.page import Page
from app.touch.widgets.reason import ruling_card
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import answer_words, day, part_name, who
from app.whereabouts import where_words
from inspection_rules.book import RuleBook
from inspection_rules.events import Acceptance, Decision, Disposal, Incident, Placed, Reference, WorkDone
from inspection_rules.item import Item
from inspection_rules.record import Entry, Finding, Reading
from inspection_rules.standing import Judged
from inspection_rules.words import Answer, Seen, Where


class RecordPage(Page):
    """One record of an item."""

    def __init__(self, services: Services, looked: Looked, past: Past, **kwargs: Any) -> None:
        super().__init__(heading=f"{looked.item.tag} · {kind_of(past)}", **kwargs)
        self.under = f"{day(past.on)} · {who(past.by)}"
        self._services, self._looked, self._past = services, looked, past
        self._unfolded = False
        self._tags: dict[str, str] = {}
        self._build()

    def shown(self) -> None:
        """Read the tags of the items that shared an incident's load: its record names them by their ids."""
        record = self._past.record
        if isinstance(record, Incident) and len(record.items) > 1 and not self._tags:
            self._services.records.do(lambda: tags_of(record.items, self._services), self._name)

    def _name(self, tags: dict[str, str]) -> None:
        self._tags = tags
        self._build()

    def _build(self) -> None:
        past, item, book = self._past, self._looked.item, self._looked.book
        content: list[Widget] = []
        if past.struck is not None:
            content.append(Words(text=say("This record no longer counts: {why}.", why=struck_text(past)), bold=True))
            content.append(Quiet(text=who(past.struck.by)))
        if isinstance(past.record, Judged):
            content += self._judged(past.record)
        else:
            content += [Words(text=text) for text in told_of(past, self._looked, self._tags) if text]
        taken = shots((past,), item, book)
        if taken:
            content.append(Title(text=say("Photographs")))
            content += by_day(self._services, self, item, taken, len(taken))
        if isinstance(past.record, Judged):
            judgement = past.record.judgement
            packs = ", ".join(f"{one.id} {one.version}" for one in judgement.packs)
            regimes = ", ".join(say(one) for one in judgement.regimes) or say("common practice only")
            content.append(Quiet(text=say("Rules that counted: {regimes}", regimes=regimes)))
            text = say("Judged by {packs}; program {version}", packs=packs, version=judgement.rules_version)
            content.append(Quiet(text=text))
        self.fill(*content)

    def _judged(self, judged: Judged) -> Iterator[Widget]:
        item, judgement, inspection = self._looked.item, judged.judgement, judged.inspection
        due = say("Next examination by {day}.", day=day(judgement.next_due)) if judgement.next_due else ""
        yield Card(
            answer=judgement.answer.value,
            large=True,
            title=answer_words(judgement.answer, judgement.door),
            lines=[say("As it was judged then, by the rules of then."), due, told(judgement.next_due_why)],
        )
        if inspection.note:
            yield Words(text=say("Note: {note}", note=inspection.note))
        yield from (ruling_card(one, item) for one in judgement.rulings if one.answer is not Answer.SERVICEABLE)
        yield from (Quiet(text=told(text)) for text in judgement.advisories)
        if judgement.use is not None:
            yield Words(text=told_in_a_line(judgement.use))
        if judgement.not_for_this_use:
            yield Title(text=say("Not for this use"))
            yield from (ruling_card(one, item) for one in judgement.not_for_this_use)
        elif judgement.use is not None:
            yield Words(text=say("Nothing in the rules of then spoke against it."))
            yield Quiet(text=say(SILENT))
        fine = [one for one in judgement.rulings if one.answer is Answer.SERVICEABLE]
        if fine:
            count = say_many(
                "{count} other check: nothing wrong found", "{count} other checks: nothing wrong found", len(fine)
            )
            fold = QuietButton(text=count)
            fold.bind(on_release=self._fold)
            yield fold
            if self._unfolded:
                yield from (ruling_card(one, item) for one in fine)
        yield Title(text=say("What was seen and read"))
        for part, entries in groupby(_in_order(inspection.entries, item), key=lambda one: one.part):
            yield Words(text=part_name(item, part) or say("whole item"), bold=True)
            for odd, several in groupby(entries, key=_is_odd):
                text = "\n".join(entry_text(one, item, self._looked.book) for one in several)
                yield Words(text=text, type_size=16, bold=odd)

    def _fold(self, _button: object) -> None:
        self._unfolded = not self._unfolded
        self._build()


def entry_text(entry: Entry, item: Item, book: RuleBook) -> str:
    """Say one finding or reading in full: what was asked, the answer, where, and the note."""
    known = book.observations.get(entry.observation)
    known = known.worded_for(item, entry.part) if known else None
    asked = say(known.ask) if known else entry.observation
    if isinstance(entry, Reading):
        values = ", ".join(str(one) for one in entry.values)
        state = [say(str(entry.tension)), say(str(entry.moisture))] if known is None or known.state else []
        said = " · ".join([values, say(str(entry.method)), *state])
        said += "".join(
            say("; left out: {value} ({reason})", value=one.value, reason=one.reason) for one in entry.dropped
        )
    elif isinstance(entry, Finding) and entry.seen is Seen.PRESENT:
        names = {one.id: one.say for one in known.conditions} if known else {}
        said = ", ".join(say(names.get(one, one)) for one in entry.conditions)
    elif isinstance(entry, Finding) and entry.seen is Seen.NOT_EXAMINED:
        said = say("could not be examined: {reason}", reason=entry.reason)
    elif isinstance(entry, Finding):
        said = say(known.good) if known and entry.seen is Seen.ABSENT else say(str(entry.seen))
    else:
        said = ""
    where = say("at {places} from end A", places=", ".join(str(one) for one in entry.places)) if entry.places else ""
    note = say("note: {note}", note=entry.note) if entry.note else ""
    return f"{asked}\n    " + " · ".join(one for one in (said, where, note) if one)


def _is_odd(entry: Entry) -> bool:
    """Whether something was found there, or nobody could look."""
    return isinstance(entry, Finding) and entry.seen in (Seen.PRESENT, Seen.NOT_EXAMINED)


def tags_of(items: Iterable[str], services: Services) -> dict[str, str]:
    """Return the tags of some items by id; of one that is not in this register, nothing. Not on the window's thread."""
    found = {}
    for one in items:
        with suppress(RegisterError):
            found[one] = services.register.item(one).tag
    return found


def told_of(past: Past, looked: Looked, tags: Mapping[str, str]) -> list[str]:
    """Say all that a record other than an inspection holds, a line each; items by their tags, where known."""
    record, item = past.record, looked.item
    if isinstance(record, WorkDone):
        return [
            part_name(item, record.part),
            told(record.what),
            say("What it mends: {mends}", mends=say(str(record.mends))),
            say("Cut off at end A: {length}", length=record.cut_from_a) if record.cut_from_a else "",
            say("Proof load: {force}", force=record.proof_load) if record.proof_load else "",
            say("Known again by: {what}", what=record.known_by) if record.known_by else "",
        ]
    if isinstance(record, Decision):
        until = say("Released until {day}: a competent person looks again by then.", day=day(record.until))
        return [record.reason, until if record.until else "", *_examined(record.examined, looked)]
    if isinstance(record, Acceptance):
        return [
            say("How big: {extent}", extent=record.extent),
            say("Accepted until {day}", day=day(record.until)),
            record.reason,
            *_examined(record.examined, looked),
        ]
    if isinstance(record, Incident):
        others = ", ".join(tags.get(one, one) for one in record.items if one != item.id)
        return [
            told(record.what),
            say("Evidence: {evidence}", evidence=told(record.evidence)) if record.evidence else "",
            say("What shared the load: {items}", items=others) if others else "",
        ]
    if isinstance(record, Disposal):
        return [record.how]
    if isinstance(record, Placed):
        return [record.note] if record.where is Where.HERE else [where_words(record.where, record.note)]
    if isinstance(record, Correction):
        return _corrected(record, looked)
    if isinstance(record, ItemRevised):
        lines = "\n".join(f"{name}: {text}" for name, text in about_item(record.item))
        return [record.item.description, lines]
    return []


def _corrected(record: Correction, looked: Looked) -> list[str]:
    gone = next((one for one in looked.past if one.id == record.supersedes), None)
    put = next((one for one in looked.past if one.id == record.replacement), None)
    return [
        say("Because {reason}", reason=record.reason),
        say("What was corrected: {record}", record=_named(gone)) if gone else "",
        say("In its place: {record}", record=_named(put)) if put else say("Nothing was entered in its place."),
    ]


def _named(one: Past) -> str:
    return f"{day(one.on)} · {kind_of(one)}"


def _examined(references: tuple[Reference, ...], looked: Looked) -> list[str]:
    rulings = {
        (one.inspection.id, ruling.rule, ruling.part): ruling
        for one in looked.judged
        for ruling in one.judgement.rulings
    }
    said = []
    for one in references:
        ruling = rulings.get((one.inspection, one.rule, one.part))
        title = say(ruling.title) if ruling else one.rule
        where = part_name(looked.item, one.part)
        said.append(say("Examined: {what}", what=f"{title} · {where}" if where else title))
    return said


def _in_order(entries: tuple[Entry, ...], item: Item) -> list[Entry]:
    """By part as the item has them, the item as a whole first; within a part as they were answered."""
    order = ["", *(part.id for part in item.parts)]
    return sorted(entries, key=lambda one: order.index(one.part) if one.part in order else len(order))
