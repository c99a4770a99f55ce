"""A record was wrong: which one, why, and for an inspection that stops the item what stands in its place."""

from dataclasses import dataclass
from typing import Any

from kivy.properties import StringProperty
from kivy.uix.widget import Widget

from app.language import mark, say, told
from app.register import Register
from app.touch.screens.records.act import Act, ActPage, Stamp, capital, clean
from app.touch.screens.records.asking import WordsPage
from app.touch.screens.records.sign import SignPage
from app.touch.widgets.buttons import AnswerButton, QuietButton, RowButton
from app.touch.widgets.card import Card
from app.touch.widgets.words import Quiet, Words
from app.touch.wording import answer_words, day, who
from inspection_rules.events import Acceptance, Decision, Disposal, Incident, Placed, WorkDone
from inspection_rules.record import Person
from inspection_rules.standing import ItemRecord, Judged
from inspection_rules.words import COMPETENT, Answer

MOST_ROWS = 20
STAYS = mark("The wrong record stays readable with this correction, and no longer counts.")
IN_PLACE = mark(
    "This inspection keeps the item out of use, so a competent person's inspection of the same kind takes its place: "
    "one that looks at the same places."
)


@dataclass(frozen=True, slots=True)
class Line:
    """One record as the list shows it."""

    record: ItemRecord
    id: str
    title: str
    line: str
    corrected: bool


def line_of(record: ItemRecord, corrected: frozenset[str]) -> Line:
    """Say in two lines what a record is."""
    dated = record.inspection if isinstance(record, Judged) else record
    title, said = _said(record)
    line = " · ".join(one for one in (said, who(dated.by)) if one)
    return Line(record, dated.id, f"{day(dated.on)} · {title}", line, dated.id in corrected)


def _said(record: ItemRecord) -> tuple[str, str]:
    if isinstance(record, Judged):
        judgement = record.judgement
        return say(record.inspection.kind.value), answer_words(judgement.answer, judgement.door)
    if isinstance(record, WorkDone):
        title = (record.work or record.mends).value
        return say(title), record.what if record.what != title else ""
    if isinstance(record, Decision):
        return say(record.kind.value), record.reason
    if isinstance(record, Acceptance):
        return say("accepted until {day}", day=day(record.until)), record.extent
    if isinstance(record, Incident):
        return say("incident"), record.what
    if isinstance(record, Placed):
        return say(record.where.value), record.note
    return say("destroyed"), record.how if isinstance(record, Disposal) else ""


def lines_of(register: Register, item: str) -> list[Line]:
    """Read the records of an item that can be corrected on its own page, newest first. Not on the window's thread."""
    out = frozenset(one.supersedes for one in register.corrections(item))
    own = [one for one in register.history(item) if not (isinstance(one, Incident) and one.item != item)]
    return [line_of(one, out) for one in reversed(own)]


class HistoryPage(ActPage):
    """The records of an item, newest first, to choose the one that was wrong."""

    def __init__(self, act: Act, **kwargs: Any) -> None:
        super().__init__(act, say("Which record was wrong?"), **kwargs)
        self._lines: list[Line] = []
        self._shown = MOST_ROWS

    def shown(self) -> None:
        """Read the history."""
        register, item = self.act.services.register, self.act.item.id
        self.act.services.records.do(lambda: lines_of(register, item), self._list)

    def build(self) -> None:
        """List what was read."""
        self._list(self._lines)

    def _list(self, lines: list[Line]) -> None:
        self._lines = lines
        content: list[Widget] = [] if lines else [Quiet(text=say("Nothing is recorded yet."))]
        for one in lines[: self._shown]:
            more = say("Corrected before; it no longer counts.") if one.corrected else ""
            row = RowButton(title=capital(one.title), line=one.line, more=more, key=one)
            row.bind(on_release=self._tapped)
            content.append(row)
        if len(lines) > self._shown:
            older = QuietButton(text=say("Show older records"))
            older.bind(on_release=self._older)
            content.append(older)
        self.fill(*content)

    def _older(self, *_event: object) -> None:
        self._shown += MOST_ROWS
        self.build()

    def _tapped(self, row: RowButton) -> None:
        self.act.push(WrongPage(self.act, row.key))


class WrongPage(ActPage):
    """Whether this record can be corrected by whoever acts; where it wants another in its place, which one.

    Attributes:
        notice: what has just been logged, to take its place.
    """

    notice = StringProperty("")

    def __init__(self, act: Act, wrong: Line, **kwargs: Any) -> None:
        super().__init__(act, say("This record was wrong"), **kwargs)
        self._wrong = wrong
        self._lines: list[Line] = []

    def shown(self) -> None:
        """Read the records anew: one may have been made meanwhile, to take its place."""
        self.build()

    def build(self) -> None:
        """Ask the register whether a correction by this person is refused, and why."""
        act, person = self.act, self.act.person
        register: Register = act.services.register
        act.services.records.do(
            lambda: (lines_of(register, act.item.id), register.may_correct(self._wrong.id, person)),
            lambda found: self._tell(*found),
        )

    def _tell(self, lines: list[Line], refused: str) -> None:
        self._lines = lines
        wrong = self._wrong
        card = Card(title=capital(wrong.title), lines=[wrong.line])
        if not refused:
            go = AnswerButton(text=say("Take it out of what counts"))
            go.bind(on_release=lambda _one: _why(self.act, wrong, None))
            self.fill(card, Words(text=say(STAYS)))
            self.fill_foot(go)
            return
        content: list[Widget] = [Words(text=self.notice, bold=True)] if self.notice else []
        content.append(card)
        record = wrong.record
        if isinstance(record, Judged) and not wrong.corrected and self._stops(record):
            content.append(Words(text=say(IN_PLACE)))
            content += self._instead(record)
        else:
            content.append(Words(text=told(refused), bold=True))
        other = QuietButton(text=say("Somebody else acts"))
        other.bind(on_release=lambda _one: self.act.app.ask_who())
        self.fill(*content, other)
        self.fill_foot()

    @staticmethod
    def _stops(record: Judged) -> bool:
        return record.judgement.answer in (Answer.HOLD, Answer.REMOVE)

    def _instead(self, record: Judged) -> list[Widget]:
        """The inspections that may stand in its place: logged later, of the same kind, by a competent person."""
        if not self.act.competent:
            person = who(self.act.person)
            text = say("Only a competent or a qualified person corrects this; you act as {who}.", who=person)
            return [Words(text=text, bold=True)]
        rows: list[Widget] = []
        for one in self._lines:
            if one.corrected or one.id == self._wrong.id or not _may_replace(one.record, record):
                continue
            row = RowButton(title=capital(one.title), line=one.line, key=one)
            row.bind(on_release=lambda button: _why(self.act, self._wrong, button.key))
            rows.append(row)
        if not rows:
            rows.append(Quiet(text=say("No such inspection is on record. Make it first, then come back to this page.")))
            make = AnswerButton(text=say("Make it now"))
            make.bind(on_release=lambda _one: self.act.app.begin(self.act.item.id, record.inspection.kind))
            rows.append(make)
        return [Words(text=say("Which inspection takes its place?"), bold=True), *rows]


def _may_replace(record: ItemRecord, wrong: Judged) -> bool:
    if not isinstance(record, Judged):
        return False
    one, other = record.inspection, wrong.inspection
    return one.kind is other.kind and one.by.competence in COMPETENT and one.at >= other.at


def begin(act: Act) -> None:
    """Ask which record was wrong."""
    act.push(HistoryPage(act))


def _why(act: Act, wrong: Line, instead: Line | None) -> None:
    act.push(
        WordsPage(
            act,
            say("What was wrong with it?"),
            f"wrong {wrong.id}",
            lambda reason: _sign(act, wrong, instead, clean(reason)),
        )
    )


def _sign(act: Act, wrong: Line, instead: Line | None, reason: str) -> None:
    def log(stamp: Stamp) -> object:
        by: Person = stamp["by"]
        return act.services.register.correct(
            wrong.id,
            reason,
            by,
            stamp["at"],
            instead.record if instead else None,
            utc_offset_minutes=stamp["utc_offset_minutes"],
        )

    act.push(
        SignPage(
            act,
            say("Correct the record"),
            lambda: [
                Card(title=capital(wrong.title), lines=[wrong.line, say("Wrong: {reason}", reason=reason)]),
                *(
                    [Card(title=capital(instead.title), lines=[say("It takes its place."), instead.line])]
                    if instead
                    else []
                ),
            ],
            [say(STAYS)],
            lambda: act.log(log),
            pictured=False,
        )
    )
