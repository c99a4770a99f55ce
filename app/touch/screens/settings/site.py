"""Your organisation's own values: what it has set for itself beside the rules."""

from collections.abc import Callable
from typing import Any

from kivy.metrics import dp
from kivy.uix.widget import Widget

from app.language import mark, say, told
from app.touch.screens.settings.allowed import may_change, refusal
from app.touch.services import Services
from app.touch.typed import Typed, in_words, quantity, units_of
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton
from app.touch.widgets.keypad import Keypad
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Title, Words
from inspection_rules.case import Site
from inspection_rules.quantity import Quantity, QuantityError

SLIP = mark("Slip at which a splice is no longer serviceable")
STRICTER = mark("It counts where it is stricter than the trade's practice. A looser value changes nothing.")


class SitePage(Page):
    """Each value with the way to change it."""

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(heading=say("Your own values"), under=say("in this register, for every item"), **kwargs)
        self._services, self._app = services, app

    def shown(self) -> None:
        """Read what is set."""
        self._services.records.do(self._services.register.site, self._show)

    def _show(self, site: Site) -> None:
        unit = self._app.preferences.length_unit
        own = site.slip_action
        change = AnswerButton(text=say("Set another value") if own else say("Set a value"))
        change.bind(on_release=lambda _one: self._type(site))
        content: list[Widget] = [
            Title(text=say(SLIP)),
            Words(text=in_words(own, unit) if own else say("Not set: the trade's practice counts."), bold=True),
            Quiet(text=say(STRICTER)),
            *([change] if may_change(self._app) else refusal(self._app, self.shown)),
        ]
        if own and may_change(self._app):
            clear = QuietButton(text=say("Set none"))
            clear.bind(on_release=lambda _one: self._set(site, None))
            content.append(clear)
        self.fill(*content)

    def _type(self, site: Site) -> None:
        units = units_of("length", self._app.preferences.length_unit)
        self.manager.push(LengthPage(say(SLIP), units, lambda length: self._set(site, length)))

    def _set(self, site: Site, length: Quantity | None) -> None:
        if not may_change(self._app):  # whoever began acts no more
            self.shown()
            return
        register, changed = self._services.register, site.model_copy(update={"slip_action": length})

        def work() -> Site:
            register.set_site(changed)
            return register.site()

        self._services.records.do(work, self._show)


class LengthPage(Page):
    """A length on the keypad; `typed` is called with it after the page has gone."""

    MOST_WIDTH = dp(900)

    def __init__(self, heading: str, units: tuple[str, ...], typed: Callable[[Quantity], None], **kwargs: Any) -> None:
        super().__init__(heading=heading, at_thumb=True, **kwargs)
        self._typed = typed
        self.words = Words(text=" ")
        self.pad = Keypad(value=Typed(units[0]), units=list(units))
        self.take = MainButton(text=say("Take this length"))
        self.take.bind(on_release=self._take)
        self.bind(wide=self._lay)
        self._lay()

    def _lay(self, *_changed: object) -> None:
        for widget in (self.pad, self.take, self.words):
            if widget.parent is not None:
                widget.parent.remove_widget(widget)
        self.pad.wide = self.wide
        if self.wide:
            self.pad.ids.left.add_widget(self.take)
            self.fill_foot()
        else:
            self.fill_foot(self.take)
        self.fill(self.words, self.pad)

    def _take(self, *_event: object) -> None:
        try:
            length = quantity(self.pad.value, "length", False)
            if not length.value:
                raise QuantityError(say("A length of nothing would stop every splice. Type another one."))
        except QuantityError as error:
            self.words.text, self.words.bold = told(str(error)), True
            return
        self.manager.pop(self)
        self._typed(length)
