"""One item of a round: inspect it, or say where it is."""

from collections.abc import Callable
from typing import Any

from kivy.uix.widget import Widget

from app.language import mark, say, told
from app.touch.screens.records.act import clean
from app.touch.screens.round.round import RoundPage
from app.touch.screens.round.saying import clock, sign_of, status
from app.touch.screens.round.state import Line, answered, counted, without, without_met
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton, WideButton
from app.touch.widgets.card import Card
from app.touch.widgets.fields import TextField
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Words
from app.touch.wording import answer_words, who
from inspection_rules.rounds import RoundEntry, Whereabouts

ASKED = {
    Whereabouts.NOT_FOUND: mark("Where was it looked for?"),
    Whereabouts.ASHORE: mark("Where does it lie?"),
    Whereabouts.ON_LOAN: mark("To whom is it lent?"),
}
BUTTONS = {
    Whereabouts.NOT_FOUND: mark("Not found: it stops the round"),
    Whereabouts.ASHORE: mark("Ashore: say where"),
    Whereabouts.ON_LOAN: mark("On loan: say to whom"),
}
FOLLOWS = {
    Whereabouts.NOT_FOUND: mark("What was not found stops the round."),
    Whereabouts.ASHORE: mark("It is not here to be used, so it does not stop the round."),
    Whereabouts.ON_LOAN: mark("It is not here to be used, so it does not stop the round."),
}


class OnePage(Page):
    """What can be said of one item in a round."""

    def __init__(self, page: RoundPage, line: Line, **kwargs: Any) -> None:
        super().__init__(heading=line.title, **kwargs)
        self._page, self._line = page, line
        self.under = page.heading
        # What stands on record is not this round's answer, so it is not said as if it were.
        known = say("On record: {sentence}", sentence=told(line.row.sentence)) if line.row else ""
        sentence = known or say("It is not in this register.")
        content: list[Widget] = [Card(answer=sign_of(line), title=status(line), lines=[sentence])]
        content += self._earlier()
        content.append(self._place(AnswerButton, Whereabouts.NOT_FOUND))
        # The two that do not stop the round look otherwise and stand apart: a glove that slips must not take one.
        content.append(Quiet(text=say("Known to be elsewhere, and not to be used from here:")))
        content += [self._place(QuietButton, where) for where in (Whereabouts.ASHORE, Whereabouts.ON_LOAN)]
        if line.entry is not None:
            content.append(self._quiet(say("Take this answer back"), self._take_back))
        if line.met:
            content.append(self._quiet(say("It does not belong to this round"), self._not_met))
        content.append(self._quiet(say("Open the item"), self._open))
        self.fill(*content)
        again = line.entry is not None and line.entry.whereabouts is Whereabouts.INSPECTED
        main = MainButton(text=self._word(again))
        main.bind(on_release=lambda _one: self._inspect())
        self.fill_foot(main)

    def _place(self, kind: type[WideButton], where: Whereabouts) -> WideButton:
        button = kind(text=say(BUTTONS[where]))
        button.chosen = self._line.entry is not None and self._line.entry.whereabouts is where
        button.bind(on_release=self._where(where))
        return button

    def _word(self, again: bool) -> str:
        started = self._line.started
        if started is not None:
            return say("Go on inspecting: {count} answered", count=len(started.inspection.entries))
        return say("Inspect it once more") if again else say("Inspect it now")

    def _earlier(self) -> list[Widget]:
        """A look from before the round: it counts only if the person says so, and its time is shown."""
        look = self._line.earlier
        if look is None:
            return []
        one = look.inspection
        answer = answer_words(look.judgement.answer, look.judgement.door)
        count = AnswerButton(text=say("Count the look of {clock}: {answer}", clock=clock(one), answer=answer))
        count.bind(on_release=lambda _one: self._count())
        return [
            Words(
                text=say("{who} looked at it today at {clock}, before this round.", who=who(one.by), clock=clock(one))
            ),
            count,
        ]

    def _quiet(self, text: str, act: Callable[[], None]) -> QuietButton:
        button = QuietButton(text=text)
        button.bind(on_release=lambda _one: act())
        return button

    def _leave(self) -> RoundPage:
        self.manager.pop(self)
        return self._page

    def _inspect(self) -> None:
        self._leave().inspect(self._line.item)

    def _open(self) -> None:
        self._page.app.show_item(self._line.item)

    def _count(self) -> None:
        page, look = self._page, self._line.earlier
        if page.state is not None and look is not None:
            one = look.inspection
            note = say("looked at {clock} by {name}, before this round", clock=clock(one), name=one.by.name)
            self._leave().keep(counted(page.state.draft, look, note))

    def _take_back(self) -> None:
        if self._page.state is not None:
            self._leave().keep(without(self._page.state.draft, self._line.item))

    def _not_met(self) -> None:
        if self._page.state is not None:
            self._leave().keep(without_met(self._page.state.draft, self._line.item))

    def _where(self, where: Whereabouts) -> Callable[[object], None]:
        def ask(_button: object) -> None:
            note = self._line.entry.note if self._line.entry is not None else ""
            self.manager.push(WherePage(self.heading, where, note, self._said(where)))

        return ask

    def _said(self, where: Whereabouts) -> Callable[[str], None]:
        def said(note: str) -> None:
            entry = RoundEntry(item=self._line.item, whereabouts=where, note=note)
            if self._page.state is not None:
                self._leave().keep(answered(self._page.state.draft, entry))

        return said


class WherePage(Page):
    """What is to be noted of an item that is not here; `said` is called with the note after the page has gone."""

    def __init__(self, item: str, where: Whereabouts, note: str, said: Callable[[str], None], **kwargs: Any) -> None:
        word = say(where.value)
        super().__init__(heading=word[:1].upper() + word[1:], under=item, **kwargs)
        self._said, self._needed = said, where is not Whereabouts.NOT_FOUND
        self._problem = Words(text="", bold=True)
        self.field = TextField(text=note, multiline=True, hint_text=say(ASKED[where]))
        self.fill(self._problem, Quiet(text=say(ASKED[where])), self.field, Words(text=say(FOLLOWS[where])))
        main = MainButton(text=say("Keep: {where}", where=word))
        main.bind(on_release=lambda _one: self._keep())
        self.fill_foot(main)

    def _keep(self) -> None:
        note = clean(self.field.text)
        if self._needed and not note:
            self._problem.text = say("Type it here first.")
            return
        self.manager.pop(self)
        self._said(note)
