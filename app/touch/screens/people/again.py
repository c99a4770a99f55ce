"""The PIN of whoever acts is asked for again; what was under way waits below, as it was."""

from typing import Any

from app.language import say
from app.touch.screens.people.pin import GivePinPage
from app.touch.services import Services
from inspection_rules.record import Person


class AgainPage(GivePinPage):
    """Stays until the PIN was given, or somebody else acts."""

    def __init__(self, services: Services, app: Any, person: Person, **kwargs: Any) -> None:
        self._app = app
        super().__init__(
            services,
            person,
            lambda _pin: app.acting.gave(person),
            other=(say("Somebody else acts"), self._somebody_else),
            why=say("You gave your PIN more than 8 hours ago. Everything is kept as it was. Type it again."),
            leaves=False,
            **kwargs,
        )

    def _somebody_else(self) -> None:
        self._app.ask_who(self._somebody)

    def _somebody(self, _person: Person) -> None:
        if self.manager is not None:
            self.manager.pop(self)
