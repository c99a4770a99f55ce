"""Today: what was interrupted, what must not be used, what is due, what was looked at, and where a round starts."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any

from kivy.properties import StringProperty
from kivy.uix.widget import Widget

from app.language import mark, say, say_many, told
from app.register import Board, Draft, Group, ItemRow, RoundDraft
from app.touch.screens.items.away import away
from app.touch.screens.round.saying import about
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton, RowButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import answer_words, day, shown_sign, stopped, who
from inspection_rules.item import Item
from inspection_rules.record import Person
from inspection_rules.words import Where

FEW_ROWS = 5  # of each kind at first: what stops comes into sight without scrolling through all that is due
MOST_ROWS = 40  # of each kind: more would be slow to show and is nobody's work of one day
# Each group's name on the board, and what it is called with its count.
GROUPS = (
    ("removed", mark("To be removed: do not use · {count}")),
    ("held", mark("On hold: do not use · {count}")),
    ("overdue", mark("Inspection overdue: do not use · {count}")),
    ("due", mark("Due within 14 days · {count}")),
    ("elsewhere", mark("Ashore, on loan or not found · {count}")),
    ("looked_at", mark("Looked at today · {count}")),
)


@dataclass(frozen=True, slots=True)
class Found:
    """What the page shows: the groups, the inspections that were interrupted, and the round under way."""

    board: Board
    resumed: list[tuple[Draft, Item]]
    round: RoundDraft | None


class TodayPage(Page):
    """The first page.

    Attributes:
        notice: what has just been logged.
        place: the one place that is shown; empty for all. It is kept until the app ends.
    """

    notice = StringProperty("")
    place = StringProperty("")

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(heading=say("Today"), leaves=False, **kwargs)
        self._services, self._app = services, app
        self._scrolls = False
        self._found: Found | None = None
        self._unfolded: set[str] = set()  # the groups that are shown beyond their first rows, until the app ends
        self.fill_foot(*self._steps(None))
        self.bind(notice=self._noticed, wide=self._show_again)
        app.bind(person=self._show_again)

    def shown(self) -> None:
        """Read anew what today asks for."""
        on, place = self._services.today(), self.place
        self.under = day(on)
        register = self._services.register

        def work() -> Found:
            drafts = [(draft, register.item(draft.inspection.item)) for draft in register.drafts()]
            return Found(register.board(on, place, MOST_ROWS), drafts, register.round_under_way())

        self._services.records.do(work, self._show)

    def _noticed(self, *_changed: object) -> None:
        self._scrolls = True

    def _show_again(self, *_changed: object) -> None:
        if self._found is not None:
            self._show(self._found)

    def _show(self, found: Found) -> None:
        self._found = found
        content: list[Widget] = []
        if self.notice:
            content.append(Words(text=self.notice, bold=True))
        if found.board.ahead:
            content.append(Words(text=self._behind(found.board.ahead), bold=True))
        # A phone on its side has no room for a foot: what comes next stands at the top then.
        steps = self._steps(found.round)
        if self.wide:
            content += reversed(steps)
        content.append(self._who())
        # At the top: who cannot read the list in the glare must not have to go through it.
        content.append(self._quiet(say("Settings"), self._app.show_settings))
        # What belongs to the round is gone on with in the round.
        inside = set(found.round.made.items) if found.round is not None else set()
        for draft, item in found.resumed:
            if item.id not in inside:
                content.append(self._resume(draft, item))
        content.append(self._where())
        for name, heading in GROUPS:
            group: Group = getattr(found.board, name)
            if group.count:
                content.append(Title(text=say(heading, count=group.count)))
                content += self._rows(name, group)
        asked = any(getattr(found.board, name).count for name, _ in GROUPS[:4])
        if not (found.resumed or found.round or asked):
            content.append(Words(text=say("Nothing is due, on hold or to be removed.")))
            content.append(Quiet(text=say("Before use, take the item from the list of all items.")))
        content.append(self._quiet(say("Rounds"), self._rounds))
        content.append(self._quiet(say("Reports"), self._reports))
        self.fill(*content)
        self.fill_foot(*([] if self.wide else steps))
        if self._scrolls:
            self._scrolls = False
            self.ids.scroll.scroll_y = 1

    def _behind(self, count: int) -> str:
        return say_many(
            "The date of this device, {day}, lies before the latest record of {count} item. Set its date first: "
            "until then it may say that nothing is due.",
            "The date of this device, {day}, lies before the latest records of {count} items. Set its date first: "
            "until then it may say that nothing is due.",
            count,
            day=day(self._services.today()),
        )

    def _steps(self, under_way: RoundDraft | None) -> list[Widget]:
        items = AnswerButton(text=say("All items"))
        items.bind(on_release=lambda _one: self._app.show_items())
        if under_way is None:
            main = MainButton(text=say("Start a round"))
            main.bind(on_release=lambda _one: self._start())
        else:
            done, count = len(under_way.made.entries), len(under_way.made.items)
            what = about(under_way.made)
            main = MainButton(
                text=say("Go on with the round: {what} · {done} of {count}", what=what, done=done, count=count)
            )
            main.bind(on_release=lambda _one: self._go_on(under_way))
        return [items, main]

    # --- what is on it ---------------------------------------------------------------------------------

    def _who(self) -> Widget:
        person: Person | None = self._app.person
        text = say("Inspecting: {who}", who=who(person)) if person else say("Say who is inspecting")
        button = QuietButton(text=text, bold=True)
        button.bind(on_release=lambda _one: self._app.ask_who())
        return button

    def _where(self) -> Widget:
        text = say("Only {place}", place=self.place) if self.place else say("All places")
        return self._quiet(text, self._choose_place)

    def _resume(self, draft: Draft, item: Item) -> Widget:
        inspection = draft.inspection
        text = say(
            "Go on with {tag}\n{kind} · {count} answered",
            tag=item.tag, kind=say(str(inspection.kind)), count=len(inspection.entries),
        )  # fmt: skip
        button = AnswerButton(text=text)
        button.bind(on_release=lambda _one: self._app.begin(item.id, inspection.kind))
        return button

    def _rows(self, name: str, group: Group) -> list[Widget]:
        folds = len(group.rows) > FEW_ROWS + 1 and name not in self._unfolded  # one more row is as high as the button
        rows: list[Widget] = [self._row(row) for row in group.rows[: FEW_ROWS if folds else None]]
        if folds:
            rows.append(
                self._quiet(say("Show {count} more", count=len(group.rows) - FEW_ROWS), partial(self._unfold, name))
            )
        elif group.count > len(group.rows):
            more = group.count - len(group.rows)
            rows.append(Quiet(text=say("and {count} more, in the list of all items", count=more)))
        return rows

    def _unfold(self, name: str) -> None:
        self._unfolded.add(name)
        self._show_again()

    def _row(self, row: ItemRow) -> Widget:
        title = f"{row.tag} · {row.description}" if row.description else row.tag
        button = RowButton(answer=shown_sign(row.answer, row.whereabouts), title=title, key=row.id, line=words(row))
        button.bind(on_release=lambda one: self._app.show_item(one.key))
        return button

    def _quiet(self, text: str, act: Callable[[], None]) -> Widget:
        button = QuietButton(text=text)
        button.bind(on_release=lambda _one: act())
        return button

    # --- where to go -----------------------------------------------------------------------------------

    def _start(self) -> None:
        from app.touch.screens.round.places import PlacesPage

        self.manager.push(PlacesPage(self._services, self._app))

    def _go_on(self, draft: RoundDraft) -> None:
        from app.touch.screens.round.round import RoundPage

        self.manager.push(RoundPage(self._services, self._app, draft))

    def _reports(self) -> None:
        from app.touch.screens.reports.reports import ReportsPage

        self.manager.push(ReportsPage(self._services, self._app))

    def _rounds(self) -> None:
        from app.touch.screens.round.signed import RoundsPage

        self.manager.push(RoundsPage(self._services, self._app, self.place))

    def _choose_place(self) -> None:
        from app.touch.screens.today.where import WherePage

        def chosen(place: str) -> None:
            self.place = place
            self.shown()

        self.manager.push(WherePage(self._services, self.place, chosen))


def words(row: ItemRow) -> str:
    """Write where an item stands."""
    said = answer_words(row.answer, row.door)
    if row.whereabouts is not Where.HERE and not stopped(row.answer):
        return " · ".join(one for one in away(row) if one)
    if row.whereabouts is not Where.HERE:
        said = say("{where} · {answer}", where=say(row.whereabouts.value), answer=said)
    if stopped(row.answer):
        return f"{said}\n{told(row.sentence)}"
    if row.next_due is not None:
        return say("{answer} · examination by {day}", answer=said, day=day(row.next_due))
    return said
