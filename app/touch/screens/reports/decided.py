"""What competent persons decided lately: released, condemned, accepted for a time; by whom, why and until when."""

from datetime import timedelta
from typing import Any

from kivy.uix.widget import Widget

from app.language import say
from app.register import Past
from app.touch.screens.item.history import kind_of, struck_text
from app.touch.services import Services
from app.touch.widgets.buttons import RowButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Words
from app.touch.wording import day, who
from inspection_rules.events import Acceptance, Decision

DAYS = 30
MOST_ROWS = 60
Found = list[tuple[str, str, Past]]


class DecidedPage(Page):
    """Every decision as a row, newest first; a tap opens its item."""

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        under = say("in the last {count} days", count=DAYS)
        super().__init__(heading=say("Released and condemned"), under=under, **kwargs)
        self._services, self._app = services, app

    def shown(self) -> None:
        """Read what was decided."""
        register, since = self._services.register, self._services.today() - timedelta(days=DAYS)

        def read() -> Found:
            newest = register.decided(since)[: MOST_ROWS + 1]
            return [(item, register.item(item).tag, one) for item, one in newest]

        self._services.records.do(read, self._show)

    def _show(self, found: Found) -> None:
        content: list[Widget] = []
        for item, tag, one in found[:MOST_ROWS]:
            title = " · ".join((tag, day(one.on), kind_of(one)))
            row = RowButton(title=title, line=f"{who(one.by)}: {said_of(one)}", more=struck_text(one), key=item)
            row.bind(on_release=self._open)
            content.append(row)
        if len(found) > MOST_ROWS:
            content.append(Quiet(text=say("The newest {count} are shown.", count=MOST_ROWS)))
        self.fill(*(content or [Words(text=say("Nothing was released, condemned or accepted."))]))

    def _open(self, row: RowButton) -> None:
        self._app.show_item(row.key)


def said_of(one: Past) -> str:
    """Say why it was decided, and until when it holds."""
    record = one.record
    if not isinstance(record, Decision | Acceptance):
        return ""
    until = say("until {day}", day=day(record.until)) if record.until else ""
    return " · ".join(text for text in (record.reason, until) if text)
