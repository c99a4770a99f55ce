"""Start a round: at which place, who inspects in which competence, and what for."""

from typing import Any

from kivy.uix.widget import Widget

from app.language import mark, say, say_many
from app.register import PlaceRow, RoundDraft
from app.touch.screens.ask.ask import ChoicePage
from app.touch.screens.round.round import RoundPage
from app.touch.screens.round.saying import PURPOSES
from app.touch.screens.round.state import start
from app.touch.services import Services
from app.touch.widgets.buttons import RowButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Words
from app.touch.wording import who
from inspection_rules.record import Person
from inspection_rules.words import Answer

NO_PURPOSE = mark("Without saying what for")


class PlacesPage(Page):
    """The places that have items, with what is due at each."""

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(heading=say("Start a round"), under=say("Where?"), **kwargs)
        self._services, self._app = services, app
        self._starting = False

    def shown(self) -> None:
        """Read anew what lies where."""
        self._starting = False
        on, register = self._services.today(), self._services.register
        self._services.records.do(lambda: register.places(on), self._show)

    def _show(self, places: list[PlaceRow]) -> None:
        content: list[Widget] = []
        for place in places:
            row = RowButton(title=place.place, line=_lying(place), key=place.place, answer=_sign(place))
            row.bind(on_release=self._chosen)
            content.append(row)
        if not places:
            content.append(Words(text=say("No item has a place yet.")))
        content.append(Quiet(text=say("An item belongs to the place that is entered with it.")))
        self.fill(*content)

    def _chosen(self, row: RowButton) -> None:
        place = row.key
        self._app.ask_who(lambda person: self._what_for(place, person))

    def _what_for(self, place: str, person: Person) -> None:
        self.manager.push(
            ChoicePage(
                say("What is the round for?"),
                (*PURPOSES, NO_PURPOSE),
                lambda purpose: self._start(place, person, purpose),
                under=f"{place} · {who(person)}",
                typed=say("Something else"),
            )
        )

    def _start(self, place: str, person: Person, purpose: str) -> None:
        if self._starting:
            return
        self._starting = True
        said = "" if purpose == NO_PURPOSE else purpose[:2000]
        register, now = self._services.register, self._services.now()

        def started(draft: RoundDraft) -> None:
            self.manager.replace(RoundPage(self._services, self._app, draft))

        def failed(error: Exception) -> None:
            self._starting = False
            self._app.failed(error)

        self._services.records.do(lambda: start(register, place, said, person, now), started, failed)


def _lying(place: PlaceRow) -> str:
    parts = [say_many("{count} item", "{count} items", place.items)]
    if place.stopped:
        parts.append(say("{count} not to be used", count=place.stopped))
    if place.removed:
        parts.append(say("{count} of them to be removed", count=place.removed))
    if place.overdue:
        parts.append(say("{count} overdue", count=place.overdue))
    if place.due:
        parts.append(say("{count} due within 14 days", count=place.due))
    if place.watched:
        parts.append(say("{count} to watch", count=place.watched))
    return " · ".join(parts)


def _sign(place: PlaceRow) -> str:
    """Return the worst answer there; a place where nothing is wrong has no sign, since nobody has looked yet."""
    if place.removed:
        return Answer.REMOVE.value
    if place.stopped or place.overdue:
        return Answer.HOLD.value
    return Answer.WATCH.value if place.watched else ""
