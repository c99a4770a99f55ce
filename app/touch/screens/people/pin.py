"""Typing a PIN on large keys, and asking a person for theirs."""

from collections.abc import Callable
from typing import Any

from kivy.uix.gridlayout import GridLayout
from kivy.uix.label import Label
from kivy.uix.widget import Widget

from app.language import mark, say, say_many
from app.register import Tried
from app.register.people import LONGEST, SHORTEST
from app.touch.markup import load_markup
from app.touch.services import Services
from app.touch.widgets.buttons import MainButton, QuietButton
from app.touch.widgets.keypad import KeyButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Words
from app.touch.wording import who
from inspection_rules.record import Person

KEYS = ("1", "2", "3", "4", "5", "6", "7", "8", "9", "erase", "0", "")
TALL, WIDE = 3, 6  # keys in a row
ERASE = mark("erase")
WRONG = mark("This is not the PIN. Nothing was changed.")


class Dots(Label):
    """How many digits were typed; never which."""


class PinKeys(GridLayout):
    """The ten digits and the key that takes the last one back."""


class DigitsPage(Page):
    """Gathers the digits of a PIN; `typed` is called with them, and the page stays."""

    def __init__(self, heading: str, under: str, why: str, typed: Callable[[str], None], **kwargs: Any) -> None:
        super().__init__(heading=heading, under=under, at_thumb=True, **kwargs)
        self._typed, self._why = typed, why
        self._digits = ""
        self._busy = False
        self.words = Words(text=why)
        self.dots = Dots(text="–")
        self.others: list[Widget] = []
        self._lay()

    def say(self, problem: str) -> None:
        """Begin anew, and say what was wrong."""
        self._digits, self._busy = "", False
        self.words.text, self.words.bold = problem or self._why, bool(problem)
        self.ids.scroll.scroll_y = 1  # the words stand above the keys
        self._show()

    def _lay(self) -> None:
        keys = self._keys = PinKeys()
        self.bind(wide=self._turn)
        for name in KEYS:
            if not name:
                keys.add_widget(Widget(size_hint_y=None, height=0))
                continue
            key = KeyButton(text=say(ERASE) if name == ERASE else name)
            key.name = name
            key.bind(on_release=lambda one: self.press(one.name))
            keys.add_widget(key)
        self.fill(self.words, self.dots, keys)
        self._fill()

    def _turn(self, *_changed: object) -> None:
        self._keys.cols = WIDE if self.wide else TALL

    def _fill(self) -> None:
        main = MainButton(text=say("Go on"))
        main.bind(on_release=lambda _one: self._go())
        self.fill_foot(*self.others, main)

    def press(self, key: str) -> None:
        """Work one key."""
        if self._busy:
            return
        self._digits = self._digits[:-1] if key == ERASE else (self._digits + key)[:LONGEST]
        self._show()

    def _show(self) -> None:
        self.dots.text = "•" * len(self._digits) or "–"

    def _go(self) -> None:
        if self._busy:
            return
        if len(self._digits) < SHORTEST:
            self.say(say("A PIN has {least} to {most} digits.", least=SHORTEST, most=LONGEST))
            return
        digits, self._busy = self._digits, True
        self.words.text, self.words.bold = say("Checking …"), True
        self._typed(digits)


class GivePinPage(DigitsPage):
    """Asks a person for the PIN; `given` is called once it was right, and the page has gone.

    `tries` makes the try, on the register's thread; without it the PIN is only checked.
    """

    def __init__(
        self,
        services: Services,
        person: Person,
        given: Callable[[str], None],
        *,
        tries: Callable[[str], Tried] | None = None,
        other: tuple[str, Callable[[], None]] | None = None,
        why: str = "",
        **kwargs: Any,
    ) -> None:
        """`other` is another way out: what its button says, and what it does."""
        super().__init__(say("PIN"), who(person), why or say("Type the PIN."), self._try, **kwargs)
        self._services, self._person, self._given = services, person, given
        self._tries = tries or self._check
        if other is not None:
            button = QuietButton(text=other[0])
            button.bind(on_release=lambda _one: other[1]())
            self.others = [button]
            self._fill()

    def _check(self, pin: str) -> Tried:
        return self._services.register.pins.try_pin(self._person, pin, self._services.now())

    def _try(self, pin: str) -> None:
        self._services.records.do(lambda: self._tries(pin), lambda tried: self._tried(pin, tried), self._failed)

    def _failed(self, error: Exception) -> None:
        self.say(str(error))

    def _tried(self, pin: str, tried: Tried) -> None:
        if tried.right:
            self.manager.pop(self)
            self._given(pin)
            return
        self.say(wrong_words(tried))


class NewPinPage(DigitsPage):
    """A new PIN, typed twice; `chosen` is called with it after the page has gone."""

    def __init__(self, person: Person, chosen: Callable[[str], None], **kwargs: Any) -> None:
        why = say("Choose {least} to {most} digits that nobody guesses.", least=SHORTEST, most=LONGEST)
        super().__init__(say("New PIN"), who(person), why, self._once, **kwargs)
        self._chosen, self._first = chosen, ""

    def _once(self, pin: str) -> None:
        if not self._first:
            self._first = pin
            self.say(say("Type it once more."))
        elif pin == self._first:
            self.manager.pop(self)
            self._chosen(pin)
        else:
            self._first = ""
            self.say(say("The two were not the same. Choose it again."))


def wrong_words(tried: Tried) -> str:
    """Say that a PIN was wrong, and how long it is before the next try counts."""
    if not tried.wait:
        return say(WRONG)
    minutes = -(-tried.wait // 60)
    if tried.wait > 60:
        wait = say_many("Next try in {count} minute.", "Next try in {count} minutes.", minutes)
    else:
        wait = say_many("Next try in {count} second.", "Next try in {count} seconds.", tried.wait)
    return f"{say('Too many wrong tries.')} {wait}"


load_markup(__file__)
