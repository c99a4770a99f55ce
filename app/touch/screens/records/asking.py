"""Pages of one act that ask one thing: a choice, words, a number. They stay below the next one, as they were left."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from kivy.metrics import dp
from kivy.uix.widget import Widget

from app.language import say
from app.touch.screens.ask.count import CountPage
from app.touch.screens.records.act import Act, ActPage, clean
from app.touch.typed import Typed
from app.touch.widgets.buttons import AnswerButton, MainButton, RowButton
from app.touch.widgets.fields import TextField
from app.touch.widgets.words import Quiet, Words
from inspection_rules.quantity import Quantity


@dataclass(frozen=True, slots=True)
class Choice:
    """One choice: its key, what it is called, and what is to be said of it."""

    key: str
    title: str
    line: str = ""


class ChoosePage(ActPage):
    """One choice from a list; `chosen` is called with its key, and the page stays."""

    def __init__(
        self,
        act: Act,
        heading: str,
        choices: Sequence[Choice],
        chosen: Callable[[str], None],
        *,
        why: str = "",
        present: str = "",
        from_below: bool = False,
        **kwargs: Any,
    ) -> None:
        """`from_below`: whether a list longer than the page is seen from its end, where the thumb is, at first."""
        super().__init__(act, heading, at_thumb=True, **kwargs)
        self._choices, self._chosen, self._why = choices, chosen, why
        self.present = present
        self.build()
        if from_below:
            self.ids.scroll.scroll_y = 0

    def build(self) -> None:
        """List the choices."""
        content: list[Widget] = [Words(text=self._why)] if self._why else []
        for choice in self._choices:
            row = RowButton(
                title=choice.title,
                line=choice.line,
                key=choice.key,
                chosen=choice.key == self.present and self.present != "",
                least_height=dp(72),
            )
            row.bind(on_release=self._tapped)
            content.append(row)
        self.fill(*content)

    def _tapped(self, row: RowButton) -> None:
        self.present = row.key
        self.build()
        self._chosen(row.key)


class WordsPage(ActPage):
    """Words to be typed; `typed` is called with them, and the page stays."""

    def __init__(
        self,
        act: Act,
        heading: str,
        key: str,
        typed: Callable[[str], None],
        *,
        why: str = "",
        hint: str = "",
        needed: bool = True,
        least: int = 1,
        **kwargs: Any,
    ) -> None:
        """`key` is what the words are kept under in the act; `least` is how many letters say anything at all."""
        super().__init__(act, heading, **kwargs)
        self._key, self._typed, self._needed, self._least = key, typed, needed, least
        self.field = TextField(text=act.said.get(key, ""), multiline=True, hint_text=hint or say("Type here"))
        self.field.bind(text=self._keep)
        self._problem = Words(text="", bold=True)
        # The field first: large type and a phone's keyboard leave little room below.
        self.fill(self._problem, self.field, *([Words(text=why)] if why else []))
        go = MainButton(text=say("Go on"))
        go.bind(on_release=self._go)
        self.fill_foot(go)

    def _keep(self, _field: object, text: str) -> None:
        self.act.said[self._key] = text

    def _go(self, *_event: object) -> None:
        text = clean(self.field.text)
        if self._needed and len(text) < self._least:
            self._problem.text = (
                say("Say it so that the next person can check it.") if text else say("Type it here first.")
            )
        else:
            self._problem.text = ""
            self._typed(text)


class NumberPage(CountPage, ActPage):
    """A number on the keypad that the act remembers; `typed` is called with it, or with None, and the page stays."""

    def __init__(
        self,
        act: Act,
        heading: str,
        key: str,
        dimension: str,
        units: Sequence[str],
        typed: Callable[[Quantity | None], None],
        **kwargs: Any,
    ) -> None:
        """`key` is what the number is kept under in the act."""
        self._key = key
        before = act.numbers.get(key)
        super().__init__(heading, dimension, units, typed, before=before, act=act, **kwargs)
        self.pad.bind(value=self._keep)

    def _keep(self, _pad: object, value: Typed) -> None:
        self.act.numbers[self._key] = value


class TickPage(ActPage):
    """Base of a page on which several things are ticked; `ticked` holds their keys."""

    def __init__(self, act: Act, heading: str, **kwargs: Any) -> None:
        super().__init__(act, heading, **kwargs)
        self.ticked: list[Any] = []

    def tick(self, key: object, off: str, on: str) -> AnswerButton:
        """Return the button that ticks one thing; its word changes with it."""
        button = AnswerButton(text=on if key in self.ticked else off, chosen=key in self.ticked)

        def turn(_button: object) -> None:
            if key in self.ticked:
                self.ticked.remove(key)
            else:
                self.ticked.append(key)
            button.chosen = key in self.ticked
            button.text = on if button.chosen else off
            self.turned()

        button.bind(on_release=turn)
        return button

    def turned(self) -> None:
        """Called when something was ticked or unticked."""


def quiet(text: str) -> Quiet:
    """Return a line worth knowing that is not the first thing to read."""
    return Quiet(text=text)
