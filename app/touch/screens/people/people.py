"""Who is inspecting, and with which competence."""

from collections.abc import Callable
from typing import Any

from kivy.uix.widget import Widget

from app.touch.screens.ask.ask import ChoicePage
from app.touch.services import Services
from app.touch.widgets.buttons import MainButton, RowButton
from app.touch.widgets.fields import TextField
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet
from inspection_rules.record import Person
from inspection_rules.words import Competence

MOST_NAME = 120


class PeoplePage(Page):
    """Choose a person, or add one; `chosen` is called after the page has gone."""

    def __init__(
        self, services: Services, present: Person | None, chosen: Callable[[Person], None], **kwargs: Any
    ) -> None:
        super().__init__(heading="Who is inspecting?", under="asked at each signature too", **kwargs)
        self._services, self._present, self._chosen = services, present, chosen
        self._people: list[Person] = []
        self.field = TextField(hint_text="Name or role")
        self.field.bind(on_text_validate=self._add)

    def shown(self) -> None:
        """Read who is known."""
        self._services.records.do(self._services.register.people, self._show)

    def _show(self, people: list[Person]) -> None:
        self._people = people
        rows: list[Widget] = []
        for person in people:
            row = RowButton(title=person.name, line=str(person.competence), key=person, chosen=person == self._present)
            row.bind(on_release=lambda one: self._take(one.key))
            rows.append(row)
        self.fill(*rows, Quiet(text="Somebody else, or in another competence"), self.field)
        add = MainButton(text="Add this person")
        add.bind(on_release=self._add)
        self.fill_foot(add)

    def _add(self, *_event: object) -> None:
        name = self.field.text.strip()[:MOST_NAME]
        if not name:
            self.field.hint_text = "Type it here first"
            return

        def competence(text: str) -> None:
            self._take(Person(name=name, competence=Competence(text)))

        self.manager.push(
            ChoicePage(
                f"{name}: in which competence?",
                list(Competence),
                competence,
                under="as the regime you work under defines it",
            )
        )

    def _take(self, person: Person) -> None:
        # The one who acted last comes first, and is there again at the next start.
        people = [person, *(one for one in self._people if one != person)]
        self._services.records.do(lambda: self._services.register.set_people(people), lambda _none: self._done(person))

    def _done(self, person: Person) -> None:
        self.manager.pop(self)
        self._chosen(person)
