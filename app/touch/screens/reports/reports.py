"""Reports: what can be put on paper, where it lies once it is written, and a copy to hand on."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

from kivy.uix.widget import Widget

from app.language import say
from app.reports.saving import report_folder
from app.touch.screens.reports.handing import hand_on
from app.touch.screens.round.signed import RoundsPage
from app.touch.services import Services
from app.touch.widgets.buttons import MainButton, RowButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Words
from app.touch.wording import broken


class ReportsPage(Page):
    """Each report as a row; the one that was written last can be handed on."""

    def __init__(self, services: Services, app: Any, **kwargs: Any) -> None:
        super().__init__(heading=say("Reports"), under=say("PDF, kept beside the register"), **kwargs)
        self._services, self._app = services, app
        self._written: Path | None = None
        self._writing = False
        self._build("")

    def _build(self, said: str) -> None:
        rows = (
            (say("Retirement report"), say("What must not be used, why, and what may bring it back"), self._retirement),
            (say("Released and condemned"), say("Who decided what of which item, in the last 30 days"), self._decided),
            (say("Rounds"), say("Each signed round has its report"), self._rounds),
            (say("Scale card"), say("To print: for lengths from photographs"), self._scale_card),
        )
        content: list[Widget] = [Words(text=said, bold=True)] if said else []
        for title, line, act in rows:
            row = RowButton(title=title, line=line)
            row.bind(on_release=lambda _one, act=act: act())
            content.append(row)
        content.append(Quiet(text=say("A report says what the register says on its day, and how it was checked.")))
        self.fill(*content)
        if self._written is not None:
            share = MainButton(text=say("Hand on a copy of the report"))
            share.bind(on_release=lambda _one: self._share())
            self.fill_foot(share)

    def _rounds(self) -> None:
        self.manager.push(RoundsPage(self._services, self._app))

    def _decided(self) -> None:
        from app.touch.screens.reports.decided import DecidedPage

        self.manager.push(DecidedPage(self._services, self._app))

    def _retirement(self) -> None:
        register, on = self._services.register, self._services.today()

        def work() -> Path:
            from app.reports.retirement import retirement_report  # the PDF library takes a while to load

            return retirement_report(register, report_folder(register.folder) / f"retirement {on}.pdf", on)

        self._write(work)

    def _scale_card(self) -> None:
        register, on = self._services.register, self._services.today()

        def work() -> Path:
            from app.reports.scale_card import scale_card

            return scale_card(report_folder(register.folder) / "scale card.pdf", on)

        self._write(work)

    def _write(self, work: Callable[[], Path]) -> None:
        if self._writing:  # a second finger on it
            return
        self._writing = True
        self._build(say("It is being written …"))

        def failed(error: Exception) -> None:
            self._writing = False
            self._build("")
            self._app.failed(error)

        self._services.records.do(work, self._wrote, failed)

    def _wrote(self, path: Path) -> None:
        self._writing, self._written = False, path
        self._build(say("The report lies in {path}", path=broken(str(path))))

    def _share(self) -> None:
        if self._written is not None:
            hand_on(self._services, self._written, self._build)
