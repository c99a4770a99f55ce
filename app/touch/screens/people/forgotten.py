"""A forgotten PIN: another competent person takes it off, or it is reset, which stays to be seen."""

from functools import partial
from typing import Any

from kivy.uix.widget import Widget

from app.language import mark, say
from app.touch.screens.ask.ask import DoubtPage
from app.touch.screens.people.pin import GivePinPage
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton, QuietButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Title, Words
from app.touch.wording import who
from inspection_rules.record import Person

WHAT = mark("The PIN cannot be read out of the register. It can be taken off, and a new one set afterwards.")
NOTED = mark("Whoever resets it, and when, stays noted under People and PINs, where the safety officer sees it.")
RESETS = mark("Anybody could then act as this person until a new PIN is set.")


class ForgottenPage(Page):
    """The two ways of taking a forgotten PIN off."""

    def __init__(self, services: Services, app: Any, person: Person, **kwargs: Any) -> None:
        super().__init__(heading=say("Forgotten PIN"), under=who(person), **kwargs)
        self._services, self._app, self._person = services, app, person

    def shown(self) -> None:
        """Read who else has a PIN."""
        self._services.records.do(self._services.register.pins.people, self._show)

    def _show(self, pinned: list[Person]) -> None:
        others = [one for one in pinned if one.name.casefold() != self._person.name.casefold()]
        content: list[Widget] = [Words(text=say(WHAT))]
        if others:
            content.append(Title(text=say("Another competent person takes it off")))
        for other in others:
            button = AnswerButton(text=say("{who}, with their PIN", who=who(other)))
            button.bind(on_release=partial(self._another, other))
            content.append(button)
        reset = QuietButton(text=say("Reset it without any PIN"))
        reset.bind(on_release=self._ask)
        self.fill(*content, Title(text=say("Nobody can")), Words(text=say(NOTED)), reset)

    def _another(self, other: Person, _button: object) -> None:
        register, now = self._services.register, self._services.now
        self.manager.push(
            GivePinPage(
                self._services,
                other,
                self._gone,
                tries=lambda pin: register.pins.remove(self._person, pin, now(), another=other),
                why=say("Type your PIN: it takes off the PIN of {who}.", who=who(self._person)),
            )
        )

    def _ask(self, *_event: object) -> None:
        self.manager.push(
            DoubtPage(
                say("Reset the PIN?"),
                [say(RESETS), say(NOTED)],
                (say("Reset it"), self._reset),
                (say("Leave it as it is"), _nothing),
            )
        )

    def _reset(self) -> None:
        register, by, at = self._services.register, self._app.person, self._services.now()
        self._services.records.do(lambda: register.pins.reset(self._person, by, at), lambda _none: self._gone(""))

    def _gone(self, _pin: str) -> None:
        self._app.acting.forget(self._person)
        if self.manager is not None:
            self.manager.pop(self)


def _nothing() -> None:
    """Leave everything as it is."""
