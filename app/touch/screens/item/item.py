"""Item: where it stands, its signs by part, its history, and the inspections to start."""

from typing import Any

from kivy.uix.widget import Widget

from app.figures import by_hand
from app.touch.screens.ask.ask import ChoicePage
from app.touch.services import Looked, Services
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton
from app.touch.widgets.card import Card
from app.touch.widgets.page import Page
from app.touch.widgets.reason import ruling_card
from app.touch.widgets.rope import RopeSpine, spine_width
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import DO_NOT_USE, answer_words, day, part_name, stopped, who
from inspection_rules.record import Item
from inspection_rules.standing import Judged, Standing
from inspection_rules.words import Answer, InspectionKind, PartKind, Scope, worst

MOST_REASONS = 6
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
        self.rope = RopeSpine()
        self.ids.side.add_widget(self.rope)

    def shown(self) -> None:
        """Read the item anew."""
        self._services.look(self._id, self._show)

    def _show(self, looked: Looked) -> None:
        item, standing = looked.item, looked.standing
        self.heading, self.under = f"{item.tag} · {item.description}", described(item)
        signs = part_signs(item, looked.judged, standing)
        stations = [(part.id, PLACES[part.kind]) for part in by_hand(item)]
        if stations:
            self.side_width = spine_width(self.width)
            self.rope.show(item, stations, {(part, name): part_name(item, part) for part, name in stations})
            self.rope.sign({key: signs.get(key[0]) for key in stations}, None)
        content: list[Widget] = [standing_card(standing)]
        content += [ruling_card(one.ruling, item, since=one.on) for one in standing.open[:MOST_REASONS]]
        if len(standing.open) > MOST_REASONS:
            content.append(Quiet(text=f"and {len(standing.open) - MOST_REASONS} more reasons"))
        others = QuietButton(text="Another inspection")
        others.bind(on_release=lambda _one: self._other(looked))
        content.append(others)
        content.append(Title(text="History"))
        content += [history_line(one) for one in reversed(looked.judged)] or [Quiet(text="Nothing is recorded yet.")]
        self.fill(*content)
        self.fill_foot(*(self._start(kind, looked) for kind in reversed(KINDS)))

    def _other(self, looked: Looked) -> None:
        def chosen(kind: str) -> None:
            self._app.begin(self._id, InspectionKind(kind))

        kinds = [kind for kind in OTHER_KINDS if kind in looked.kinds]
        self.manager.push(ChoicePage("Which inspection?", kinds, chosen, under=self.heading))

    def _start(self, kind: InspectionKind, looked: Looked) -> Widget:
        interrupted = any(draft.inspection.kind is kind for draft in looked.drafts)
        before = kind is InspectionKind.BEFORE_USE
        text = kind.capitalize() + (" examination" if kind is InspectionKind.PERIODIC else "")
        # What is not to be used does not ask to be used.
        main = before and not stopped(looked.standing.answer)
        button = (MainButton if main else AnswerButton)(text=f"Go on: {kind}" if interrupted else text)
        button.bind(on_release=lambda _one: self._app.begin(self._id, kind))
        return button


def standing_card(standing: Standing) -> Card:
    """Head the page: where the item stands, and until when."""
    said = answer_words(standing.answer, standing.door)
    if stopped(standing.answer):
        return Card(answer=standing.answer.value, heavy=True, title=DO_NOT_USE, lines=[said, standing.sentence])
    due = f"Next examination by {day(standing.next_due)}." if standing.next_due else ""
    return Card(
        answer=standing.answer.value, large=True, title=said.capitalize(), lines=[due, "Inspect before each use."]
    )


def described(item: Item) -> str:
    """Write what an item is: kind, fibre, size, place."""
    size = item.diameter or item.circumference or item.width
    return " · ".join(str(one) for one in (item.kind, item.fibre, size, item.place) if one)


def part_signs(item: Item, judged: tuple[Judged, ...], standing: Standing) -> dict[str, Answer]:
    """Return the sign of each part: the worst of what is open and of what the latest inspection says of it."""
    if not judged:
        return {}
    rulings = [r for r in judged[-1].judgement.rulings if r.scope is Scope.ITEM]
    rulings += [one.ruling for one in standing.open]
    return {
        part.id: worst([ruling.answer for ruling in rulings if ruling.part == part.id])
        for part in item.parts
        if any(ruling.part == part.id for ruling in rulings)
    }


def history_line(one: Judged) -> Widget:
    """Write one past inspection: its day, kind, answer and inspector."""
    inspection, judgement = one.inspection, one.judgement
    return Words(
        text=f"{day(inspection.on)} · {inspection.kind}\n"
        f"{answer_words(judgement.answer, judgement.door)} · {who(inspection.by)}",
        type_size=16,
    )
