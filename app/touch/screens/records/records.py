"""What else happened to it: what can be recorded of an item between inspections, and who may record it."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from kivy.metrics import dp
from kivy.uix.widget import Widget

from app.language import mark, say
from app.touch.screens.records import accept, correct, decide, elsewhere, fibre, gone, incident, work
from app.touch.screens.records.act import Act
from app.touch.services import Services
from app.touch.widgets.buttons import QuietButton, RowButton
from app.touch.widgets.card import Card
from app.touch.widgets.page import Page
from app.touch.wording import who
from inspection_rules.item import Item
from inspection_rules.standing import Open, Standing
from inspection_rules.words import COMPETENT, Fibre, ItemKind, State

HEADING = mark("What else happened to it?")
Found = tuple[Item, Standing, tuple[Open, ...]]


@dataclass(frozen=True, slots=True)
class Offer:
    """One thing to record: what it is called, what is to be said of it, and how it begins.

    Attributes:
        competent: whether only a competent person does it.
    """

    title: str
    line: str
    begin: Callable[[Act], None]
    competent: bool = False


def offers(item: Item, standing: Standing) -> tuple[Offer, ...]:
    """Return what applies to an item as it stands."""
    live = standing.state in (State.IN_SERVICE, State.QUARANTINED)
    found: list[Offer] = []
    if live:
        found.append(Offer(say("Work was done on it"), work.named(item), work.begin))
    if live and item.fibre is Fibre.NOT_KNOWN and item.kind is not ItemKind.CONNECTOR:
        line = say("It is on hold while its fibre is not known.")
        found.append(Offer(say("Its fibre is known now"), line, fibre.begin, competent=True))
    if live and standing.open:
        line = say("Release it, where the rules allow that, or condemn it.")
        found.append(Offer(say("Examine what keeps it out of use"), line, decide.begin, competent=True))
    if live and any(one.ruling.if_accepted for one in standing.open):
        line = say("It goes on working while each look finds it no bigger.")
        found.append(Offer(say("Accept damage for a time"), line, accept.begin, competent=True))
    if standing.state is State.CONDEMNED:
        found.append(Offer(say("It was destroyed"), say("Proved by a photograph"), gone.begin))
    if standing.state is not State.DISPOSED:
        line = say("Shock, overload, fall, heat, chemical")
        found.append(Offer(say("There was an incident"), line, incident.begin))
        place = elsewhere.said_of(standing) or say("It is here, as far as the records say.")
        found.append(Offer(say("Where is it?"), place, elsewhere.begin))
    found.append(Offer(say("A record was wrong"), say("It stays readable and no longer counts."), correct.begin))
    if live:
        line = say("Out of service for good; nothing brings it back.")
        found.append(Offer(say("Condemn it"), line, decide.condemn, competent=True))
    return tuple(found)


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
        content: list[Widget] = [self._acts(say("Acting: {who}", who=who(person)) if person else say("Say who acts"))]
        if person is None:
            self.fill(*content)
            return
        may = person.competence in COMPETENT
        applies = offers(item, standing)
        content += [self._row(one) for one in applies if may or not one.competent]
        others = [one.title for one in applies if one.competent and not may]
        if others:
            why = say("Only a competent or a qualified person decides this; you act as {who}.", who=who(person))
            content.append(Card(title=say("Not yours to decide"), lines=[*others, why]))
            content.append(self._acts(say("Let a competent person act")))
        self.fill(*content)

    def _acts(self, text: str) -> Widget:
        button = QuietButton(text=text, bold=True)
        button.bind(on_release=self._ask_who)
        return button

    def _row(self, offer: Offer) -> Widget:
        row = RowButton(title=offer.title, line=offer.line, key=offer, least_height=dp(72))
        row.bind(on_release=self._begin)
        return row

    def _begin(self, row: RowButton) -> None:
        if self._found is not None:
            row.key.begin(Act(self._services, self._app, self, *self._found))

    def _ask_who(self, *_event: object) -> None:
        self._app.ask_who()
