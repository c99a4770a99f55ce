"""Inspect: the rope on the left, one question at a time on the right.

Every confirmed tap is on the disk before the screen shows it as confirmed.
"""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from kivy.metrics import Metrics, dp
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.gridlayout import GridLayout
from kivy.uix.widget import Widget

from app.figures import figure_at
from app.language import say
from app.touch import visit as visits
from app.touch.screens.ask.ask import ChoicePage, NotePage
from app.touch.services import Begun, Services, Told
from app.touch.visit import Visit
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton
from app.touch.widgets.figure import FigureCard
from app.touch.widgets.page import NEW_QUESTION_RESTS, Page
from app.touch.widgets.rope import LARGE_TYPE, Key, RopeSpine, spine_width
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import place_name, station_name, who
from inspection_rules.book import hidden_behind, shipped
from inspection_rules.judgement import Judgement
from inspection_rules.observation import Observation
from inspection_rules.record import Finding, Person, Reading
from inspection_rules.walk import Step
from inspection_rules.words import Seen

REASONS = (
    "No light to see it by",
    "Cannot be reached or opened here",
    "Covered in dirt or ice",
    "No tool for it here",
)


class InspectPage(Page):
    """One inspection under way."""

    def __init__(self, services: Services, app: Any, begun: Begun, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._services, self._app = services, app
        self.visit: Visit = begun.visit
        self.memory = begun.memory
        self.judgement: Judgement | None = None
        self._saving = False
        self._asked: Key | None = None
        self.bind(width=lambda _page, width: setattr(self, "side_width", spine_width(width)))
        self.rope = RopeSpine()
        self.rope.bind(on_station=self._to_station)
        self.ids.side.add_widget(self.rope)
        self._names = {one.key: station_name(self.visit.item, *one.key) for one in self.visit.stations}
        self.bind(wide=lambda *_: self._ask())
        self.rope.theme.bind(text_scale=self._rescaled)
        self._ask()
        self._judge()

    # --- what is shown ---------------------------------------------------------------------------------

    def shown(self) -> None:
        """Show the present step; other pages may have changed what is known of it."""
        self._ask()

    def _rescaled(self, *_changed: object) -> None:
        """What stands above the answers depends on the size of the type."""
        if self.manager is not None:
            self._ask()

    def _ask(self) -> None:
        visit = self.visit
        item, inspection = visit.item, visit.inspection
        self.heading = f"{item.tag} · {item.description}" if item.description else item.tag
        self.under = f"{inspection.kind} · {who(inspection.by)}"
        here, count = visit.place
        self.corner = f"{here} / {count}"
        self.rope.show(item, [one.key for one in visit.stations], self._names)
        self._sign()
        step = visit.step
        observation = step.observation
        asked: list[Widget] = [
            Quiet(text=place_name(item, step.part, observation.station), bold=True),
            Title(text=observation.ask),
        ]
        if observation.looks:
            asked.append(Words(text="\n".join(say(look) for look in observation.looks), type_size=16))
        shown = figure_at(observation, item.part(step.part) if step.part else None, item.construction)
        drawn = FigureCard(figure=shown) if shown else None
        # Large type leaves no room for the drawing above the answers, and no answer may hide below the good one.
        below = drawn is not None and not self.wide and self.rope.theme.text_scale >= LARGE_TYPE
        if drawn is not None and self.wide:
            content: list[Widget] = [_side_by_side(drawn, asked)]
        else:
            content = [*([drawn] if drawn is not None and not below else []), *asked]
        content += self._reading(step) if observation.kind == "reading" else self._question(observation)
        if below and drawn is not None:
            content.append(drawn)
        content.append(self._extras(step))
        more = QuietButton(text="More to look at here")
        more.bind(on_release=lambda _one: self._services.more_steps(self.visit, self._offer))
        content.append(more)
        if not visit.complete:
            stop = QuietButton(text="Stop here and see the answer")
            stop.bind(on_release=lambda _one: self._answer())
            content.append(stop)
        self.fill(*content)
        if step.key != self._asked:  # what was scrolled to stays in sight while the same question is asked
            self.ids.scroll.scroll_y = 1
            if self._asked is not None and self.manager is not None:
                self.manager.rest(NEW_QUESTION_RESTS)
            self._asked = step.key
        self._fill_main(step)

    def _fill_main(self, step: Step) -> None:
        entry = self.visit.entry(step.key)
        if self.visit.complete:
            main = MainButton(text="See the answer")
            main.bind(on_release=lambda _one: self._answer())
            self.fill_foot(main)
        elif isinstance(entry, Finding) or self.visit.answered(step.key):
            main = MainButton(text="Go on along the rope")
            main.bind(on_release=lambda _one: self._go(visits.onward(self.visit)))
            self.fill_foot(main)
        else:
            self.fill_foot()

    def _question(self, observation: Observation) -> list[Widget]:
        entry = self.visit.entry(self.visit.at)
        finding = entry if isinstance(entry, Finding) else None
        seen = finding.seen if finding else None
        given = set(finding.conditions) if finding else set()
        buttons: list[Widget] = [
            self._choice(observation.good, seen is Seen.ABSENT, lambda: visits.found(self.visit, Seen.ABSENT)),
            *self._accepted(finding),
        ]
        answers = observation.answers(self.visit.item, self.visit.at[0])
        for condition in answers:
            chosen = given ^ {condition.id}
            order = tuple(one.id for one in answers if one.id in chosen)
            buttons.append(self._condition(condition.say, condition.id in given, order))
        return [*buttons, *self._unseen(observation, finding)]

    def _choice(self, text: str, chosen: bool, change: Callable[[], Visit]) -> Widget:
        button = AnswerButton(text=text, chosen=chosen)
        button.bind(on_release=lambda _one: self._confirm(change(), onward=True))
        return button

    def _accepted(self, finding: Finding | None) -> list[Widget]:
        """What a competent person accepted here: it is said to be no bigger, or the conditions are named as seen."""
        found: list[Widget] = []
        given = set(finding.accepted) if finding else set()
        before = set(finding.conditions) if finding else set()
        for one in self.memory.agreed.get(self.visit.at, ()):
            conditions = tuple(before | set(one.conditions))
            button = AnswerButton(text="As accepted, no bigger", chosen=one.acceptance in given)
            button.bind(
                on_release=lambda _one, a=one.acceptance, c=conditions: self._confirm(
                    visits.found(self.visit, Seen.PRESENT, c, accepted=tuple(given | {a})), onward=False
                )
            )
            found += [Words(text=one.words, type_size=16), button]
        return found

    def _condition(self, text: str, chosen: bool, order: tuple[str, ...]) -> Widget:
        """A condition stays on the question, since there may be another one to name."""
        button = AnswerButton(text=text, chosen=chosen)

        def change() -> Visit:
            if not order:
                return visits.unanswered(self.visit)
            finding = self.visit.inspection.finding(*self.visit.at)
            given = finding.accepted if finding else ()
            kept = [
                one.acceptance
                for one in self.memory.agreed.get(self.visit.at, ())
                if one.acceptance in given and set(one.conditions) <= set(order)
            ]
            return visits.found(self.visit, Seen.PRESENT, order, accepted=kept)

        button.bind(on_release=lambda _one: self._confirm(change(), onward=False))
        return button

    def _unseen(self, observation: Observation, finding: Finding | None) -> list[Widget]:
        buttons: list[Widget] = []
        if hidden_behind(observation, self.visit.at[0], self.visit.item, shipped()) is not None:
            hidden = QuietButton(text="Hidden by design", chosen=bool(finding and finding.seen is Seen.HIDDEN))
            hidden.bind(on_release=lambda _one: self._hidden(observation))
            buttons.append(hidden)
        not_seen = bool(finding and finding.seen is Seen.NOT_EXAMINED)
        reason = f": {finding.reason}" if finding and not_seen else ""
        button = QuietButton(text=f"Could not examine{reason}", chosen=not_seen)
        button.bind(on_release=lambda _one: self._why(observation))
        return [*buttons, button]

    def _reading(self, step: Step) -> list[Widget]:
        observation = step.observation
        entry = self.visit.entry(step.key)
        before = self.memory.lines(step.key)
        content: list[Widget] = [Quiet(text="\n".join(before))] if before else []
        if isinstance(entry, Reading):
            content.append(Words(text="Read: " + visits.values_of(entry), bold=True))
        text = "Type the reading"
        if observation.damages:
            text = "Type another one" if isinstance(entry, Reading) else "Type the first one"
        elif self.visit.answered(step.key) and isinstance(entry, Reading):
            text = "Read once more"
        elif observation.repeats > 1:
            text = f"Type reading {len(entry.values) + 1 if isinstance(entry, Reading) else 1} of {observation.repeats}"
        button = AnswerButton(text=text)
        button.bind(on_release=lambda _one: self._app.show_keypad(self, step))
        return [*content, button, *self._unseen(observation, entry if isinstance(entry, Finding) else None)]

    def _extras(self, step: Step) -> Widget:
        count = len(visits.pictures_at(self.visit, step.key))
        picture = QuietButton(text=f"Picture · {count}" if count else "Picture", bold=True)
        picture.bind(on_release=lambda _one: self._app.show_photograph(self, step))
        entry = self.visit.entry(step.key)
        note = QuietButton(text="Note · 1" if entry and entry.note else "Note", bold=True)
        note.bind(on_release=lambda _one: self._note(step, entry.note if entry else ""))
        row = GridLayout(cols=2, spacing=dp(12), size_hint_y=None)
        row.bind(minimum_height=row.setter("height"), width=lambda one, width: setattr(one, "cols", _columns(width)))
        row.add_widget(picture)
        row.add_widget(note)
        return row

    def _sign(self) -> None:
        self.rope.sign(visits.signs(self.visit, self.judgement), self.visit.station.key)

    # --- what is done ----------------------------------------------------------------------------------

    def confirm(self, changed: Visit, onward: bool, done: Callable[[], None] | None = None) -> None:
        """Save a change, then show it; `onward` goes on to the next step without an answer."""
        self._confirm(changed, onward, done)

    def _confirm(self, changed: Visit, onward: bool, done: Callable[[], None] | None = None) -> None:
        if self._saving:  # a second finger on the same question
            return
        self._saving = True
        after = visits.onward(changed) if onward else changed

        def saved() -> None:
            self._saving = False
            self.visit = after
            self._judge()
            if onward and after.complete:
                self._answer()
            else:
                self._ask()
            if done is not None:
                done()

        def failed(error: Exception) -> None:
            self._saving = False
            self._ask()
            self._app.failed(error)

        self._services.save(after, saved, failed)

    def _go(self, visit: Visit) -> None:
        if not self._saving:
            self._confirm(visit, onward=False)

    def _to_station(self, _rope: object, key: Key) -> None:
        station = next(one for one in self.visit.stations if one.key == key)
        self._go(visits.go_to_station(self.visit, station))

    def _judge(self) -> None:
        judged = self.visit.inspection

        def done(told: Told) -> None:
            if judged is self.visit.inspection:
                self.judgement = told.judgement
                self._sign()

        self._services.judge(judged, done)

    def _why(self, observation: Observation) -> None:
        def chosen(reason: str) -> None:
            self._confirm(visits.found(self.visit, Seen.NOT_EXAMINED, reason=reason), onward=True)

        self.manager.push(
            ChoicePage(
                "Why could it not be examined?",
                REASONS,
                chosen,
                under=observation.ask,
                typed="Another reason, in your words",
            )
        )

    def _hidden(self, observation: Observation) -> None:
        changed = visits.found(self.visit, Seen.HIDDEN)
        part = self.visit.at[0]
        keys = [step.key for step in changed.steps]
        substitute = next(
            (key for key in ((part, observation.substitute), ("", observation.substitute)) if key in keys), None
        )
        self._confirm(visits.go_to(changed, substitute) if substitute else changed, onward=substitute is None)

    def _note(self, step: Step, text: str) -> None:
        def written(note: str) -> None:
            self._confirm(visits.noted(self.visit, note), onward=False)

        under = place_name(self.visit.item, step.part, step.observation.station)
        self.manager.push(NotePage(under, text, written))

    def _offer(self, steps: tuple[Step, ...]) -> None:
        asks = {step.observation.ask: step for step in steps}

        def chosen(ask: str) -> None:
            self._go(visits.with_step(self.visit, asks[ask]))

        under = "" if steps else "Everything there is to look at here is on the list already."
        self.manager.push(ChoicePage("Add to this inspection", list(asks), chosen, under=under))

    def _answer(self) -> None:
        inspection = self.visit.inspection

        def done(told: Told) -> None:
            if inspection is self.visit.inspection:  # else something was answered meanwhile: it is asked for again
                self._app.show_answer(self, told)

        self._services.judge(inspection, done)

    def sign_as(self, person: Person, done: Callable[[Told], None]) -> None:
        """Let another person sign: saved, and judged anew, since a rule may ask who examines."""
        inspection = self.visit.inspection.model_copy(update={"by": person})
        changed = replace(self.visit, inspection=inspection)
        self._confirm(changed, onward=False, done=lambda: self._services.judge(inspection, done))

    def signed(self, note: str) -> Visit:
        """Return the visit with a line added to the inspection's note, as it will be logged."""
        inspection = self.visit.inspection
        text = "\n".join(one for one in (inspection.note, note) if one)
        return replace(self.visit, inspection=inspection.model_copy(update={"note": text}))


def _side_by_side(drawn: Widget, asked: list[Widget]) -> Widget:
    """Lay the question beside its figure, for a window wider than high."""
    words = BoxLayout(orientation="vertical", spacing=dp(8), size_hint_y=None, pos_hint={"center_y": 0.5})
    words.bind(minimum_height=words.setter("height"))
    for widget in asked:
        words.add_widget(widget)
    drawn.size_hint_x = 0.6
    row = BoxLayout(spacing=dp(12), size_hint_y=None)
    words.bind(height=lambda _words, height: setattr(row, "height", max(dp(150), height)))
    row.add_widget(drawn)
    row.add_widget(words)
    return row


def _columns(width: float) -> int:
    return 2 if width / max(Metrics.fontscale, 1) >= dp(230) else 1
