"""A page that asks for one number on the keypad."""

from collections.abc import Callable, Sequence
from typing import Any

from kivy.metrics import dp
from kivy.uix.widget import Widget

from app.language import say, told
from app.touch.typed import Typed, quantity
from app.touch.widgets.buttons import MainButton, QuietButton
from app.touch.widgets.keypad import Keypad
from app.touch.widgets.page import Page
from app.touch.widgets.words import Words
from inspection_rules.quantity import Quantity, QuantityError


class CountPage(Page):
    """A number on the keypad; `typed` is called with it, or with None where it was left out; the page stays."""

    MOST_WIDTH = dp(900)

    def __init__(
        self,
        heading: str,
        dimension: str,
        units: Sequence[str],
        typed: Callable[[Quantity | None], None],
        *,
        before: Typed | None = None,
        signed: bool = False,
        why: str = "",
        without: str = "",
        **kwargs: Any,
    ) -> None:
        """`without` is what the button says that leaves the number out; without it there is none.

        `before` is what stands on the keypad at first; `signed` gives it a sign key.
        """
        super().__init__(heading=heading, at_thumb=True, **kwargs)
        self._dimension, self._typed, self._signed, self._why = dimension, typed, signed, why
        self._problem = ""
        self.pad = Keypad(value=before or Typed(units[0]), units=list(units), signed=signed)
        self.take = MainButton(text=say("Take this number"))
        self.take.bind(on_release=self._take)
        self.without = QuietButton(text=without, bold=True)
        self.without.bind(on_release=self._leave_out)
        self.bind(wide=self._turned)
        self.build()

    def build(self) -> None:
        """Lay the keypad out: beside the words where the window is wide."""
        for widget in (self.pad, self.take, self.without):
            if widget.parent is not None:
                widget.parent.remove_widget(widget)
        self.pad.wide = self.wide
        # One line in the same place, so that the keys do not move under the thumb when it speaks.
        words: list[Widget] = [Words(text=self._problem or self._why or " ", bold=bool(self._problem), type_size=16)]
        without = [self.without] if self.without.text else []
        if self.wide:
            for widget in (self.take, *without):
                self.pad.ids.left.add_widget(widget)
            self.fill(self.pad, *words)
            self.fill_foot()
        else:
            self.fill(*words, self.pad)
            self.fill_foot(*without, self.take)

    def _turned(self, *_changed: object) -> None:
        self.build()

    def _leave_out(self, *_event: object) -> None:
        self._typed(None)

    def check(self, number: Quantity) -> None:
        """Refuse what no such number can be.

        Raises:
            QuantityError: with what is wrong, for the person.
        """

    def _take(self, *_event: object) -> None:
        try:
            number = quantity(self.pad.value, self._dimension, self._signed)
            self.check(number)
        except QuantityError as error:
            self._problem = told(str(error))
            self.build()
            return
        self._problem = ""
        self.build()
        self._typed(number)
