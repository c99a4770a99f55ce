"""What else happened to it: what can be recorded of an item between inspections, and who may record it."""

from collections.abc import Callable
from typing import Any

from kivy.metrics import dp
from kivy.uix.widget import Widget

from app.language import mark, say
from app.touch.screens.records import accept, correct, decide, elsewhere, gone, incident, work
from app.touch.screens.records.act import Act
from app.touch.services import Services
from app.touch.widgets.buttons import QuietButton, RowButton
from app.touch.widgets.card import Card
from app.touch.widgets.page import Page
from app.touch.wording import who
from inspection_rules.record import Item
from inspection_rules.standing import Open, Standing
from inspection_rules.words import COMPETENT, State

HEADING = mark("What else happened to it?")
Found = tuple[Item, Standing, tuple[Open, ...]]


class RecordsPage(Page):
    """Lists what applies to this item; what only a competent person does is shown to others with the reason."""

    def __init__(self, services: Services, app: Any, item_id: str, **kwargs: Any) -> None:
        super().__init__(heading=say(HEADING), **kwargs)
        self._services, self._app, self._id = services, app, item_id
        self._found: Found | None = None
        app.bind(person=self._changed)

    def shown(self) -> None:
        """Read where the item stands."""
        on, register = self._services.today(), self._services.register

        def look() -> Found:
            item, standing = register.item(self._id), register.standing(self._id, on)
            return item, standing, register.may_be_released(self._id, on)

        self._services.records.do(look, self._show)

    def _changed(self, *_changed: object) -> None:
        if self.manager is not None and self._found is not None:
            self._show(self._found)

    def _show(self, found: Found) -> None:
        self._found = found
        item, standing, _ = found
        self.under = f"{item.tag} · {item.description}" if item.description else item.tag
        person = self._app.person
        acts = QuietButton(text=say("Acting: {who}", who=who(person)) if person else say("Say who acts"), bold=True)
        acts.bind(on_release=self._ask_who)
        content: list[Widget] = [acts]
        if person is None:
            self.fill(*content)
            return
        content += self._offers(item, standing)
        self.fill(*content)

    def _offers(self, item: Item, standing: Standing) -> list[Widget]:
        offers: list[Widget] = []
        live = standing.state in (State.IN_SERVICE, State.QUARANTINED)
        if live:
            offers.append(self._row(say("Work was done on it"), work.named(item), work.begin))
            if standing.open:
                offers.append(
                    self._decided(
                        say("Examine what keeps it out of use"),
                        say("Release it, where the rules allow that, or condemn it."),
                        decide.begin,
                    )
                )
            if any(one.ruling.if_accepted for one in standing.open):
                offers.append(
                    self._decided(
                        say("Accept damage for a time"),
                        say("It goes on working while each look finds it no bigger."),
                        accept.begin,
                    )
                )
        if standing.state is not State.DISPOSED:
            offers.append(
                self._row(say("There was an incident"), say("Shock, overload, fall, heat, chemical"), incident.begin)
            )
            offers.append(self._row(say("Where is it?"), elsewhere.said_of(standing) or say("here"), elsewhere.begin))
        if live:
            offers.append(
                self._decided(
                    say("Condemn it"), say("Out of service for good; nothing brings it back."), decide.condemn
                )
            )
        if standing.state is State.CONDEMNED:
            offers.append(self._row(say("It was destroyed"), say("Proved by a photograph"), gone.begin))
        offers.append(
            self._row(say("A record was wrong"), say("It stays readable and no longer counts."), correct.begin)
        )
        return offers

    def _row(self, title: str, line: str, begin: Callable[[Act], None]) -> Widget:
        row = RowButton(title=title, line=line, least_height=dp(72))
        row.bind(on_release=lambda _row: self._begin(begin))
        return row

    def _decided(self, title: str, line: str, begin: Callable[[Act], None]) -> Widget:
        """What only a competent person does; to anybody else it says so."""
        person = self._app.person
        if person.competence in COMPETENT:
            return self._row(title, line, begin)
        why = say("Only a competent or a qualified person decides this; you act as {who}.", who=who(person))
        return Card(title=title, lines=[why, say("Tap who acts, above, to let such a person act.")])

    def _begin(self, begin: Callable[[Act], None]) -> None:
        if self._found is not None:
            begin(Act(self._services, self._app, self, *self._found))

    def _ask_who(self, *_event: object) -> None:
        self._app.ask_who()
