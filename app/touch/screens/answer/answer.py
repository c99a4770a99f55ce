"""Answer: what to do, why, until when, who may; then sign and log."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from kivy.uix.widget import Widget

from app.language import mark, say, say_many, told
from app.touch.screens.answer.orders import orders, until_when, who_may
from app.touch.screens.ask.ask import ChoicePage
from app.touch.screens.inspect.inspect import InspectPage
from app.touch.screens.use.words import SILENT, not_told_of, told_in_a_line
from app.touch.services import Services, Told
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton
from app.touch.widgets.card import Card
from app.touch.widgets.page import Page
from app.touch.widgets.reason import reason_cards, ruling_card
from app.touch.widgets.words import Quiet, Title
from app.touch.wording import DO_NOT_USE, answer_words, day, part_name, place_name, stopped, who
from inspection_rules.case import Use
from inspection_rules.item import Item
from inspection_rules.judgement import Judgement, Ruling
from inspection_rules.standing import Open, Standing
from inspection_rules.words import COMPETENT, Answer, Door

TAGGED = mark("DO NOT USE tag hung")
BAGGED = mark("Taken out of the bag")
NEITHER = mark("Neither of them yet")


class AnswerPage(Page):
    """The answer of one inspection, before it is signed."""

    def __init__(self, services: Services, app: Any, inspect: InspectPage, told: Told, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._services, self._app, self._inspect, self.told = services, app, inspect, told
        self._unfolded = False
        self._signing = False
        self._examines = False
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
        judgement, visit = self.judgement, self._inspect.visit
        item, inspection = visit.item, visit.inspection
        self.heading = f"{item.tag} · {item.description}" if item.description else item.tag
        self.under = f"{say(str(inspection.kind))} · {who(inspection.by)}"
        open_keys = {(one.part, one.observation) for one in judgement.missing if not visit.answered_at(one)}
        against = [
            one
            for one in judgement.rulings
            if one.answer is not Answer.SERVICEABLE and (one.part, one.observation) not in open_keys
        ]
        fine = [one for one in judgement.rulings if one.answer is Answer.SERVICEABLE]
        before = self._before()
        stops = stopped(self.told.standing.answer)
        speaking = [*against, *(one.ruling for one in before)]
        heavy = [one for one in against if stopped(one.answer)]
        content: list[Widget] = [answer_card(judgement, self.told.standing, speaking)]
        # What stops the item is the heavier; where nothing does, a use that it is not for is.
        content += [] if stops else self._not_for_the_use()
        content += [*self._orders(item, speaking, bool(open_keys)), *self._cause()]
        content += self._cards(heavy if stops else against)
        content += self._not_for_the_use() if stops else []
        if before:
            cards = [ruling_card(one.ruling, item, since=one.on) for one in before]
            content += [Title(text=say("Still open from before")), *cards]
        if open_keys:
            content.append(self._not_looked_at(item))
        content += self._for_the_use()
        lighter = [one for one in against if one not in heavy] if stops else []
        if lighter:
            content += [Title(text=say("Also seen")), *self._cards(lighter)]
        content += [Quiet(text=told(text)) for text in judgement.advisories]
        if fine:
            content += self._fine(fine)
        why = QuietButton(text=say("Why these limits"))
        why.bind(on_release=lambda _one: self._app.show_rules_of(judgement))
        back = QuietButton(text=say("Back to the rope"), bold=True)
        back.bind(on_release=lambda _one: self._app.back())
        self.fill(*content, why, back, Quiet(text=say("Not logged yet.")))
        self._fill_foot()

    # --- what it says ----------------------------------------------------------------------------------

    def _cards(self, rulings: list[Ruling]) -> list[Card]:
        visit = self._inspect.visit
        damages = [step.key for step in visit.steps if step.observation.damages]
        return reason_cards(rulings, visit.item, visit.inspection, orders=False, damages=damages)

    def _orders(self, item: Item, rulings: list[Ruling], unanswered: bool) -> list[Widget]:
        """What to do, as one list; the reasons below it order nothing more."""
        answer = self.told.standing.answer
        lines = []
        for order in orders(rulings, answer):
            parts = ", ".join(name for part in order.parts if (name := part_name(item, part)))
            text = say(order.text)
            lines.append(say("{order} ({parts})", order=text, parts=parts) if parts else text)
        if unanswered:
            lines.append(say("Answer what is still open on the rope."))
        if not lines:
            return []
        numbered = [say("{number}. {order}", number=n, order=text) for n, text in enumerate(lines, 1)]
        return [Card(title=say("What to do"), lines=numbered if len(lines) > 1 else lines)]

    def _before(self) -> list[Open]:
        """What earlier records hold against the item and this look does not close."""
        told_now = {(one.rule, one.part) for one in self.judgement.rulings if stopped(one.answer)}
        earlier: dict[tuple[str, str], Open] = {}
        for one in self.told.standing.open:
            key = (one.ruling.rule, one.ruling.part)
            if key not in told_now:
                earlier.setdefault(key, one)
        return list(earlier.values())

    def _not_looked_at(self, item: Item) -> Card:
        """All that has no answer yet, as one reason: twelve cards that say the same would hide the others."""
        visit = self._inspect.visit
        missing = [one for one in self.judgement.missing if not visit.answered_at(one)]
        stations = {step.key: step.observation.station for step in visit.steps}
        places = [place_name(item, one.part, stations.get((one.part, one.observation), one.ask)) for one in missing]
        return Card(
            answer=Answer.HOLD.value,
            title=say_many("{count} question without an answer", "{count} questions without an answer", len(missing)),
            lines=[say("What was not looked at does not pass."), "; ".join(dict.fromkeys(places))],
        )

    def _not_for_the_use(self) -> list[Widget]:
        """What speaks against the use that was told; the item's own answer stands as it is."""
        judgement, visit = self.judgement, self._inspect.visit
        if not judgement.not_for_this_use:
            return []
        card = Card(
            answer=Answer.HOLD.value,
            large=True,
            title=say("NOT FOR THIS USE"),
            lines=[told_in_a_line(judgement.use), say("The item's own answer stands as it is.")],
        )
        return [card, *reason_cards(judgement.not_for_this_use, visit.item)]

    def _for_the_use(self) -> list[Widget]:
        """What was told of a use, what the rules found in order of it, and the way to tell it."""
        judgement, item = self.judgement, self._inspect.visit.item
        use = judgement.use
        # One button that says both: on a small phone every line moves the signature further down.
        none = say("Say what it will carry (no use is judged yet)")
        tell = QuietButton(text=none if use is None else say("Change what it will carry"))
        tell.bind(on_release=lambda _one: self._tell_use())
        if use is None:
            return [tell]
        content: list[Widget] = []
        if not judgement.not_for_this_use:
            title = say("The use told: nothing in the rules speaks against it")
            content.append(Card(title=title, lines=[told_in_a_line(use), say(SILENT)]))
        if judgement.for_this_use:
            content += [Title(text=say("In order of what was told")), *reason_cards(judgement.for_this_use, item)]
        return [*content, Quiet(text=not_told_of(use, self._inspect.guide.of_use)), tell]

    def _tell_use(self) -> None:
        from app.touch.screens.use.use import UsePage

        inspect = self._inspect

        def keep(use: Use | None, kept: Callable[[], None]) -> None:
            def judged(said: Told) -> None:
                self._rejudged(said)
                kept()

            inspect.confirm_judged(replace(inspect.visit, use=use), judged)

        guide = inspect.guide
        needs = (guide.needs,) if guide.needs is not None else ()
        self.manager.push(UsePage(self.heading, self._app, guide.of_use, inspect.visit.use, keep, needs=needs))

    def _fine(self, fine: list[Ruling]) -> list[Widget]:
        count = say_many(
            "{count} other check: nothing wrong found", "{count} other checks: nothing wrong found", len(fine)
        )
        turn = say("fold") if self._unfolded else say("show")
        text = say("{what} – {turn}", what=count, turn=turn)
        fold = QuietButton(text=text)
        fold.bind(on_release=lambda _one: self._fold())
        return [fold, *(self._cards(fine) if self._unfolded else [])]

    def _fold(self) -> None:
        self._unfolded = not self._unfolded
        self._build()

    # --- signing ---------------------------------------------------------------------------------------

    def _fill_foot(self) -> None:
        by = self._inspect.visit.inspection.by
        sign = MainButton(text=say("Sign and log as {who}", who=who(by)))
        sign.bind(on_release=lambda _one: self._sign(examines=False))
        other = QuietButton(text=say("Somebody else signs"), bold=True)
        other.bind(on_release=lambda _one: self._app.ask_who(self._sign_as))
        self.fill_foot(other, sign)

    def _cause(self) -> list[Widget]:
        """A competent person may go on to examine what stops it, once this look is on record."""
        competent = self._inspect.visit.inspection.by.competence in COMPETENT
        if not (competent and stopped(self.told.standing.answer)):
            return []
        cause = AnswerButton(text=say("Examine the cause: sign and log first"))
        cause.bind(on_release=lambda _one: self._sign(examines=True))
        return [cause]

    def _sign(self, examines: bool) -> None:
        self._examines = examines
        if stopped(self.told.standing.answer):
            self._secure()
        else:
            self._log("")

    def _secure(self) -> None:
        """What must not be used must not be taken by mistake: asked before it is logged, and kept in its note."""
        self.manager.push(
            ChoicePage(
                say("Can nobody take it by mistake?"),
                (TAGGED, BAGGED, NEITHER),
                self._log,
                under=say("{stop} · then it is logged", stop=say(DO_NOT_USE)),
            )
        )

    def _sign_as(self, person: Any) -> None:
        self._inspect.sign_as(person, self._rejudged)

    def _rejudged(self, said: Told) -> None:
        self.told = said
        self._build()
        self.ids.scroll.scroll_y = 1  # another signature may be another answer

    def _log(self, secured: str) -> None:
        if self._signing:
            return
        self._signing = True
        visit = self._inspect.signed(secured)

        def done(said: Told) -> None:
            answer = answer_words(said.standing.answer, said.standing.door)
            if stopped(said.standing.answer):
                notice = say(
                    "Logged: {tag}, {stop}: {answer}.", tag=visit.item.tag, stop=say(DO_NOT_USE), answer=answer
                )
            else:
                notice = say("Logged: {tag}, {answer}.", tag=visit.item.tag, answer=answer)
            if said.judgement.not_for_this_use:
                notice = " ".join((notice, say("Not for the use that was told.")))
            self._app.logged(notice)
            if self._examines:
                self._to_records(visit.item.id)

        def failed(error: Exception) -> None:
            self._signing = False
            self._app.failed(error)

        self._services.log(visit, done, failed)

    def _to_records(self, item_id: str) -> None:
        """The inspection is on record: now its holds can be examined and released, or the item condemned."""
        from app.touch.screens.records.records import RecordsPage

        self._app.stack.push(RecordsPage(self._services, self._app, item_id))


def answer_card(judgement: Judgement, standing: Standing, rulings: list[Ruling]) -> Card:
    """Head the page: what to do, until when, who may. What is on record counts as much as what was seen just now."""
    answer, door = standing.answer, standing.door
    said = answer_words(answer, door)
    if stopped(answer):
        lines = [said, _what_to_do(answer, door), *until_when(standing, rulings), who_may(standing, rulings)]
        if not stopped(judgement.answer):
            lines.append(say("This look found nothing new; what stands from before still stops it."))
        return Card(answer=answer.value, heavy=True, title=say(DO_NOT_USE), lines=lines)
    until = ""
    if standing.next_due and answer is Answer.WATCH:
        until = say("Look again by {day}; look before each use.", day=day(standing.next_due))
    elif standing.next_due:
        until = say("Next examination by {day}; look before each use.", day=day(standing.next_due))
    todo = say("Use it.") if answer is Answer.SERVICEABLE else say("Use it, and look again sooner.")
    if judgement.not_for_this_use:
        todo = say("Use it, but not for what was told: see below.")
    return Card(answer=answer.value, title=said[:1].upper() + said[1:], lines=[todo, until], large=True)


def _what_to_do(answer: Answer, door: Door | None) -> str:
    if answer is Answer.REMOVE:
        return say("Out of service now.")
    if door is Door.REFER:
        return say("Have a competent person examine the cause.")
    return say("Make the observation that is missing or in doubt.")
