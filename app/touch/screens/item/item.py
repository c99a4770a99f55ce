"""Item: where it stands and why, its parts, charts, photographs and past, and what can be done with it."""

from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

from kivy.clock import Clock
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget

from app.figures import Figure, by_hand
from app.figures.to_scale import rope_to_scale
from app.language import say, say_many, told
from app.register import Past
from app.touch.screens.ask.ask import ChoicePage
from app.touch.screens.item.about import AboutPage
from app.touch.screens.item.charts import ChartsPage, ScaledView, chart_of
from app.touch.screens.item.history import row_texts, shots
from app.touch.screens.item.part import LARGEST_TYPE, PartPage
from app.touch.screens.item.photos import PhotosPage, by_day
from app.touch.screens.item.record import RecordPage
from app.touch.screens.item.stands import accepted_cards, may_be_examined, standing_cards
from app.touch.screens.records import decide, elsewhere
from app.touch.screens.records.act import Act
from app.touch.screens.use.words import told_in_a_line
from app.touch.services import Looked, Services
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton, RowButton
from app.touch.widgets.page import Page
from app.touch.widgets.reason import ruling_card
from app.touch.widgets.rope import RopeSpine, spine_width
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import part_name, stopped, who
from inspection_rules.item import Item
from inspection_rules.record import Person
from inspection_rules.standing import Judged, Open, Standing
from inspection_rules.words import COMPETENT, Answer, InspectionKind, PartKind, Scope, Where, worst

MOST_REASONS = 6
FEW_PHOTOS = 4
ROWS, ROWS_AT_ONCE = 40, 5  # records shown at first, and made in one frame
PLACES = {
    PartKind.TERMINATION: "eye",
    PartKind.JOINT: "joint",
    PartKind.BODY: "body",
    PartKind.FITTING: "fitting",
}
KINDS = (InspectionKind.BEFORE_USE, InspectionKind.PERIODIC)
OTHER_KINDS = (InspectionKind.AFTER_INCIDENT, InspectionKind.AS_MADE, InspectionKind.BEDDED_IN, InspectionKind.AS_FOUND)


class ItemPage(Page):
    """One item."""

    def __init__(self, services: Services, app: Any, item_id: str, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._services, self._app, self._id = services, app, item_id
        self._looked: Looked | None = None
        self._by: Person | None = None
        self._all_reasons = False
        self._rows = ROWS
        self._coming: list[Past] = []
        self.rope = RopeSpine()
        self.rope.bind(on_station=self._open_part)
        self.ids.side.add_widget(self.rope)
        self._growing = Clock.create_trigger(self._grow)
        self.history = BoxLayout(orientation="vertical", size_hint_y=None, spacing="12dp")
        self.history.bind(minimum_height=self.history.setter("height"))

    def shown(self) -> None:
        """Read the item anew."""
        self._services.look(self._id, self._show)

    def _show(self, looked: Looked) -> None:
        if (looked, self._app.person) == (self._looked, self._by):
            return  # back from a page that changed nothing: the person is where they were
        # A record that came about meanwhile may have changed the answer, and that stands at the top.
        changed = self._looked is not None and looked.past != self._looked.past
        self._looked, self._by = looked, self._app.person
        item, standing = looked.item, looked.standing
        self.heading = f"{item.tag} · {item.description}" if item.description else item.tag
        self.under = described(item)
        signs = part_signs(item, looked.judged, standing)
        stations = [(part.id, PLACES[part.kind]) for part in by_hand(item)]
        if stations:
            self.side_width = spine_width(self.width)
            made = [one.inspection for one in looked.judged if one.inspection.kind is InspectionKind.AS_MADE]
            self.rope.show(item, stations, {(part, name): part_name(item, part) for part, name in stations}, made)
            self.rope.sign({key: signs.get(key[0]) for key in stations}, None)
        self._build()
        if changed:
            self.ids.scroll.scroll_y = 1

    def _build(self) -> None:
        looked = self._looked
        if looked is None:
            return
        content: list[Widget] = [*standing_cards(looked)]
        if looked.standing.where is not Where.HERE:
            content.append(_button(QuietButton, say("Where is it?"), partial(self._record, elsewhere.begin)))
        content += self._examine(looked)
        content += self._not_for_this_use(looked)
        content += self._reasons(looked)
        content += accepted_cards(looked.standing, looked.item)
        if looked.judged:
            content += [Quiet(text=told(text)) for text in looked.judged[-1].judgement.advisories]
        content += self._ways(looked)
        content += self._measured(looked)
        content += self._photos(looked)
        content += [Title(text=say("History")), self.history]
        self._begin_history(looked)
        self.fill(*content)
        self.fill_foot(*(self._start(kind, looked) for kind in reversed(KINDS)))
        self._raise_foot()

    def _put_foot(self, home: BoxLayout) -> None:
        super()._put_foot(home)
        self._raise_foot()

    def _raise_foot(self) -> None:
        """Where the buttons scroll with the rest, they stand below the answer: the end of a long past is far away."""
        body = self.body
        if self.foot.parent is body and len(body.children) > 1:
            body.remove_widget(self.foot)
            body.add_widget(self.foot, index=len(body.children) - 1)

    # --- where it stands -----------------------------------------------------------------------------------

    def _not_for_this_use(self, looked: Looked) -> list[Widget]:
        if not looked.judged or not looked.judged[-1].judgement.not_for_this_use:
            return []
        said = looked.judged[-1].judgement
        told_of_it = [Words(text=told_in_a_line(said.use))] if said.use is not None else []
        cards = [ruling_card(one, looked.item) for one in said.not_for_this_use]
        return [Title(text=say("Not for this use")), *told_of_it, *cards]

    def _reasons(self, looked: Looked) -> list[Widget]:
        still = looked.standing.open
        shown = still if self._all_reasons else still[:MOST_REASONS]
        content: list[Widget] = [ruling_card(one.ruling, looked.item, since=one.on) for one in shown]
        if len(still) > len(shown):
            more = len(still) - len(shown)
            text = say_many("Show {count} more reason", "Show {count} more reasons", more)
            content.append(_button(QuietButton, text, self._show_all_reasons))
        return content

    def _show_all_reasons(self) -> None:
        self._all_reasons = True
        self._build()

    # --- what can be done ----------------------------------------------------------------------------------

    def _ways(self, looked: Looked) -> list[Widget]:
        person = self._app.person
        inspecting = say("Inspecting: {who}", who=who(person)) if person else say("Who is inspecting?")
        counted = [say(one) for one in looked.regimes] or [say("common practice only")]
        return [
            _button(QuietButton, inspecting, self._app.ask_who),
            Quiet(text=say("Rules that count: {regimes}", regimes=", ".join(counted))),
            _button(QuietButton, say("Another inspection"), self._other),
            _button(QuietButton, say("What else happened to it?"), self._what_else),
            _button(QuietButton, say("About this item"), self._about),
        ]

    def _other(self) -> None:
        looked = self._looked
        if looked is None:
            return

        def chosen(kind: str) -> None:
            self._app.begin(self._id, InspectionKind(kind))

        kinds = [kind for kind in OTHER_KINDS if kind in looked.kinds]
        self.manager.push(ChoicePage(say("Which inspection?"), kinds, chosen, under=self.heading))

    def _what_else(self) -> None:
        from app.touch.screens.records.records import RecordsPage

        self.manager.push(RecordsPage(self._services, self._app, self._id))

    def _examine(self, looked: Looked) -> list[Widget]:
        """Who may end what keeps it out of use finds the way beside the answer."""
        person = self._app.person
        if person is None or person.competence not in COMPETENT or not may_be_examined(looked.standing):
            return []
        return [_button(AnswerButton, say("Examine what keeps it out of use"), partial(self._record, decide.begin))]

    def _record(self, begin: Callable[[Act], None]) -> None:
        """Begin a record of this item, as it stands when the button is tapped."""
        if self._app.person is None:
            self._app.ask_who()
            return
        on, register = self._services.today(), self._services.register

        def look() -> tuple[Item, Standing, tuple[Open, ...]]:
            item, standing = register.item(self._id), register.standing(self._id, on)
            return item, standing, register.may_be_released(self._id, on)

        def found(known: tuple[Item, Standing, tuple[Open, ...]]) -> None:
            if self.manager is not None and self.manager.top is self:
                begin(Act(self._services, self._app, None, *known))

        self._services.records.do(look, found)

    def _about(self) -> None:
        if self._looked is not None:
            self.manager.push(AboutPage(self._looked.item, self._looked.regimes))

    def _start(self, kind: InspectionKind, looked: Looked) -> Widget:
        interrupted = any(draft.inspection.kind is kind for draft in looked.drafts)
        before = kind is InspectionKind.BEFORE_USE
        text = say("Before use") if before else say("Periodic examination")
        # What is not to be used, or not here, does not ask to be used.
        main = before and not stopped(looked.standing.answer) and looked.standing.where is Where.HERE
        said = say("Go on: {kind}", kind=say(str(kind))) if interrupted else text
        return _button(MainButton if main else AnswerButton, said, lambda: self._app.begin(self._id, kind))

    # --- parts, charts, photographs ------------------------------------------------------------------------

    def _open_part(self, _rope: object, key: tuple[str, str]) -> None:
        if self._looked is not None:
            self.manager.push(PartPage(self._services, self._app, self._looked, key[0]))

    def _measured(self, looked: Looked) -> Iterator[Widget]:
        names = {part.id: part_name(looked.item, part.id) for part in looked.item.parts}
        if rope_to_scale(looked.item, LARGEST_TYPE, names) is not None:
            yield Title(text=say("To scale, from throat to throat"), type_size=18)
            yield ScaledView(partial(_scaled, looked.item, names), self._app.theme)
        if looked.series:
            yield from chart_of(looked.series[0], looked, self._app.theme)
        if len(looked.series) > 1:
            yield _button(QuietButton, say("All {count} charts", count=len(looked.series)), self._charts)

    def _charts(self) -> None:
        looked = self._looked
        if looked is not None:
            page = ChartsPage(self._app, looked, looked.series, heading=say("Charts"))
            self.manager.push(page)

    def _photos(self, looked: Looked) -> list[Widget]:
        taken = shots(looked.past, looked.item, looked.book)
        if not taken:
            return []
        content: list[Widget] = [Title(text=say("Photographs"))]
        content += by_day(self._services, self, looked.item, taken, FEW_PHOTOS)
        if len(taken) > FEW_PHOTOS:
            page = partial(PhotosPage, self._services, looked.item, taken)
            text = say("All {count} photographs", count=len(taken))
            content.append(_button(QuietButton, text, lambda: self.manager.push(page())))
        return content

    # --- its past ------------------------------------------------------------------------------------------

    def _begin_history(self, looked: Looked) -> None:
        self.history.clear_widgets()
        self._coming = list(reversed(looked.past))[: self._rows]
        if not looked.judged:
            self.history.add_widget(Quiet(text=say("No inspection is recorded yet.")))
        self._grow()

    def _grow(self, *_time: object) -> None:
        """Add a few records in this frame and the next in the next one, so that a long past delays nothing."""
        looked = self._looked
        if looked is None:
            return
        for one in self._coming[:ROWS_AT_ONCE]:
            self.history.add_widget(self._record_row(one, looked))
        del self._coming[:ROWS_AT_ONCE]
        if self._coming:
            self._growing()
        elif len(looked.past) > self._rows:
            self.history.add_widget(_button(QuietButton, say("Show older"), self._older))

    def _record_row(self, one: Past, looked: Looked) -> RowButton:
        title, line, more = row_texts(one, looked.item)
        answer = one.record.judgement.answer.value if isinstance(one.record, Judged) else ""
        row = RowButton(answer="" if one.struck else answer, title=title, line=line, more=more, key=one)
        if one.struck is not None:
            for label in row.ids.words.children:
                label.strikethrough = isinstance(label, Words)
        row.bind(on_release=self._open_record)
        return row

    def _older(self) -> None:
        looked = self._looked
        if looked is None:
            return
        self.history.remove_widget(self.history.children[0])
        self._coming = list(reversed(looked.past))[self._rows : self._rows + ROWS]
        self._rows += ROWS
        self._grow()

    def _open_record(self, row: RowButton) -> None:
        if self._looked is not None:
            self.manager.push(RecordPage(self._services, self._looked, row.key))


def described(item: Item) -> str:
    """Write what an item is: kind, fibre, size, place."""
    size = item.diameter or item.circumference or item.width
    parts = (say(str(item.kind)), say(str(item.fibre)), size, item.place)
    return " · ".join(str(one) for one in parts if one)


def part_signs(item: Item, judged: tuple[Judged, ...], standing: Standing) -> dict[str, Answer]:
    """Return the sign of each part: the worst of what is open and of what the latest inspection says of it.

    What stopped it then and is open no more, since a competent person released it, is no sign any more; what one
    accepted for a time, or released until a date, is watched.
    """
    if not judged:
        return {}
    latest = [r for r in judged[-1].judgement.rulings if r.scope is Scope.ITEM]
    said = [(r.part, r.answer) for r in latest if not stopped(r.answer)]
    said += [(one.ruling.part, one.ruling.answer) for one in standing.open]
    said += [(one.part, Answer.WATCH) for one in standing.accepted]
    said += [(one.part, Answer.WATCH) for one in standing.released]
    if standing.where is not Where.HERE or stopped(standing.answer):
        said = [one for one in said if stopped(one[1])]  # what is not here, or not to be used, looks passed nowhere
    answers = {part.id: [answer for where, answer in said if where == part.id] for part in item.parts}
    return {part: worst(found) for part, found in answers.items() if found}


def _scaled(item: Item, names: dict[str, str], size: float) -> Figure:
    figure = rope_to_scale(item, min(size, LARGEST_TYPE), names)
    if figure is None:
        raise ValueError(f"item {item.id} has nothing to scale")
    return figure


def _button(kind: type, text: str, act: Callable[[], None]) -> Widget:
    button = kind(text=text)
    button.bind(on_release=lambda _one: act())
    return button
