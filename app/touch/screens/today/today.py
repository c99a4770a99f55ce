"""Today: what was interrupted, what is due, what must not be used, and who is inspecting."""

from typing import Any

from kivy.properties import StringProperty
from kivy.uix.widget import Widget

from app.register import Draft, ItemRow, Today
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton, RowButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import answer_words, day, who
from inspection_rules.record import Item, Person

MOST_ROWS = 40  # of each kind: more would be slow to show and is nobody's work of one day
Resumed = tuple[Draft, Item]


class TodayPage(Page):
    """The first page. `notice` says what has just been logged."""

    notice = StringProperty("")

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(heading="Today", leaves=False, **kwargs)
        self._services, self._app = services, app
        items = MainButton(text="All items")
        items.bind(on_release=lambda _one: app.show_items())
        self.fill_foot(items)
        app.bind(person=lambda *_: self.shown())

    def shown(self) -> None:
        """Read anew what today asks for."""
        on = self._services.today()
        self.under = day(on)
        register = self._services.register

        def work() -> tuple[Today, list[Resumed]]:
            drafts = register.drafts()
            return register.today(on), [(draft, register.item(draft.inspection.item)) for draft in drafts]

        self._services.records.do(work, lambda found: self._show(*found))

    def _show(self, today: Today, resumed: list[Resumed]) -> None:
        content: list[Widget] = [self._who()]
        if self.notice:
            content.append(Words(text=self.notice, bold=True))
        for draft, item in resumed:
            content.append(self._resume(draft, item))
        for heading, rows in (
            ("To be removed: do not use", today.removed),
            ("On hold: do not use", today.held),
            ("Inspection overdue: do not use", today.overdue),
            ("Due within 14 days", today.due),
        ):
            if rows:
                content.append(Title(text=f"{heading} · {len(rows)}"))
                content += [self._row(row) for row in rows[:MOST_ROWS]]
                if len(rows) > MOST_ROWS:
                    content.append(Quiet(text=f"and {len(rows) - MOST_ROWS} more, in the list of all items"))
        if not (resumed or today.overdue or today.due or today.held or today.removed):
            content.append(Words(text="Nothing is due, on hold or to be removed."))
            content.append(Quiet(text="Before use, take the item from the list of all items."))
        settings = QuietButton(text="Settings")
        settings.bind(on_release=lambda _one: self._app.show_settings())
        content.append(settings)
        self.fill(*content)

    def _who(self) -> Widget:
        person: Person | None = self._app.person
        button = QuietButton(text=f"Inspecting: {who(person)}" if person else "Say who is inspecting", bold=True)
        button.bind(on_release=lambda _one: self._app.ask_who())
        return button

    def _resume(self, draft: Draft, item: Item) -> Widget:
        inspection = draft.inspection
        button = AnswerButton(text=f"Go on with {item.tag}\n{inspection.kind} · {len(inspection.entries)} answered")
        button.bind(on_release=lambda _one: self._app.begin(item.id, inspection.kind))
        return button

    def _row(self, row: ItemRow) -> Widget:
        button = RowButton(answer=row.answer.value, title=f"{row.tag} · {row.description}", key=row.id, line=words(row))
        button.bind(on_release=lambda one: self._app.show_item(one.key))
        return button


def words(row: ItemRow) -> str:
    """Write where an item stands, in one line."""
    said = answer_words(row.answer, row.door)
    if row.next_due is not None:
        return f"{said} · examination by {day(row.next_due)}"
    return f"{said}\n{row.sentence}"
