"""Which regimes count: the bodies of rules this organisation answers to."""

from functools import partial
from typing import Any

from kivy.uix.widget import Widget

from app.language import mark, say
from app.touch.screens.settings.allowed import may_change, refusal
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Words

SAYS = mark(
    "Tap each one that you answer to. Where several count, the strictest speaks. Common practice always counts. It "
    "counts from the next inspection on: what was judged before stands as it was judged."
)

READS = mark("Where several count, the strictest speaks. Common practice always counts.")


class RegimesPage(Page):
    """Every regime as a button that turns it on and off; each tap is kept at once.

    Whoever acts as a user or designated person reads them, and is told who changes them.
    """

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(heading=say("Which regimes count?"), under=say("in this register, for every item"), **kwargs)
        self._services, self._app = services, app
        self._chosen: tuple[str, ...] = ()
        self._known: tuple[str, ...] = ()

    def shown(self) -> None:
        """Read which count now."""
        register = self._services.register

        def work() -> tuple[tuple[str, ...], tuple[str, ...]]:
            return tuple(sorted({pack.regime for pack in register.book().packs if pack.regime})), register.regimes()

        self._services.records.do(work, lambda found: self._show(*found))

    def _show(self, known: tuple[str, ...], chosen: tuple[str, ...]) -> None:
        self._known, self._chosen = known, chosen
        may = may_change(self._app)
        content: list[Widget] = [
            Words(text=say(SAYS)) if may else Words(text=say(READS)),
            *refusal(self._app, self.shown),
        ]
        for regime in known:
            counts = regime in chosen
            name = say(regime)
            text = say("{regime}: counts", regime=name) if counts else say("{regime}: does not count", regime=name)
            if may:
                button = AnswerButton(text=text, chosen=counts)
                button.bind(on_release=partial(self._turn, regime))
                content.append(button)
            else:
                content.append(Words(text=text, bold=counts))
        if not chosen:
            content.append(Quiet(text=say("None is chosen: only common practice speaks, which is no law.")))
        place = self.ids.scroll.scroll_y
        self.fill(*content)
        self.ids.scroll.scroll_y = place

    def _turn(self, regime: str, _button: object) -> None:
        if not may_change(self._app):  # whoever acted when the buttons were made acts no more
            self._show(self._known, self._chosen)
            return
        chosen = tuple(one for one in self._known if (one in self._chosen) is not (one == regime))
        register, known = self._services.register, self._known

        def work() -> tuple[str, ...]:
            register.set_regimes(chosen)
            return register.regimes()

        self._services.records.do(work, lambda kept: self._show(known, kept))
