"""The round's answer on one page: ready or not, what stops it first, every item; then sign and log."""

from typing import Any

from kivy.uix.widget import Widget

from app.language import say
from app.register import RoundDraft
from app.touch.screens.round.saying import about, in_one_line, reason, sign_in_summary, verdict
from app.touch.screens.round.state import State, read, signed_at
from app.touch.screens.use.words import SILENT, told_in_a_line
from app.touch.services import Services
from app.touch.widgets.buttons import MainButton, QuietButton
from app.touch.widgets.card import Card
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import who
from inspection_rules.record import Person
from inspection_rules.rounds import Round, RoundLine, RoundSummary, stops_by_use_alone

AT_ONCE = 60  # items that are shown at once


class SummaryPage(Page):
    """What the round under way says as things stand, and who signs it."""

    def __init__(self, services: Services, app: Any, draft: RoundDraft, **kwargs: Any) -> None:
        super().__init__(heading=say("Is it ready?"), under=about(draft.made), **kwargs)
        self._services, self._app, self._draft = services, app, draft
        self._state: State | None = None
        self._by: Person | None = app.person  # nobody while a PIN has to be given first
        self._signing = False

    def shown(self) -> None:
        """Read anew how things stand: nothing is signed from what was shown before."""
        draft, now, register = self._draft, self._services.now(), self._services.register
        self._services.records.do(lambda: read(register, draft, now), self._show)

    def _show(self, state: State) -> None:
        self._state, self._draft = state, state.draft
        says = say("To be signed by {who}.", who=who(self._by)) if self._by is not None else ""
        content = answer_of(state.made, state.summary, says)
        back = QuietButton(text=say("Back to the items"), bold=True)
        back.bind(on_release=lambda _one: self._app.back())
        self.fill(*content, back, Quiet(text=say("Not logged yet.")))
        if self._by is None:
            first = MainButton(text=say("Say who signs"))
            first.bind(on_release=lambda _one: self._app.ask_who(self._signs))
            self.fill_foot(first)
            return
        answer = verdict(state.summary)
        sign = MainButton(text=say("Sign and log: {answer}, as {who}", answer=answer, who=who(self._by)))
        sign.bind(on_release=lambda _one: self._sign())
        other = QuietButton(text=say("Somebody else signs"), bold=True)
        other.bind(on_release=lambda _one: self._app.ask_who(self._signs))
        self.fill_foot(other, sign)

    def _signs(self, person: Person) -> None:
        self._by = person
        self.shown()

    def _sign(self) -> None:
        state = self._state
        if self._signing or state is None or self._by is None:
            return
        self._signing = True
        made = signed_at(state.made, self._services.now(), self._by)

        def failed(error: Exception) -> None:
            self._signing = False
            self.shown()
            self._app.failed(error)

        register, summary = self._services.register, state.summary
        self._services.records.do(lambda: register.log_round(made, summary), self._logged, failed)

    def _logged(self, round_id: str) -> None:
        from app.touch.screens.round.signed import SignedPage

        if self._state is not None:
            place, answer = self._state.made.place, verdict(self._state.summary)
            self._app.logged_round(say("Logged: the round of {place}, {answer}.", place=place, answer=answer))
        self._app.stack.push(SignedPage(self._services, self._app, round_id))


def answer_of(made: Round, summary: RoundSummary, says: str) -> list[Widget]:
    """Write a round's answer: the heaviest card first, then what stops it, worst first, then every item."""
    content: list[Widget] = [
        Card(
            answer=summary.sign.value,
            heavy=not summary.ready,
            large=summary.ready,
            title=verdict(summary),
            lines=[in_one_line(summary), about(made), says, told_in_a_line(made.use)],
        ),
        Quiet(text=say(SILENT) if made.use is not None else say("No use is told, so none is judged.")),
    ]
    if summary.stops:
        content += [Title(text=say("What stops it")), *_cards(made, summary.stops)]
    content += [Title(text=say("All items in walking order")), *_cards(made, summary.lines)]
    return content


def _cards(made: Round, lines: tuple[RoundLine, ...]) -> list[Widget]:
    cards: list[Widget] = []
    for line in lines[:AT_ONCE]:
        title = f"{line.tag} · {line.description}" if line.description else line.tag
        cards.append(Card(answer=sign_in_summary(made, line), title=title, lines=[_said(made, line)]))
    if len(lines) > AT_ONCE:
        cards.append(Words(text=say("and {count} more; the report has them all", count=len(lines) - AT_ONCE)))
    return cards


def _said(made: Round, line: RoundLine) -> str:
    sign = sign_in_summary(made, line)
    entry = made.entry(line.item)
    own = entry is not None and entry.inspection and not stops_by_use_alone(made, line)
    word = say(sign) if sign and own else ""
    return " · ".join(one for one in (word, reason(made, line)) if one)
