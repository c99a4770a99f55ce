"""Which place today is shown for."""

from collections.abc import Callable
from typing import Any

from kivy.uix.widget import Widget

from app.language import say, say_many
from app.register import PlaceRow
from app.touch.services import Services
from app.touch.widgets.buttons import RowButton
from app.touch.widgets.page import Page


class WherePage(Page):
    """All places, or one; `chosen` is called with its name, empty for all, after the page has gone."""

    def __init__(self, services: Services, present: str, chosen: Callable[[str], None], **kwargs: Any) -> None:
        super().__init__(heading=say("Which place?"), **kwargs)
        self._services, self._present, self._chosen = services, present, chosen

    def shown(self) -> None:
        """Read which places there are."""
        on, register = self._services.today(), self._services.register
        self._services.records.do(lambda: register.places(on), self._show)

    def _show(self, places: list[PlaceRow]) -> None:
        rows: list[Widget] = [RowButton(title=say("All places"), key="", chosen=not self._present)]
        for place in places:
            line = say_many("{count} item", "{count} items", place.items)
            rows.append(RowButton(title=place.place, line=line, key=place.place, chosen=place.place == self._present))
        for row in rows:
            row.bind(on_release=lambda one: self._take(one.key))
        self.fill(*rows)

    def _take(self, place: str) -> None:
        self.manager.pop(self)
        self._chosen(place)
