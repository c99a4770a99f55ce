"""Answer: what to do, why, until when; then sign and log."""

from typing import Any

from kivy.uix.widget import Widget

from app.touch.screens.ask.ask import ChoicePage
from app.touch.screens.inspect.inspect import InspectPage
from app.touch.services import Services, Told
from app.touch.widgets.buttons import MainButton, QuietButton
from app.touch.widgets.card import Card
from app.touch.widgets.page import Page
from app.touch.widgets.reason import ruling_card
from app.touch.widgets.words import Quiet, Title
from app.touch.wording import DO_NOT_USE, answer_words, day, place_name, stopped, who
from inspection_rules.judgement import Judgement, Ruling
from inspection_rules.record import Item
from inspection_rules.standing import Open, Standing
from inspection_rules.words import Answer, Door

TAGGED = "DO NOT USE tag hung"
BAGGED = "Taken out of the bag"
NEITHER = "Neither of them yet"


class AnswerPage(Page):
    """The answer of one inspection, before it is signed."""

    def __init__(self, services: Services, app: Any, inspect: InspectPage, told: Told, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._services, self._app, self._inspect, self.told = services, app, inspect, told
        self._unfolded = False
        self._signing = False
        app.bind(person=self._signer)
        self._build()

    @property
    def judgement(self) -> Judgement:
        """What this inspection says by itself."""
        return self.told.judgement

    def _signer(self, *_changed: object) -> None:
        if self.manager is not None:
            self._build()

    def _build(self) -> None:
        judgement, item = self.judgement, self._inspect.visit.item
        inspection = self._inspect.visit.inspection
        self.heading = f"{item.tag} · {item.description}" if item.description else item.tag
        self.under = f"{inspection.kind} · {who(inspection.by)}"
        visit = self._inspect.visit
        open_keys = {(one.part, one.observation) for one in judgement.missing if not visit.answered_at(one)}
        against = [
            one
            for one in judgement.rulings
            if one.answer is not Answer.SERVICEABLE and (one.part, one.observation) not in open_keys
        ]
        fine = [one for one in judgement.rulings if one.answer is Answer.SERVICEABLE]
        content: list[Widget] = [answer_card(judgement, self.told.standing)]
        content += [ruling_card(one, item) for one in against]
        content += self._from_before(item)
        if open_keys:
            content.append(self._not_looked_at(item))
        if judgement.not_for_this_use:
            content.append(Title(text="Not for this use"))
            content += [ruling_card(one, item) for one in judgement.not_for_this_use]
        content += [Quiet(text=text) for text in judgement.advisories]
        if fine:
            content += self._fine(fine, item)
        why = QuietButton(text="Why these limits")
        why.bind(on_release=lambda _one: self._app.show_rules_of(judgement))
        content.append(why)
        content += self._signature()
        self.fill(*content)
        self._fill_foot()

    def _from_before(self, item: Item) -> list[Widget]:
        """What earlier records hold against the item and this look does not close."""
        told = {(one.rule, one.part) for one in self.judgement.rulings if stopped(one.answer)}
        earlier: dict[tuple[str, str], Open] = {}
        for one in self.told.standing.open:
            key = (one.ruling.rule, one.ruling.part)
            if key not in told:
                earlier.setdefault(key, one)
        if not earlier:
            return []
        cards = [ruling_card(one.ruling, item, since=one.on) for one in earlier.values()]
        return [Title(text="Still open from before"), *cards]

    def _not_looked_at(self, item: Item) -> Card:
        """All that has no answer yet, as one reason: twelve cards that say the same would hide the others."""
        visit = self._inspect.visit
        missing = [one for one in self.judgement.missing if not visit.answered_at(one)]
        stations = {step.key: step.observation.station for step in visit.steps}
        places = [place_name(item, one.part, stations.get((one.part, one.observation), one.ask)) for one in missing]
        count = f"{len(missing)} question{'s' if len(missing) > 1 else ''} without an answer"
        return Card(
            answer=Answer.HOLD.value,
            title=count,
            lines=["What was not looked at does not pass.", "; ".join(dict.fromkeys(places))],
        )

    def _fine(self, fine: list[Ruling], item: Item) -> list[Widget]:
        count = f"{len(fine)} more point{'s' if len(fine) > 1 else ''} serviceable"
        fold = QuietButton(text=f"{count} – {'fold' if self._unfolded else 'show'}")
        fold.bind(on_release=lambda _one: self._fold())
        return [fold, *([ruling_card(one, item) for one in fine] if self._unfolded else [])]

    def _signature(self) -> list[Widget]:
        button = QuietButton(
            text=f"Not logged yet. To be signed by {who(self._inspect.visit.inspection.by)}", bold=True
        )
        button.bind(on_release=lambda _one: self._app.ask_who(self._sign_as))
        return [button]

    def _fill_foot(self) -> None:
        sign = MainButton(text="Sign and log")
        sign.bind(on_release=lambda _one: self._secure() if stopped(self.told.standing.answer) else self._log(""))
        back = QuietButton(text="Back to the rope", bold=True)
        back.bind(on_release=lambda _one: self._app.back())
        self.fill_foot(sign, back)

    def _fold(self) -> None:
        self._unfolded = not self._unfolded
        self._build()

    def _secure(self) -> None:
        """What must not be used must not be taken by mistake: asked before it is logged, and kept in its note."""
        self.manager.push(
            ChoicePage(
                "Can nobody take it by mistake?",
                (TAGGED, BAGGED, NEITHER),
                self._log,
                under=f"{DO_NOT_USE} · then it is logged",
            )
        )

    def _sign_as(self, person: Any) -> None:
        self._inspect.sign_as(person, self._rejudged)

    def _rejudged(self, told: Told) -> None:
        self.told = told
        self._build()

    def _log(self, secured: str) -> None:
        if self._signing:
            return
        self._signing = True
        visit = self._inspect.signed(secured)

        def done(told: Told) -> None:
            said = answer_words(told.standing.answer, told.standing.door)
            if stopped(told.standing.answer):
                said = f"{DO_NOT_USE}: {said}"
            self._app.logged(f"Logged: {visit.item.tag}, {said}.")

        def failed(error: Exception) -> None:
            self._signing = False
            self._app.failed(error)

        self._services.log(visit.inspection, done, failed)


def answer_card(judgement: Judgement, standing: Standing) -> Card:
    """Head the page: what to do, and until when. What is on record counts as much as what was seen just now."""
    answer, door = standing.answer, standing.door
    said = answer_words(answer, door)
    if stopped(answer):
        lines = [said, _what_to_do(answer, door)]
        if not stopped(judgement.answer):
            lines.append("This look found nothing new; what stands from before still stops it.")
        return Card(answer=answer.value, heavy=True, title=DO_NOT_USE, lines=lines)
    word = "Look again" if answer is Answer.WATCH else "Next examination"
    until = f"{word} by {day(standing.next_due)}; look before each use." if standing.next_due else ""
    todo = "Use it." if answer is Answer.SERVICEABLE else "Use it, and look again sooner."
    return Card(answer=answer.value, title=said.capitalize(), lines=[todo, until], large=True)


def _what_to_do(answer: Answer, door: Door | None) -> str:
    if answer is Answer.REMOVE:
        return "Out of service now."
    if door is Door.REFER:
        return "Have a competent person examine the cause."
    return "Make the observation that is missing or in doubt."
