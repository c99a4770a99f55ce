"""Signed rounds: the earlier ones, newest first; one of them to read, and its report."""

from pathlib import Path
from typing import Any

from kivy.uix.widget import Widget

from app.language import say
from app.register import SignedRound
from app.touch.screens.reports.handing import hand_on
from app.touch.screens.round.saying import about, in_one_line, when
from app.touch.screens.round.summary import answer_of
from app.touch.services import Services
from app.touch.widgets.buttons import MainButton, QuietButton, RowButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Words
from app.touch.wording import broken, who

MOST_ROUNDS = 50


class RoundsPage(Page):
    """The rounds that were signed here or taken in, newest first; of one place, or of all."""

    def __init__(self, services: Services, app: Any, place: str = "", **kwargs: Any) -> None:
        super().__init__(heading=say("Rounds"), under=place or say("All places"), **kwargs)
        self._services, self._app, self._place = services, app, place

    def shown(self) -> None:
        """Read them anew."""
        register = self._services.register
        self._services.records.do(lambda: register.rounds(self._place, MOST_ROUNDS), self._show)

    def _show(self, found: list[SignedRound]) -> None:
        rows: list[Widget] = []
        for one in found:
            row = RowButton(
                answer=one.summary.sign.value,
                title=f"{about(one.made)} · {when(one.made)}",
                line=in_one_line(one.summary),
                more=who(one.made.by),
                key=one.made.id,
            )
            row.bind(on_release=self._open)
            rows.append(row)
        if len(found) == MOST_ROUNDS:
            rows.append(Quiet(text=say("The newest {count} are shown.", count=MOST_ROUNDS)))
        self.fill(*(rows or [Words(text=say("No round was signed yet."))]))

    def _open(self, row: RowButton) -> None:
        self.manager.push(SignedPage(self._services, self._app, row.key))


class SignedPage(Page):
    """A round as it was signed."""

    def __init__(self, services: Services, app: Any, round_id: str, **kwargs: Any) -> None:
        super().__init__(heading=say("Round"), **kwargs)
        self._services, self._app, self._id = services, app, round_id
        self._signed: SignedRound | None = None
        self._written: Path | None = None
        self._writing = False
        self._told = ""

    def shown(self) -> None:
        """Read it from the register."""
        register = self._services.register
        self._services.records.do(lambda: register.round(self._id), self._show)

    def _show(self, signed: SignedRound) -> None:
        self._signed = signed
        made = signed.made
        self.heading = say("Round: {what}", what=about(made))
        self.under = when(made)
        says = say("Signed by {who}, {when}.", who=who(made.by), when=when(made))
        content: list[Widget] = [Words(text=self._told, bold=True)] if self._told else []
        content += answer_of(made, signed.summary, says)
        content.append(Quiet(text=say("Seal of the record: {seal}", seal=f"{signed.seal[:16]}…")))
        self.fill(*content)
        if self._written is None:
            report = MainButton(text=say("Make the report (PDF)"))
            report.bind(on_release=lambda _one: self._write())
            self.fill_foot(report)
        else:
            share = MainButton(text=say("Hand on a copy of the report"))
            share.bind(on_release=lambda _one: self._share())
            self.fill_foot(share)
        home = QuietButton(text=say("To the first page"), bold=True)
        home.bind(on_release=lambda _one: self._app.stack.home())
        self.foot.add_widget(home, index=len(self.foot.children))

    def _write(self) -> None:
        if self._writing:
            return
        self._writing = True
        register = self._services.register

        def work() -> Path:
            from app.reports.round_page import round_report, usual_place

            return round_report(register, usual_place(register, self._id), self._id)

        def failed(error: Exception) -> None:
            self._writing = False
            self._app.failed(error)

        self._services.records.do(work, self._wrote, failed)

    def _wrote(self, path: Path) -> None:
        self._writing = False
        self._written = path
        self._tell(say("The report lies in {path}", path=broken(str(path))))

    def _share(self) -> None:
        if self._written is not None:
            hand_on(self._services, self._written, self._tell)

    def _tell(self, text: str) -> None:
        self._told = text
        if self._signed is not None:
            self._show(self._signed)
            self.ids.scroll.scroll_y = 1
