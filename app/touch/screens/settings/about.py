"""About: the cautions, the versions, and whether the register is as it was written."""

from functools import partial
from threading import Event
from typing import Any

from kivy.clock import Clock
from kivy.uix.widget import Widget

from app import __version__
from app.language import mark, say, say_many, told
from app.register import ChainEnd, Fault
from app.touch.cautions import CAUTIONS
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Title, Words
from inspection_rules.book import shipped
from inspection_rules.rule import Pack

NOTE = mark(
    "Note these down outside this device. Nobody can then cut records off unseen. Regimes, people and PINs are "
    "settings and are not sealed."
)
SOUND = mark("Every record, seal, picture and list is as it was written.")
KEEP = mark("Leave everything as it is, copy the whole folder to a safe place, and ask whoever looks after it.")
MOST_FAULTS = 40
Known = tuple[list[ChainEnd], tuple[Pack, ...]]


class Stopped(Exception):  # noqa: N818 - the person ended it
    """The person stopped the check."""


class AboutPage(Page):
    """What the program says of itself, and the check of the register."""

    def __init__(self, services: Services, **kwargs: Any) -> None:
        super().__init__(heading=say("About"), under=say("version {version}", version=__version__), **kwargs)
        self._services = services
        self._known: Known | None = None
        self._checked: list[Widget] = []
        self._stop = Event()
        self._percent = -1

    def shown(self) -> None:
        """Read the ends of the chains and which packs there are."""
        register = self._services.register

        def work() -> Known:
            own = tuple(one.pack for one in register.own_packs.every() if one.pack is not None)
            return register.chain_ends(), (*shipped().packs, *own)

        self._services.records.do(work, self._take)

    def leave(self) -> bool:
        """Whoever leaves stops the check."""
        self._stop.set()
        return False

    def _take(self, known: Known) -> None:
        self._known = known
        self._build()

    def _build(self, checking: bool = False) -> None:
        if self._known is None:
            return
        ends, packs = self._known
        content: list[Widget] = [Title(text=say("What to keep in mind"))]
        content += [Words(text=say(caution)) for caution in CAUTIONS]
        content += [Title(text=say("The register")), *self._checked]
        if checking:
            content.append(_button(say("Stop checking"), self._stop.set))
        else:
            content.append(_button(say("Check the register"), self._check))
        content.append(Title(text=say("Ends of the chains")))
        for end in ends:
            count = say_many("{count} record", "{count} records", end.entries)
            content.append(
                Words(
                    text=say("{device}: {count}, seal {seal}", device=end.device, count=count, seal=_spaced(end.seal))
                )
            )
        content += [Quiet(text=say(NOTE)), Title(text=say("Packs of rules"))]
        content += [Words(text=f"{say(pack.title)} · {pack.version}") for pack in packs]
        place = self.ids.scroll.scroll_y
        self.fill(*content)
        self.ids.scroll.scroll_y = place

    # --- the check ---------------------------------------------------------------------------------------

    def _check(self) -> None:
        self._stop.clear()
        self._percent = -1
        self._checked = [Words(text=say("Checking …"), bold=True)]
        self._build(checking=True)
        register = self._services.register
        self._services.records.do(lambda: register.verify(self._progress), self._verified, self._failed)

    def _progress(self, done: int, total: int) -> None:
        """Called on the register's thread, for every record."""
        if self._stop.is_set():
            raise Stopped
        percent = 100 * done // max(total, 1)
        if percent != self._percent:
            self._percent = percent
            Clock.schedule_once(partial(self._tell, percent))

    def _tell(self, percent: int, _dt: float) -> None:
        if self._checked and isinstance(self._checked[0], Words):
            self._checked[0].text = say("Checking: {percent} %", percent=percent)

    def _verified(self, faults: list[Fault]) -> None:
        if not faults:
            self._checked = [Words(text=say(SOUND), bold=True)]
        else:
            found = say_many("{count} fault found.", "{count} faults found.", len(faults))
            self._checked = [Words(text=found, bold=True)]
            self._checked += [Words(text=told(one.sentence)) for one in faults[:MOST_FAULTS]]
            self._checked.append(Words(text=say(KEEP)))
        self._build()

    def _failed(self, error: Exception) -> None:
        if isinstance(error, Stopped):
            text = say("The check was stopped. It says nothing about the register.")
        else:
            text = told(str(error))
        self._checked = [Words(text=text, bold=True)]
        self._build()


def _button(text: str, act: Any) -> Widget:
    button = AnswerButton(text=text)
    button.bind(on_release=lambda _one: act())
    return button


def _spaced(seal: str) -> str:
    """Write a seal in groups, which are easier to compare by eye and can be wrapped."""
    return " ".join(seal[start : start + 8] for start in range(0, len(seal), 8))
