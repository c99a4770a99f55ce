"""A round under way: its items in walking order, what became of each, and the next one."""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from kivy.properties import StringProperty
from kivy.uix.widget import Widget

from app.language import mark, say
from app.register import RoundDraft
from app.touch.screens.ask.ask import ChoicePage
from app.touch.screens.round.saying import LIFT, about, sign_of, status, tags
from app.touch.screens.round.state import Line, State, read, with_met, with_use
from app.touch.screens.use.words import told_in_a_line
from app.touch.services import Services
from app.touch.widgets.buttons import MainButton, QuietButton, RowButton
from app.touch.widgets.page import Page
from app.touch.widgets.rope import LARGE_TYPE
from app.touch.widgets.words import Words
from app.touch.wording import stopped, who
from inspection_rules.case import Use
from inspection_rules.use_told import Needs
from inspection_rules.words import InspectionKind

AWAY, KEEP = mark("Throw it away"), mark("Keep it")
AT_ONCE = 60  # rows that are shown at once: more would be slow to lay out
BEFORE = 5  # of them before the next item


class RoundPage(Page):
    """The list of a round under way.

    Attributes:
        notice: what has just been logged.
        state: the round as it was read last; None before.
    """

    notice = StringProperty("")

    def __init__(self, services: Services, app: Any, draft: RoundDraft, **kwargs: Any) -> None:
        super().__init__(heading=say("Round: {what}", what=about(draft.made)), under=who(draft.made.by), **kwargs)
        self.services, self.app = services, app
        self.state: State | None = None
        self._draft = draft
        self._first: int | None = None
        self._told = ""
        self.bind(wide=self._turned)

    # --- what is shown ---------------------------------------------------------------------------------

    def shown(self) -> None:
        """Read the round anew: what was logged meanwhile is its item's answer."""
        self._first = None
        self._read()

    def on_leave(self, *_event: object) -> None:
        """The next thing is begun: what was logged before it is news no more."""
        self.notice = self._told = ""

    def _read(self) -> None:
        draft, now, register = self._draft, self.services.now(), self.services.register
        self.services.records.do(lambda: read(register, draft, now), self._show)

    def _show(self, state: State) -> None:
        self.state, self._draft = state, state.draft
        count = len(state.lines)
        self.corner = f"{state.done} / {count}"
        content: list[Widget] = []
        if self.notice:
            content.append(Words(text=self.notice, bold=True))
        stops = _stopped_already(state)
        if stops:
            content.append(Words(text=say("Stopped by: {tags}", tags=tags(stops))))
        if state.made.use is not None:
            content.append(Words(text=told_in_a_line(state.made.use)))
        lifts, tell = state.made.purpose == LIFT, self._button(QuietButton(text=_of_use(state)), self._tell_use)
        if lifts:  # where it is asked for most, it is not looked for below a long list
            content.append(tell)
        # A phone on its side has no room for a foot: what comes next stands above the items then.
        steps = self._steps(state)
        if self.wide:
            content += reversed(steps)
        content += self._rows(state)
        if not lifts:
            content.append(tell)
        for text, act in (
            (say("Add an item that was met"), self._add),
            (say("Walking order"), self._order),
            (say("Throw this round away"), self._discard),
        ):
            content.append(self._button(QuietButton(text=text), act))
        self.fill(*content)
        if self.notice != self._told:
            self._told = self.notice
            self.ids.scroll.scroll_y = 1
        self.fill_foot(*([] if self.wide else steps))

    def _turned(self, *_changed: object) -> None:
        if self.state is not None:
            self._show(self.state)

    def _rows(self, state: State) -> list[Widget]:
        if self._first is None:
            here = state.lines.index(state.next) if state.next is not None else 0
            self._first = max(0, here - BEFORE) if len(state.lines) > AT_ONCE else 0
        first, last = self._first, self._first + AT_ONCE
        content: list[Widget] = []
        if first:
            content.append(self._button(QuietButton(text=say("{count} items before", count=first)), self._earlier))
        for line in state.lines[first:last]:
            row = RowButton(answer=sign_of(line), title=line.title, line=status(line), key=line.item)
            row.bind(on_release=self._tapped)
            content.append(row)
        rest = len(state.lines) - last
        if rest > 0:
            content.append(self._button(QuietButton(text=say("{count} items after", count=rest)), self._later))
        return content

    def _steps(self, state: State) -> list[Widget]:
        line = state.next
        if line is None:
            return [self._button(MainButton(text=say("All answered: is it ready?")), self._summary)]
        so_far = self._button(QuietButton(text=say("Is it ready?"), bold=True), self._summary)
        # Large type leaves no room for more than the tag; the row says the rest.
        item = line.tag if self.app.theme.text_scale >= LARGE_TYPE else line.title
        text = say("Go on with {item}", item=item) if line.started is not None else say("Next: {item}", item=item)
        return [so_far, self._button(MainButton(text=text), self._next)]

    def _button(self, button: Any, act: Callable[[], None]) -> Any:
        button.bind(on_release=lambda _one: act())
        return button

    def _earlier(self) -> None:
        self._move(-AT_ONCE)

    def _later(self) -> None:
        self._move(AT_ONCE)

    def _move(self, by: int) -> None:
        self._first = max(0, (self._first or 0) + by)
        if self.state is not None:
            self._show(self.state)
            self.ids.scroll.scroll_y = 1

    # --- what is done ----------------------------------------------------------------------------------

    def keep(self, draft: RoundDraft, then: Callable[[], None] | None = None) -> None:
        """Keep the round as it was changed; shown and gone on with only once it is on the disk."""

        def kept(_none: None) -> None:
            self._draft = draft
            if then is not None:
                then()
            elif self.manager is not None and self.manager.top is self:
                self._read()

        self.services.records.do(lambda: self.services.register.save_round(draft), kept)

    def inspect(self, item: str) -> None:
        """Begin an item's inspection before use, or take up the interrupted one; then the round goes on."""
        self.keep(replace(self._draft, hands=item), lambda: self._begin(item))

    def _begin(self, item: str) -> None:
        self.app.begin(item, InspectionKind.BEFORE_USE, self._draft.made.use)

    def _next(self) -> None:
        line = self.state.next if self.state is not None else None
        if line is None:
            return
        if line.earlier is not None or line.row is None:  # to be asked first
            self._open(line)
        else:
            self.inspect(line.item)

    def _tapped(self, row: RowButton) -> None:
        if self.state is not None:
            self._open(self.state.line(row.key))

    def _open(self, line: Line) -> None:
        from app.touch.screens.round.one import OnePage

        self.manager.push(OnePage(self, line))

    def _summary(self) -> None:
        from app.touch.screens.round.summary import SummaryPage

        self.manager.push(SummaryPage(self.services, self.app, self._draft))

    def _tell_use(self) -> None:
        if self.state is None:
            return
        known = [line.item for line in self.state.lines if line.row is not None]
        self.services.askable(known, self._ask_use)

    def _ask_use(self, found: tuple[tuple[str, ...], frozenset[Needs]]) -> None:
        from app.touch.screens.use.use import UsePage

        def keep(use: Use | None, kept: Callable[[], None]) -> None:
            self.keep(with_use(self._draft, use), kept)

        why = say("Each item of this round is judged as if it carried the whole load in this way.")
        fields, needs = found
        use = self._draft.made.use
        page = UsePage(about(self._draft.made), self.app, fields, use, keep, needs=needs, why=why, of_one_item=False)
        self.manager.push(page)

    def _order(self) -> None:
        from app.touch.screens.round.order import OrderPage

        self.manager.push(OrderPage(self.services, self._draft.made.place, self._walked))

    def _walked(self, order: tuple[str, ...]) -> None:
        """The order was changed: this round is walked in it too."""
        made = self._draft.made
        expected = sorted(made.expected, key=lambda one: order.index(one) if one in order else len(order))
        changed = made.model_copy(update={"expected": tuple(expected)})
        self.keep(replace(self._draft, made=changed))

    def _add(self) -> None:
        from app.touch.screens.round.add import AddPage

        def met(item: str) -> None:
            self.keep(with_met(self._draft, item))

        self.manager.push(AddPage(self.services, met))

    def _discard(self) -> None:
        def chosen(text: str) -> None:
            if text == AWAY:
                register, round_id = self.services.register, self._draft.made.id
                self.services.records.do(lambda: register.discard_round(round_id), lambda _none: self.app.stack.home())

        self.manager.push(
            ChoicePage(
                say("Throw this round away?"),
                (KEEP, AWAY),
                chosen,
                under=say("The inspections that were logged in it stay."),
            )
        )


def _stopped_already(state: State) -> list[str]:
    """Return the tags of what stops the round as it is, worst first; what only waits to be looked at is not meant."""
    return [
        one.tag
        for one in state.summary.stops
        if state.made.entry(one.item) is not None or (one.answer is not None and stopped(one.answer))
    ]


def _of_use(state: State) -> str:
    if state.made.use is not None:
        return say("Change what it will carry")
    return say("Say what it will carry (no use is judged yet)")
