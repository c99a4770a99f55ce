"""Who is inspecting, and with which competence."""

from collections.abc import Callable, Sequence
from typing import Any

from kivy.uix.widget import Widget

from app.language import mark, say
from app.touch.screens.ask.ask import ChoicePage, DoubtPage
from app.touch.screens.people.forgotten import ForgottenPage
from app.touch.screens.people.pin import GivePinPage
from app.touch.services import Services
from app.touch.widgets.buttons import MainButton, QuietButton, RowButton
from app.touch.widgets.fields import TextField
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Words
from app.touch.wording import who
from inspection_rules.record import Person
from inspection_rules.words import COMPETENT, Competence

MOST_NAME = 120
NO_PIN = mark("This name has no PIN, so nothing checks that it is you.")
SIGNS_AS = mark("What you sign from now on, releases too, stands under this name for good.")
OPEN_TO_ALL = mark("Anybody can act under these names, since they have no PIN: {people}.")


class PeoplePage(Page):
    """Choose a person, or add one; `chosen` is called after the page has gone."""

    def __init__(
        self, services: Services, app: Any, present: Person | None, chosen: Callable[[Person], None], **kwargs: Any
    ) -> None:
        super().__init__(heading=say("Who is inspecting?"), under=say("asked at each signature too"), **kwargs)
        self._services, self._app, self._present, self._chosen = services, app, present, chosen
        self._people: list[Person] = []
        self._pinned: list[Person] = []
        self.field = TextField(hint_text=say("Name or role"))
        self.field.bind(on_text_validate=self._add)

    def shown(self) -> None:
        """Read who is known."""
        register = self._services.register
        self._services.records.do(lambda: (register.people(), register.pins.people()), lambda found: self._show(*found))

    def _show(self, people: list[Person], pinned: list[Person]) -> None:
        self._people, self._pinned = people, pinned
        rows: list[Widget] = []
        for person in sorted(people, key=lambda one: (one.name.casefold(), one.competence)):  # each in its own place
            row = RowButton(title=person.name, line=acts_as(person, pinned), key=person, chosen=person == self._present)
            row.bind(on_release=lambda one: self.choose(one.key))
            rows.append(row)
        change = QuietButton(text=say("Change people and PINs"))
        change.bind(on_release=lambda _one: self._change())
        self.fill(
            *rows,
            *without_pin(people, pinned),
            Quiet(text=say("Somebody else, or in another competence")),
            self.field,
            change,
        )
        add = MainButton(text=say("Add this person"))
        add.bind(on_release=self._add)
        self.fill_foot(add)

    def _change(self) -> None:
        from app.touch.screens.people.manage import ManagePage

        self.manager.push(ManagePage(self._services, self._app))

    def _add(self, *_event: object) -> None:
        name = " ".join(self.field.text.split())[:MOST_NAME]
        if not name:
            self.field.hint_text = say("Type it here first")
            return

        def competence(text: str) -> None:
            self.choose(Person(name=name, competence=Competence(text)))

        self.manager.push(
            ChoicePage(
                say("{name}: in which competence?", name=name),
                list(Competence),
                competence,
                under=say("as the regime you work under defines it"),
            )
        )

    def choose(self, person: Person) -> None:
        """Let this person act, once they have given their PIN where they have one."""
        if person.competence not in COMPETENT:
            self._take(person)
            return
        self._services.records.do(
            lambda: self._services.register.pins.asked_of(person), lambda asked: self._ask(person, asked)
        )

    def _ask(self, person: Person, asked: bool) -> None:
        if person == self._app.person and (not asked or self._app.acting.counts(person)):
            self._take(person)
            return
        if not asked:
            self._confirm(person)
            return

        def given(_pin: str) -> None:
            self._app.acting.gave(person)
            self._take(person)

        self._app.stack.push(
            GivePinPage(
                self._services,
                person,
                given,
                other=(say("I have forgotten it"), lambda: self._forgotten(person)),
            )
        )

    def _confirm(self, person: Person) -> None:
        """Where somebody has a PIN, no other competent name is one tap away."""
        if not self._pinned:
            self._take(person)
            return
        self._app.stack.push(
            DoubtPage(
                say("You act as {name}, {competence}?", name=person.name, competence=say(str(person.competence))),
                [say(NO_PIN), say(SIGNS_AS)],
                (say("Yes, I act as {who}", who=who(person)), lambda: self._take(person)),
                (say("No, go back"), _nothing),
            )
        )

    def _forgotten(self, person: Person) -> None:
        self._app.stack.replace(ForgottenPage(self._services, self._app, person))

    def _take(self, person: Person) -> None:
        # The one who acted last comes first, and is there again at the next start.
        people = [person, *(one for one in self._people if one != person)]
        self._services.records.do(lambda: self._services.register.set_people(people), lambda _none: self._done(person))

    def _done(self, person: Person) -> None:
        if self.manager is not None:
            self.manager.pop(self)
        self._chosen(person)


def acts_as(person: Person, pinned: list[Person]) -> str:
    """Write in which competence a person acts, and whether with a PIN."""
    acts = say("acts as {competence}", competence=say(str(person.competence)))
    if not pinned or person.competence not in COMPETENT:
        return acts
    return say("{acts} · PIN", acts=acts) if has_pin(person, pinned) else say("{acts} · no PIN", acts=acts)


def has_pin(person: Person, pinned: Sequence[Person]) -> bool:
    """Whether a person who acts as competent or qualified is asked for a PIN: it goes by the name."""
    return person.name.casefold() in {one.name.casefold() for one in pinned}


def without_pin(people: Sequence[Person], pinned: Sequence[Person]) -> list[Widget]:
    """Say who of those that decide has no PIN, once anybody has one: others' PINs do not protect their names."""
    open_to_all = [one for one in people if one.competence in COMPETENT and not has_pin(one, pinned)]
    if not pinned or not open_to_all:
        return []
    return [Words(text=say(OPEN_TO_ALL, people="; ".join(map(who, open_to_all))), bold=True)]


def _nothing() -> None:
    """Leave everything as it is."""
