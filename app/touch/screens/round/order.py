"""The order in which a place's items are walked: tap an item, then move it up or down."""

from collections.abc import Callable
from functools import partial
from typing import Any

from kivy.clock import Clock
from kivy.uix.widget import Widget

from app.language import say
from app.register import ItemRow
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton, QuietButton, RowButton
from app.touch.widgets.focus import bring_into_sight
from app.touch.widgets.page import Page
from app.touch.widgets.words import Words

AT_ONCE = 60
Found = tuple[tuple[str, ...], dict[str, ItemRow]]


class OrderPage(Page):
    """The items of a place; `walked` is told of each new order once it is kept."""

    def __init__(
        self, services: Services, place: str, walked: Callable[[tuple[str, ...]], None], **kwargs: Any
    ) -> None:
        super().__init__(heading=say("Walking order"), under=place, **kwargs)
        self._services, self._place, self._walked = services, place, walked
        self._order: tuple[str, ...] = ()
        self._rows: dict[str, ItemRow] = {}
        self._chosen = ""
        self.bind(wide=self._turned)

    def shown(self) -> None:
        """Read the order anew."""
        register, place, on = self._services.register, self._place, self._services.today()

        def work() -> Found:
            order = register.walking_order(place)
            return order, register.rows_of(order, on)

        self._services.records.do(work, self._take)

    def _take(self, found: Found) -> None:
        self._order, self._rows = found
        self._show()

    def _turned(self, *_changed: object) -> None:
        self._show()

    def _movers(self) -> list[Widget]:
        up, down = AnswerButton(text=say("Move up")), AnswerButton(text=say("Move down"))
        up.bind(on_release=lambda _one: self._move(-1))
        down.bind(on_release=lambda _one: self._move(1))
        return [up, down]

    def _show(self) -> None:
        place = self._order.index(self._chosen) if self._chosen in self._order else 0
        first = max(0, min(place - AT_ONCE // 2, len(self._order) - AT_ONCE))
        content: list[Widget] = [Words(text=say("Tap an item, then move it."))]
        chosen = None
        for number, item in enumerate(self._order[first : first + AT_ONCE], first + 1):
            row = self._rows[item]
            title = f"{number}. {row.tag} · {row.description}"
            button = RowButton(title=title, key=item, chosen=item == self._chosen)
            button.bind(on_release=self._choose)
            content.append(button)
            if button.chosen:
                chosen = button
                # A phone on its side has no room for a foot.
                content += self._movers() if self.wide else []
        by_tag = QuietButton(text=say("In the order of their tags"))
        by_tag.bind(on_release=lambda _one: self._keep(()))
        stay = self.ids.scroll.scroll_y
        self.fill(*content, by_tag)
        self.ids.scroll.scroll_y = stay
        self.fill_foot(*([] if self.wide else self._movers()))
        if chosen is not None:  # once the rows have their heights
            Clock.schedule_once(partial(_into_sight, chosen))

    def _choose(self, button: RowButton) -> None:
        self._chosen = button.key
        self._show()

    def _move(self, by: int) -> None:
        if self._chosen not in self._order:
            return
        order = list(self._order)
        here = order.index(self._chosen)
        there = min(max(here + by, 0), len(order) - 1)
        order.insert(there, order.pop(here))
        self._keep(tuple(order))

    def _keep(self, order: tuple[str, ...]) -> None:
        register, place = self._services.register, self._place

        def work() -> tuple[str, ...]:
            register.set_walking_order(place, order)
            return register.walking_order(place)

        self._services.records.do(work, self._kept)

    def _kept(self, order: tuple[str, ...]) -> None:
        self._order = order
        self._show()
        self._walked(order)


def _into_sight(row: RowButton, _dt: float) -> None:
    if row.parent is not None:
        bring_into_sight(row)
