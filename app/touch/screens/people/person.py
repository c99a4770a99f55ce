"""One person: the name, the PIN, the unit of length; records stay as they were signed."""

from collections.abc import Callable
from functools import partial
from typing import Any

from kivy.uix.widget import Widget

from app.language import mark, say
from app.register import Tried
from app.touch.screens.ask.ask import DoubtPage
from app.touch.screens.people.forgotten import ForgottenPage
from app.touch.screens.people.pin import GivePinPage, NewPinPage, wrong_words
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton, QuietButton
from app.touch.widgets.fields import TextField
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import who
from inspection_rules.record import Person
from inspection_rules.words import COMPETENT

STAYS = mark("Records that are signed keep the name they were signed with.")
PIN_FIRST = mark("Take the PIN off before the name is changed: it belongs to the name.")
OUT_WITH_PIN = mark("It is done with the PIN, and noted under People and PINs.")
UNITS = {"mm": mark("Millimetres first"), "in": mark("Inches first, to the sixteenth")}
MOST_NAME = 120


class PersonPage(Page):
    """What can be changed of one person in one competence."""

    def __init__(self, services: Services, app: Any, person: Person, **kwargs: Any) -> None:
        super().__init__(heading=person.name, under=say(str(person.competence)), **kwargs)
        self._services, self._app, self._person = services, app, person
        self._pinned = self._asked = False
        self._notice = ""
        self.field = TextField(text=person.name, hint_text=say("Name or role"))

    def shown(self) -> None:
        """Read whether there is a PIN."""
        pins = self._services.register.pins
        self._services.records.do(lambda: (pins.people(), pins.asked_of(self._person)), self._read)

    def _read(self, found: tuple[list[Person], bool]) -> None:
        pinned, self._asked = found
        self._pinned = self._person in pinned
        self._build()

    def _build(self) -> None:
        content: list[Widget] = [Words(text=self._notice, bold=True)] if self._notice else []
        if self._person.competence in COMPETENT:
            content += [Title(text=say("PIN to act as {competence}", competence=say(str(self._person.competence))))]
            if self._pinned:
                content.append(_button(AnswerButton, say("Change the PIN"), self._change))
                content.append(_button(QuietButton, say("Take the PIN off"), self._take_off))
                content.append(_button(QuietButton, say("It is forgotten"), self._forgotten))
            else:
                content.append(_button(AnswerButton, say("Set a PIN"), self._new))
        content.append(Title(text=say("Unit of length")))
        unit = self._app.preferences.of(self._person.name).length_unit
        for one, says in UNITS.items():
            content.append(_button(AnswerButton, say(says), partial(self._unit, one), chosen=one == unit))
        content.append(Title(text=say("Name")))
        if self._asked:
            content.append(Quiet(text=say(PIN_FIRST)))
        else:
            content += [self.field, _button(AnswerButton, say("Change the name"), self._rename)]
        content.append(_button(QuietButton, say("Take out of the list"), self._ask_out))
        content.append(Quiet(text=say(STAYS)))
        self.fill(*content)

    # --- the PIN -----------------------------------------------------------------------------------------

    def _new(self) -> None:
        self.manager.push(NewPinPage(self._person, partial(self._set, "")))

    def _change(self) -> None:
        def given(before: str) -> None:
            self._app.stack.push(NewPinPage(self._person, partial(self._set, before)))

        self.manager.push(GivePinPage(self._services, self._person, given, why=say("Type the PIN there is now.")))

    def _set(self, before: str, pin: str) -> None:
        register, by, at = self._services.register, self._app.person, self._services.now()
        self._services.records.do(lambda: register.pins.set(self._person, pin, by, at, before=before), self._was_set)

    def _was_set(self, tried: Tried) -> None:
        if tried.right:
            if self._app.person == self._person:
                self._app.acting.gave(self._person)
            self._say(say("The PIN is set. It is asked for when this person acts, at each start and after 8 hours."))
        else:
            self._say(wrong_words(tried))

    def _take_off(self) -> None:
        register, now = self._services.register, self._services.now
        self.manager.push(
            GivePinPage(
                self._services,
                self._person,
                self._taken_off,
                tries=lambda pin: register.pins.remove(self._person, pin, now()),
            )
        )

    def _taken_off(self, _pin: str) -> None:
        self._app.acting.forget(self._person)
        self._say(say("The PIN is off."))

    def _forgotten(self) -> None:
        self.manager.push(ForgottenPage(self._services, self._app, self._person))

    # --- the person --------------------------------------------------------------------------------------

    def _unit(self, unit: str) -> None:
        self._app.prefer_unit(self._person.name, unit)
        self._build()

    def _rename(self) -> None:
        name = " ".join(self.field.text.split())[:MOST_NAME]
        if not name or name == self._person.name:
            self.field.hint_text = say("Type it here first")
            return
        renamed, old = self._person.model_copy(update={"name": name}), self._person
        register = self._services.register

        def work() -> bool:
            if register.pins.asked_of(renamed):
                return False
            register.set_people(dict.fromkeys(renamed if one == old else one for one in register.people()))
            return True

        self._services.records.do(work, lambda done: self._renamed(old, renamed, done))

    def _renamed(self, old: Person, renamed: Person, done: bool) -> None:
        if not done:
            self._say(say("{name} has a PIN: choose another name. Nothing was changed.", name=renamed.name))
            return
        self._app.prefer_unit(renamed.name, self._app.preferences.of(old.name).length_unit)
        if self._app.person == old:
            self._app.person = renamed
        self._person, self.heading = renamed, renamed.name
        self._say(say("The name is changed in the list."))

    def _ask_out(self) -> None:
        self.manager.push(
            DoubtPage(
                say("Take {who} out of the list?", who=who(self._person)),
                [say(STAYS), *([say(OUT_WITH_PIN)] if self._asked else [])],
                (say("Take out of the list"), self._out),
                (say("Leave it as it is"), _nothing),
            )
        )

    def _out(self) -> None:
        if not self._asked:
            self._services.records.do(lambda: self._leave(""), self._tried_out)
            return
        page = GivePinPage(
            self._services,
            self._person,
            lambda _pin: self._left(),
            tries=self._leave,
            other=(say("It is forgotten"), lambda: self._forgotten_below(page)),
            why=say("Type the PIN of whoever is taken out of the list."),
        )
        self._app.stack.push(page)

    def _leave(self, pin: str) -> Tried:
        return self._services.register.pins.leave(self._person, pin, self._app.person, self._services.now())

    def _tried_out(self, tried: Tried) -> None:
        if tried.right:
            self._left()
        else:  # a PIN was set meanwhile
            self._say(wrong_words(tried))

    def _forgotten_below(self, asking: Page) -> None:
        self._app.stack.pop(asking)
        self._app.stack.push(ForgottenPage(self._services, self._app, self._person))

    def _left(self) -> None:
        self._app.acting.forget(self._person)
        if self.manager is not None:
            self.manager.pop(self)

    def _say(self, notice: str) -> None:
        self._notice = notice
        self.shown()


def _button(kind: type, text: str, act: Callable[[], None], **how: Any) -> Any:
    button = kind(text=text, **how)
    button.bind(on_release=lambda _one: act())
    return button


def _nothing() -> None:
    """Leave everything as it is."""
