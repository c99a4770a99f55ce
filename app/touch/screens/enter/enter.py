"""New item: the three ways of entering one."""

from typing import Any

from app.language import say
from app.touch.services import Services
from app.touch.widgets.page import Page


class EnterPage(Page):
    """The ways of entering an item: from a blank, like one that is there, from a list."""

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(heading=say("New item"), **kwargs)
        self._services, self._app = services, app
