"""Who is inspecting, and with which competence."""

from collections.abc import Callable
from typing import Any

from kivy.uix.widget import Widget

from app.language import say
from app.touch.screens.ask.ask import ChoicePage
from app.touch.screens.people.forgotten import ForgottenPage
from app.touch.screens.people.pin import GivePinPage
from app.touch.services import Services
from app.touch.widgets.buttons import MainButton, QuietButton, RowButton
from app.touch.widgets.fields import TextField
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet
from inspection_rules.record import Person
from inspection_rules.words import COMPETENT, Competence

MOST_NAME = 120


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
        self.fill(*rows, Quiet(text=say("Somebody else, or in another competence")), self.field, change)
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
        if not asked or (person == self._app.person and self._app.acting.counts(person)):
            self._take(person)
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
    return say("{acts} · PIN", acts=acts) if person in pinned else acts
