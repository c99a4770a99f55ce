"""This is what will be entered: everything that was said, each to be changed by a tap; then who enters it."""

from datetime import UTC, date
from functools import partial
from pathlib import Path
from typing import Any

from kivy.uix.widget import Widget

from app.language import day_text, mark, say, told
from app.touch.screens.enter import keeping
from app.touch.screens.enter.flow import Entering
from app.touch.screens.enter.layout import LayoutPage, inches
from app.touch.screens.enter.questions import name_of, part_of, without
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton, RowButton
from app.touch.widgets.card import Card
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import DO_NOT_USE, part_name, who
from inspection_rules.entering import choices_of, sort_of
from inspection_rules.form import asked, offered, splices_said
from inspection_rules.item import Item
from inspection_rules.measures.size import nominal_diameter
from inspection_rules.quantity import decimal_text
from inspection_rules.walk import walk
from inspection_rules.words import COMPETENT, Answer, InspectionKind

HELD = mark("It is on hold until a competent person has recorded it as made or as found.")


def written(name: str, text: str) -> str:
    """Write what was said for people: words in the language in use, dates with their month as a word."""
    if choices_of(name) or sort_of(name) == "yes or no":
        return say(text)
    if sort_of(name) == "date":
        try:
            return day_text(date.fromisoformat(text))
        except ValueError:
            return text
    return text


def _by_the_table(item: Item) -> str:
    """Say which diameter a nominal circumference stands for."""
    diameter = nominal_diameter(item)
    if item.diameter is not None or diameter is None:
        return ""
    return say(
        "By the trade table that is a nominal diameter of {mm} mm ({inches}): a third, never by π.",
        mm=decimal_text(diameter), inches=inches(diameter),
    )  # fmt: skip


def finish(entering: Entering) -> None:
    """Show what will be entered: on the page that shows it already, where there is one."""
    stack = entering.app.stack
    page = next((one for one in stack.screens if isinstance(one, ConfirmPage) and one.entering is entering), None)
    if page is None:
        entering.push(ConfirmPage(entering))
        return
    while stack.top is not page:
        stack.pop()


class ConfirmPage(Page):
    """Everything that was said of the new item."""

    def __init__(self, entering: Entering, **kwargs: Any) -> None:
        super().__init__(heading=say("This is what will be entered"), **kwargs)
        self.entering = entering
        entering.app.bind(person=self._changed)

    def shown(self) -> None:
        """Show what was said, what is wrong with it, and who enters it."""
        entering = self.entering
        said = entering.said
        self.under = " · ".join(one for one in (said.get("tag", ""), said.get("description", "")) if one)
        found = entering.built()
        faults = () if isinstance(found, Item) else found
        content: list[Widget] = []
        if faults:
            content.append(Words(text=say("This is not right yet; tap it to put it right:"), bold=True))
            for fault in faults:
                content.append(self._row(fault.name, told(fault.sentence)))
        doubts = entering.doubts(said)
        if doubts:
            content.append(Card(title=say("Unlikely, and said to be right"), lines=[told(one) for one in doubts]))
        part = ""
        for name in self._shown_names():
            if part_of(name) != part:
                part = part_of(name)
                content.append(Title(text=part or say("The item")))
            content.append(self._row(name, written(name, said[name]) if said.get(name) else without(name)))
            if name == "circumference" and isinstance(found, Item):
                content.append(Quiet(text=_by_the_table(found)))
        content += self._ways(isinstance(found, Item))
        self.fill(*content)
        self._foot(isinstance(found, Item))

    def _shown_names(self) -> list[str]:
        said = self.entering.said
        more = [name for name in offered(said) if said.get(name)]
        names = [*asked(said), *more]
        return [one for one in names if not part_of(one)] + sorted((one for one in names if part_of(one)), key=part_of)

    def _row(self, name: str, line: str) -> RowButton:
        row = RowButton(title=name_of(name), line=line, key=name)
        row.bind(on_release=self._tapped)
        return row

    def _ways(self, whole: bool) -> list[Widget]:
        entering = self.entering
        more = QuietButton(text=say("More about it"), bold=True)
        more.bind(on_release=self._more)
        content: list[Widget] = [more]
        if whole and entering.item is not None:
            for part_id, prefix in splices_said(entering.said):
                text = say("The layout it should have · {part}", part=part_of(f"{prefix}splice"))
                layout = QuietButton(text=text)
                layout.bind(on_release=partial(self._layout, part_id))
                content.append(layout)
        away = QuietButton(text=say("Throw it away"))
        away.bind(on_release=self._ask_away)
        return [*content, away]

    def _foot(self, whole: bool) -> None:
        person = self.entering.app.person
        text = say("Somebody else enters it") if person is not None else say("Who enters it?")
        other = QuietButton(text=text, bold=True)
        other.bind(on_release=self._ask_who)
        if person is None or not whole:
            self.fill_foot(other)
            return
        enter = MainButton(text=say("Enter it as {who}", who=who(person)))
        enter.bind(on_release=self._enter)
        self.fill_foot(other, enter)

    def _changed(self, *_changed: object) -> None:
        if self.manager is not None:
            self.shown()

    def _tapped(self, row: RowButton) -> None:
        self.entering.ask(row.key, self.entering.go_on)

    def _more(self, *_event: object) -> None:
        self.entering.push(MorePage(self.entering))

    def _layout(self, part_id: str, *_event: object) -> None:
        item = self.entering.item
        if item is not None:
            self.manager.push(LayoutPage(self.entering.services, self.entering.app, item, item.part(part_id)))

    def _ask_who(self, *_event: object) -> None:
        self.entering.app.ask_who()

    def _ask_away(self, *_event: object) -> None:
        self.manager.push(AwayPage(self.entering))

    def _enter(self, *_event: object) -> None:
        entering, item = self.entering, self.entering.item
        if entering.logging or item is None:  # a second finger on the same button
            return
        entering.logging = True
        register, services, app = entering.services.register, entering.services, entering.app
        now = services.now()
        offset = now.utcoffset()
        minutes = int(offset.total_seconds() // 60) if offset else 0
        person, folder = app.person, Path(register.folder)

        def work() -> tuple[InspectionKind, ...]:
            register.add_item(item, person, now.astimezone(UTC), minutes)
            keeping.forget(folder)
            book, regimes = register.book(), register.regimes()
            kinds = (InspectionKind.AS_MADE, InspectionKind.AS_FOUND)
            return tuple(kind for kind in kinds if walk(item, kind, regimes, book))

        def done(kinds: tuple[InspectionKind, ...]) -> None:
            app.stack.pop(entering.first)
            app.stack.replace(EnteredPage(services, app, item, kinds))

        def failed(error: Exception) -> None:
            entering.logging = False
            app.failed(error)

        services.records.do(work, done, failed)


class MorePage(Page):
    """What may be said besides."""

    def __init__(self, entering: Entering, **kwargs: Any) -> None:
        super().__init__(heading=say("More about it"), **kwargs)
        self._entering = entering

    def shown(self) -> None:
        """List it, with what was said already."""
        said = self._entering.said
        rows: list[Widget] = []
        for name in offered(said):
            row = RowButton(title=name_of(name), line=written(name, said.get(name, "")), key=name)
            row.bind(on_release=self._tapped)
            rows.append(row)
        self.fill(*rows)

    def _tapped(self, row: RowButton) -> None:
        self._entering.ask(row.key, self._entering.go_on)


class AwayPage(Page):
    """Asks once more before what was said is thrown away."""

    def __init__(self, entering: Entering, **kwargs: Any) -> None:
        super().__init__(heading=say("Throw it away?"), at_thumb=True, **kwargs)
        self._entering = entering
        self.fill(Words(text=say("What was said of this item is forgotten. Nothing was entered."), bold=True))
        away = AnswerButton(text=say("Throw it away"))
        away.bind(on_release=self._away)
        stay = MainButton(text=say("Keep it"))
        stay.bind(on_release=self._stay)
        self.fill_foot(away, stay)

    def _stay(self, *_event: object) -> None:
        self.manager.pop(self)

    def _away(self, *_event: object) -> None:
        entering = self._entering
        folder = Path(entering.services.register.folder)
        entering.services.records.do(
            lambda: keeping.forget(folder), lambda _none: entering.app.stack.pop(entering.first)
        )


class EnteredPage(Page):
    """The item is in the register: its first record is offered."""

    def __init__(
        self, services: Services, app: Any, item: Item, kinds: tuple[InspectionKind, ...], **kwargs: Any
    ) -> None:
        super().__init__(heading=say("{tag} is entered", tag=item.tag), under=item.description, **kwargs)
        self._services, self._app, self._item, self._kinds = services, app, item, kinds
        app.bind(person=self._changed)

    def shown(self) -> None:
        """Say what comes next, and who does it."""
        person = self._app.person
        content: list[Widget] = [
            Card(answer=Answer.HOLD.value, heavy=True, title=say(DO_NOT_USE), lines=[say(HELD)]),
        ]
        if person is not None and person.competence not in COMPETENT:
            content.append(
                Words(
                    text=say(
                        "Only the record of a competent or a qualified person counts; you act as {who}.",
                        who=who(person),
                    ),
                    bold=True,
                )
            )
        content.append(
            Words(text=say("A splice beds in with its first loads: its record as bedded in is made after them."))
        )
        for part in self._item.spliced:
            text = say("The layout it should have · {part}", part=part_name(self._item, part.id))
            layout = QuietButton(text=text)
            layout.bind(on_release=partial(self._layout, part.id))
            content.append(layout)
        other = QuietButton(text=say("Somebody else records it"))
        other.bind(on_release=self._ask_who)
        later = QuietButton(text=say("Later; it stays on hold"), bold=True)
        later.bind(on_release=self._later)
        words = {
            InspectionKind.AS_FOUND: say("Bought, or found without papers: record it as found"),
            InspectionKind.AS_MADE: say("Made here, by its splicer: record it as made"),
        }
        ways: list[Widget] = []
        for kind, text in words.items():
            if kind in self._kinds:
                button = AnswerButton(text=text)  # neither is the likely one: a wrong one is hard to take back
                button.bind(on_release=partial(self._begin, kind))
                ways.append(button)
        self.fill(*content, other)
        self.fill_foot(later, *ways)

    def _changed(self, *_changed: object) -> None:
        if self.manager is not None:
            self.shown()

    def _layout(self, part_id: str, *_event: object) -> None:
        self.manager.push(LayoutPage(self._services, self._app, self._item, self._item.part(part_id)))

    def _ask_who(self, *_event: object) -> None:
        self._app.ask_who()

    def _later(self, *_event: object) -> None:
        app = self._app
        self.manager.pop(self)
        app.show_item(self._item.id)

    def _begin(self, kind: InspectionKind, *_event: object) -> None:
        app = self._app
        self.manager.pop(self)
        app.begin(self._item.id, kind)
