"""An incident: what happened, and what else was in the same load. All of it is held until each is examined."""

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from kivy.uix.boxlayout import BoxLayout

from app.language import mark, say, told
from app.register import ItemRow
from app.touch.screens.answer.answer import BAGGED, NEITHER, TAGGED
from app.touch.screens.records.act import Act, ActPage, Stamp, capital, clean, one_line
from app.touch.screens.records.asking import Choice, ChoosePage, WordsPage
from app.touch.screens.records.sign import SignPage
from app.touch.widgets.buttons import MainButton, RowButton
from app.touch.widgets.card import Card
from app.touch.widgets.fields import TextField
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import DO_NOT_USE
from inspection_rules.events import Incident
from inspection_rules.words import Answer

MOST_FOUND, MOST_SHARED = 20, 60
HAPPENED: Mapping[str, str] = MappingProxyType(
    {
        mark("shock"): mark("A load came on it at once, or a line parted and came back"),
        mark("overload"): mark("More load than it may carry, or a wrong angle or pin"),
        mark("fall"): mark("It held a fall, or fell itself"),
        mark("heat"): mark("Fire, hot work, a hot bitt or drum"),
        mark("chemical"): mark("Acid, alkali, bleach, solvent, fuel"),
        mark("something else"): mark("Say it on the next page"),
    }
)
HELD = mark(
    "All of them are on hold, each until a competent person has examined it after the incident. "
    "No signature stands in for that examination, and no correction takes an incident back."
)
EVIDENCE = mark("Keep them as they are: evidence is kept, not cut up and not disposed of.")


def begin(act: Act) -> None:
    """Ask what happened."""

    def chosen(key: str) -> None:
        act.push(
            WordsPage(
                act,
                say("What happened?"),
                "what",
                lambda text: act.push(LoadPathPage(act, _what(key, text))),
                why=say("When, how, how hard, in a few words."),
                needed=key == "something else",
            )
        )

    choices = [Choice(key, capital(say(key)), say(line)) for key, line in HAPPENED.items()]
    act.push(ChoosePage(act, say("What was it?"), choices, chosen))


def _what(kind: str, text: str) -> str:
    said = " ".join(text.split())
    if kind == "something else":
        return one_line(said)
    return one_line(f"{kind}: {said}" if said else kind)


class LoadPathPage(ActPage):
    """What else shared the load: searched by tag, and ticked."""

    def __init__(self, act: Act, what: str, **kwargs: Any) -> None:
        super().__init__(act, say("What else shared the load?"), **kwargs)
        self._what = what
        self.ticked: dict[str, ItemRow] = {}
        self._asked = 0
        self.field = TextField(hint_text=say("Search"))
        self.field.bind(text=self._search)
        self._chosen, self._found = _column(), _column()
        self.fill(
            Words(text=say("Everything between the load and what held it: slings, shackles, lines, the other legs.")),
            self._chosen,
            self.field,
            self._found,
        )
        self.build()
        self._search()

    def build(self) -> None:
        """Show what is ticked, and the way on."""
        self._chosen.clear_widgets()
        if self.ticked:
            self._chosen.add_widget(Title(text=say("In the same load")))
        for row in self.ticked.values():
            self._chosen.add_widget(self._row(row))
        text = say("Go on with {count} ticked", count=len(self.ticked)) if self.ticked else say("Nothing else did")
        go = MainButton(text=text)
        go.bind(on_release=self._go)
        self.fill_foot(go)

    def _row(self, row: ItemRow) -> RowButton:
        ticked = row.id in self.ticked
        line = say("Shared the load; tap to take it off") if ticked else row.description
        button = RowButton(title=row.tag, line=line, key=row, chosen=ticked)
        button.bind(on_release=self._tapped)
        return button

    def _tapped(self, button: RowButton) -> None:
        row: ItemRow = button.key
        if row.id in self.ticked:
            del self.ticked[row.id]
        elif len(self.ticked) < MOST_SHARED:
            self.ticked[row.id] = row
        self.build()
        self._search()

    def _search(self, *_changed: object) -> None:
        self._asked += 1
        asked, text, on = self._asked, self.field.text, self.act.today
        register = self.act.services.register

        def show(rows: list[ItemRow]) -> None:
            if asked == self._asked:  # else more was typed meanwhile
                self._list(rows)

        self.act.services.records.do(lambda: register.find(text, limit=MOST_FOUND + 1, on=on), show)

    def _list(self, rows: list[ItemRow]) -> None:
        self._found.clear_widgets()
        others = [row for row in rows if row.id != self.act.item.id and row.id not in self.ticked]
        for row in others[:MOST_FOUND]:
            self._found.add_widget(self._row(row))
        if len(rows) > MOST_FOUND:
            self._found.add_widget(Quiet(text=say("There are more: type a part of the tag.")))
        if not others and self.field.text:
            self._found.add_widget(Quiet(text=say("No other item has that in its tag, place or description.")))

    def _go(self, *_event: object) -> None:
        act, what, rows = self.act, self._what, tuple(self.ticked.values())
        act.push(
            WordsPage(
                act,
                say("What evidence is kept, and where?"),
                "evidence",
                lambda _text: _secure(act, what, rows),
                why=say(EVIDENCE),
                needed=False,
            )
        )


def _secure(act: Act, what: str, rows: tuple[ItemRow, ...]) -> None:
    choices = [Choice(one, say(one)) for one in (TAGGED, BAGGED, NEITHER)]
    act.push(
        ChoosePage(
            act,
            say("Can nobody take them by mistake?"),
            choices,
            lambda secured: _sign(act, what, rows, secured),
            why=say(HELD),
        )
    )


def _sign(act: Act, what: str, rows: tuple[ItemRow, ...], secured: str) -> None:
    evidence = clean("\n".join(one for one in (act.said.get("evidence", ""), secured) if one))

    def log(stamp: Stamp) -> object:
        incident = Incident(
            **stamp,
            what=what,
            load_path=tuple(row.id for row in rows),
            evidence=evidence,
            pictures=tuple(act.pictures),
        )
        return act.services.register.log_incident(incident)

    tags = ", ".join((act.item.tag, *(row.tag for row in rows)))
    act.push(
        SignPage(
            act,
            say("An incident"),
            lambda: [
                Card(answer=Answer.HOLD.value, heavy=True, title=say(DO_NOT_USE), lines=[tags, say(HELD)]),
                Card(title=capital(told(what)), lines=[told(evidence)]),
            ],
            [say(EVIDENCE)],
            lambda: act.log(log),
        )
    )


def _column() -> BoxLayout:
    column = BoxLayout(orientation="vertical", spacing="12dp", size_hint_y=None)
    column.bind(minimum_height=column.setter("height"))
    return column
