"""Where one damage lies along the rope: how far from end A."""

from collections.abc import Callable
from typing import Any

from kivy.metrics import dp
from kivy.uix.widget import Widget

from app.language import mark, say, told
from app.touch.screens.ask.ask import DoubtPage
from app.touch.typed import PLACE_UNITS, Typed, quantity
from app.touch.widgets.buttons import MainButton, QuietButton
from app.touch.widgets.keypad import Keypad
from app.touch.widgets.page import Page
from app.touch.widgets.words import Words
from inspection_rules.improbable import odd_place
from inspection_rules.item import Item
from inspection_rules.quantity import Quantity, QuantityError

WHY = mark("Damages that lie close together add up; those whose place is not known count as close.")


class PlacePage(Page):
    """One place; `placed` is called with it after the page has gone, or with None where it is not known.

    A place beyond the item is asked about; the second thing `placed` is called with is what was confirmed then.
    """

    MOST_WIDTH = dp(900)

    def __init__(
        self, app: Any, item: Item, under: str, placed: Callable[[Quantity | None, str], None], **kwargs: Any
    ) -> None:
        super().__init__(heading=say("How far from end A does it lie?"), under=under, at_thumb=True, **kwargs)
        self._placed, self._item = placed, item
        self._complaint = Words(bold=True)
        units = PLACE_UNITS[app.preferences.length_unit]
        self.pad = Keypad(value=Typed(units[0]), units=list(units))
        self.pad.bind(value=self._typing)
        self.take = MainButton(text=say("Take this place"))
        self.take.bind(on_release=self._take)
        self.unknown = QuietButton(text=say("Place not known"), bold=True)
        self.unknown.bind(on_release=lambda _one: self._gone(None))
        self.bind(wide=lambda *_: self._build())
        self._build()

    def _build(self) -> None:
        for widget in (self.pad, self.take, self.unknown, self._complaint):
            if widget.parent is not None:
                widget.parent.remove_widget(widget)
        self.pad.wide = self.wide
        words = Words(text=say(WHY), type_size=16)
        # Above the button that was tapped: in sight wherever the sheet is scrolled to.
        main: list[Widget] = [self._complaint, self.take] if self._complaint.text else [self.take]
        if self.wide:
            for widget in main:
                self.pad.ids.left.add_widget(widget)
            self.fill(self.pad, self.unknown, words)
            self.fill_foot()
        else:
            self.fill(words, self.pad)
            self.fill_foot(*main, self.unknown)

    def _typing(self, *_changed: object) -> None:
        self._complaint.text = ""

    def _take(self, *_event: object) -> None:
        try:
            place = quantity(self.pad.value, "length", False)
        except QuantityError as error:
            self._complaint.text = told(str(error))
            self._build()
            return
        odd = odd_place(place, self._item)
        if not odd:
            self._gone(place)
            return
        self.manager.push(
            DoubtPage(
                say("{value}: is this right?", value=place.text),
                [told(odd)],
                (say("It is right: keep it"), lambda: self._gone(place, f"{place.text} confirmed: {odd}")),
                (say("No: type it again"), self._again),
            )
        )

    def _again(self) -> None:
        self.pad.value = Typed(self.pad.value.unit)

    def _gone(self, place: Quantity | None, remark: str = "") -> None:
        self.manager.pop(self)
        self._placed(place, remark)
