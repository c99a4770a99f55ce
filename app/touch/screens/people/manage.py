"""People and PINs: who is in the list, who has a PIN, and what was done to PINs."""

from typing import Any

from kivy.uix.widget import Widget

from app.language import mark, say
from app.register import PinEvent
from app.touch.screens.people.people import acts_as, without_pin
from app.touch.screens.people.person import PersonPage
from app.touch.services import Services
from app.touch.widgets.buttons import RowButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import day, who
from inspection_rules.record import Person

HONEST = mark(
    "A PIN keeps honest people honest. It protects acting, not reading, and not against somebody who can open the "
    "register's file."
)
MOST_EVENTS = 50
Found = tuple[list[Person], list[Person], list[PinEvent]]


class ManagePage(Page):
    """Everybody as a row; a tap shows what can be changed."""

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(heading=say("People and PINs"), **kwargs)
        self._services, self._app = services, app

    def shown(self) -> None:
        """Read who is known, who has a PIN, and what was done to PINs."""
        register = self._services.register
        self._services.records.do(
            lambda: (register.people(), register.pins.people(), register.pins.events()), self._show
        )

    def _show(self, found: Found) -> None:
        people, pinned, events = found
        content: list[Widget] = []
        for person in people:
            row = RowButton(title=person.name, line=acts_as(person, pinned), key=person)
            row.bind(on_release=lambda one: self.manager.push(PersonPage(self._services, self._app, one.key)))
            content.append(row)
        if not people:
            content.append(Words(text=say("Nobody is in the list yet.")))
        content += [*without_pin(people, pinned), Quiet(text=say(HONEST))]
        if events:
            content.append(Title(text=say("What was done to PINs")))
            content += [Words(text=event_words(one)) for one in reversed(events[-MOST_EVENTS:])]
        self.fill(*content)


def event_words(event: PinEvent) -> str:
    """Write what was done to whose PIN, by whom, on which day."""
    person = Person(name=event.name, competence=event.competence)
    said = say(
        "{day} · {who}: {what}", day=day(event.at.astimezone().date()), who=who(person), what=say(str(event.what))
    )
    return say("{said} · by {who}", said=said, who=who(event.by)) if event.by is not None else said
