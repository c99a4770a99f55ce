"""Inspect: the rope on the left, one question at a time on the right.

Every confirmed tap is on the disk before the screen shows it as confirmed.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from typing import Any

from kivy.clock import Clock
from kivy.metrics import dp
from kivy.uix.widget import Widget

from app.figures import figure_at
from app.language import mark, say
from app.touch import visit as visits
from app.touch.memory import State
from app.touch.screens.ask.ask import ChoicePage, DoubtPage, NotePage
from app.touch.screens.inspect.examiner import notice, ways
from app.touch.screens.inspect.layout import in_a_row, side_by_side
from app.touch.screens.inspect.question import question, reading
from app.touch.screens.inspect.where import ask_where
from app.touch.screens.inspect.why import WhyPage
from app.touch.services import Begun, Services, Told
from app.touch.typed import Typed
from app.touch.visit import Visit
from app.touch.widgets.buttons import MainButton, QuietButton
from app.touch.widgets.figure import FigureCard
from app.touch.widgets.page import NEW_QUESTION_RESTS, Page
from app.touch.widgets.rope import LARGE_TYPE, LARGEST_TYPE, Key, RopeSpine, spine_width
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import place_name, station_name, who
from inspection_rules.competence import wanting
from inspection_rules.contradiction import against_sound, damages_in_words
from inspection_rules.judgement import Judgement
from inspection_rules.observation import Condition, Observation
from inspection_rules.record import Finding, Person, Reading
from inspection_rules.walk import Step
from inspection_rules.words import Seen

REASONS = (
    mark("No light to see it by"),
    mark("Cannot be reached or opened here"),
    mark("Covered in dirt or ice"),
    mark("No tool for it here"),
)


class InspectPage(Page):
    """One inspection under way.

    Attributes:
        state: the tension and moisture that were confirmed in this visit; None until a reading first asks.
        typed: what was typed on a keypad and not recorded, by step.
    """

    def __init__(self, services: Services, app: Any, begun: Begun, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self._services, self._app = services, app
        self.visit: Visit = begun.visit
        self.memory, self.guide = begun.memory, begun.guide
        self.judgement: Judgement | None = None
        self.state: State | None = _state_of(self.visit)
        self.typed: dict[Key, Typed] = {}
        self._saving = False
        self._asked: Key | None = None
        self._told_who = bool(self.visit.inspection.entries)
        self.bind(width=lambda _page, width: setattr(self, "side_width", spine_width(width)))
        self.rope = RopeSpine()
        self.rope.bind(on_station=self._to_station)
        self.ids.side.add_widget(self.rope)
        self._names = {one.key: station_name(self.visit.item, *one.key) for one in self.visit.stations}
        self.bind(wide=lambda *_: self._ask())
        self.rope.theme.bind(text_scale=self._rescaled)
        self._ask()
        self._judge()

    @property
    def length_unit(self) -> str:
        """The unit of length the person prefers."""
        return str(self._app.preferences.length_unit)

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
        self.under = f"{say(str(inspection.kind))} · {who(inspection.by)}"
        here, count = visit.place
        self.corner = f"{here} / {count}"
        self.rope.show(item, [one.key for one in visit.stations], self._names)
        self._sign()
        lacking = wanting(self.guide.examiners, inspection.by.competence)
        if lacking and not self._told_who:
            self.fill(*notice(lacking, inspection.by))
            self.fill_foot(*ways(self._other_inspects, self._look_all_the_same))
            return
        self._ask_step(visit.step)

    def _ask_step(self, step: Step) -> None:
        visit, observation = self.visit, step.observation
        item = visit.item
        asked: list[Widget] = [
            Quiet(text=place_name(item, step.part, observation.station), bold=True),
            Title(text=say(observation.ask)),
        ]
        looks = (
            [Words(text="\n".join(say(look) for look in observation.looks), type_size=16)] if observation.looks else []
        )
        shown = figure_at(observation, item.part(step.part) if step.part else None, item.construction)
        drawn = FigureCard(figure=shown) if shown else None
        # Large type leaves no room for the drawing above the answers, and no answer may hide below the good one.
        below = drawn is not None and not self.wide and self.rope.theme.text_scale >= LARGE_TYPE
        # The largest type leaves none for how to look either.
        words_below = not self.wide and self.rope.theme.text_scale >= LARGEST_TYPE
        if not words_below:
            asked += looks
        if drawn is not None and self.wide:
            content: list[Widget] = [side_by_side(drawn, asked)]
        else:
            content = [*([drawn] if drawn is not None and not below else []), *asked]
        content += reading(self, step) if observation.kind == "reading" else question(self, observation)
        if words_below:
            content += looks
        if below and drawn is not None:
            content.append(drawn)
        content.append(self._extras(step))
        content += self._further()
        left = self.ids.scroll.scroll_y, self.body.height - self.ids.scroll.height
        self.fill(*content)
        if step.key == self._asked:  # what was scrolled to stays in sight while the same question is asked
            self._hold_in_sight((1 - left[0]) * left[1])
        else:
            self.ids.scroll.scroll_y = 1
            if self._asked is not None and self.manager is not None:
                self.manager.rest(NEW_QUESTION_RESTS)
            self._asked = step.key
        self._fill_main(step)

    def _hold_in_sight(self, above: float) -> None:
        """Keep as many pixels scrolled away above as before, once the new answers have their height.

        A main button that has come at the bottom covers no answer that is given: then a little more is scrolled away.
        """

        def hold(_dt: float) -> None:
            room = self.ids.scroll.height
            over = self.body.height - room
            bottom = self.body.top - above - room
            given = [one for one in self.body.children if getattr(one, "chosen", False)]
            covered = [one.y for one in given if bottom - self.foot.height < one.y < bottom]
            gone = above + (bottom - min(covered) + dp(12) if covered else 0)
            self.ids.scroll.scroll_y = min(1.0, max(0.0, 1 - gone / over)) if over > 0 else 1.0

        Clock.schedule_once(hold, -1)
        Clock.schedule_once(hold, 0)

    def _further(self) -> list[Widget]:
        """What leads away from the question: its reasons, more to look at, the end."""
        buttons: list[Widget] = []
        if any(self.visit.answered(step.key) for step in self.visit.station.steps):
            why = QuietButton(text=say("Why"), bold=True)
            why.bind(on_release=lambda _one: self._show_why())
            buttons.append(why)
        more = self.guide.more(self.visit)
        if more:
            offer = QuietButton(text=say("More to look at here"))
            offer.bind(on_release=lambda _one: self._offer(more))
            buttons.append(offer)
        if not self.visit.complete:
            stop = QuietButton(text=say("Stop here and see the answer"))
            stop.bind(on_release=lambda _one: self._answer())
            buttons.append(stop)
        return buttons

    def _fill_main(self, step: Step) -> None:
        entry = self.visit.entry(step.key)
        if self.visit.back is not None:
            main = MainButton(text=say("Back to where you were"))
            main.bind(on_release=lambda _one: self._go(visits.onward(self.visit)))
            self.fill_foot(main)
        elif self.visit.complete:
            main = MainButton(text=say("See the answer"))
            main.bind(on_release=lambda _one: self._answer())
            self.fill_foot(main)
        elif isinstance(entry, Finding) or self.visit.answered(step.key):
            main = MainButton(text=say("Go on along the rope"))
            main.bind(on_release=lambda _one: self._go(visits.onward(self.visit)))
            self.fill_foot(main)
        else:
            self.fill_foot()

    def _extras(self, step: Step) -> Widget:
        count = len(visits.pictures_at(self.visit, step.key))
        picture = QuietButton(text=say("Picture · {count}", count=count) if count else say("Picture"), bold=True)
        picture.bind(on_release=lambda _one: self._app.show_photograph(self, step))
        entry = self.visit.entry(step.key)
        note = QuietButton(text=say("Note · {count}", count=1) if entry and entry.note else say("Note"), bold=True)
        note.bind(on_release=lambda _one: self._note(step, entry.note if entry else ""))
        return in_a_row(picture, note)

    def _sign(self) -> None:
        self.rope.sign(visits.signs(self.visit, self.judgement), self.visit.station.key)

    # --- what is answered ------------------------------------------------------------------------------

    @property
    def saving(self) -> bool:
        """Whether a change is being saved; another one is not taken meanwhile."""
        return self._saving

    def confirm(
        self,
        changed: Visit,
        onward: bool,
        done: Callable[[], None] | None = None,
        not_saved: Callable[[], None] | None = None,
    ) -> None:
        """Save a change, then show it; `onward` goes on to the next step without an answer."""
        if self._saving:  # a second finger on the same question
            return
        self._saving = True
        after = visits.onward(changed) if onward else changed

        def saved() -> None:
            self._saving = False
            self.visit = after
            self._judge()
            if onward and after.complete and changed.back is None:
                self._answer()
            else:
                self._ask()
            if done is not None:
                done()

        def failed(error: Exception) -> None:
            self._saving = False
            self._ask()
            self._app.failed(error)
            if not_saved is not None:
                not_saved()

        self._services.save(after, saved, failed)

    def sound(self) -> None:
        """Answer that nothing is wrong here; where damage was read here in this visit, ask whether that is so."""
        at = self.visit.at
        against = against_sound(self.visit.inspection, self.guide.disputed.get(at, ()))
        changed = visits.found(self.visit, Seen.ABSENT)
        if not against:
            self.confirm(changed, onward=True)
            return
        asks = self.guide.asks
        read = [(asks[(one.part, one.observation)].ask, damages_in_words(one)) for one in against]
        remark = "confirmed sound beside " + "; ".join(f"{ask}: {values}" for ask, values in read)
        self.manager.push(
            DoubtPage(
                say("Is this right?"),
                [
                    *(say("You read here: {reading}: {values}.", reading=say(ask), values=v) for ask, v in read),
                    say("A place with damage is not sound."),
                ],
                (
                    say("It is sound all the same"),
                    lambda: self.confirm(visits.remarked(changed, at, remark), onward=True),
                ),
                (say("No: I answer again"), self._ask),
            )
        )

    def not_examined(self, observation: Observation) -> None:
        """Ask why it could not be examined."""

        def chosen(reason: str) -> None:
            self.confirm(visits.found(self.visit, Seen.NOT_EXAMINED, reason=reason), onward=True)

        self.manager.push(
            ChoicePage(
                say("Why could it not be examined?"),
                REASONS,
                chosen,
                under=say(observation.ask),
                typed=say("Another reason, in your words"),
            )
        )

    def hidden(self, observation: Observation) -> None:
        """Answer that design hides it, and go on to what stands in for it."""
        changed = visits.found(self.visit, Seen.HIDDEN)
        part = self.visit.at[0]
        keys = [step.key for step in changed.steps]
        substitute = next(
            (key for key in ((part, observation.substitute), ("", observation.substitute)) if key in keys), None
        )
        self.confirm(visits.go_to(changed, substitute) if substitute else changed, onward=substitute is None)

    def ask_where(self, named: Sequence[Condition]) -> None:
        """Ask where along the rope a condition lies that was named here."""
        ask_where(self, self._app, named)

    def to_keypad(self, step: Step) -> None:
        """Open the keypad for a reading."""
        self._app.show_keypad(self, step)

    def add_step(self, step: Step, keypad: bool = False) -> None:
        """Go to a step beyond what is needed, to come back after it; with `keypad` straight to its reading."""
        order = [one.key for one in self.guide.possible]
        changed = visits.with_step(self.visit, step, order)
        self.confirm(changed, onward=False, done=partial(self.to_keypad, step) if keypad else None)

    # --- where to go -----------------------------------------------------------------------------------

    def _go(self, visit: Visit) -> None:
        if not self._saving:
            self.confirm(visit, onward=False)

    def _to_station(self, _rope: object, key: Key) -> None:
        station = next(one for one in self.visit.stations if one.key == key)
        self._go(visits.go_to_station(self.visit, station))

    def _offer(self, steps: tuple[Step, ...]) -> None:
        asks: dict[str, Step] = {}
        for step in steps:
            asks.setdefault(step.observation.ask, step)

        def chosen(ask: str) -> None:
            self.add_step(asks[ask])

        self.manager.push(ChoicePage(say("Add to this inspection"), list(asks), chosen))

    def _note(self, step: Step, text: str) -> None:
        def written(note: str) -> None:
            self.confirm(visits.noted(self.visit, note), onward=False)

        self.manager.push(NotePage(place_name(self.visit.item, step.part, step.observation.station), text, written))

    def _look_all_the_same(self) -> None:
        self._told_who = True
        if self.manager is not None:
            self.manager.rest(NEW_QUESTION_RESTS)
        self._ask()

    def _other_inspects(self) -> None:
        self._app.ask_who(lambda person: self.sign_as(person, lambda _told: None))

    # --- what the rules say of it ----------------------------------------------------------------------

    def _judge(self) -> None:
        visit = self.visit

        def done(said: Told) -> None:
            if visit is self.visit:  # else it is judged anew already
                self.judgement = said.judgement
                self._sign()

        self._services.judge(visit, done)

    def _show_why(self) -> None:
        visit = self.visit

        def done(said: Told) -> None:
            if visit is self.visit and self.manager.top is self:
                self.manager.push(WhyPage(visit, said.judgement))

        self._services.judge(visit, done)

    def _answer(self) -> None:
        visit = self.visit

        def done(said: Told) -> None:
            now = self.visit
            if visit.inspection is now.inspection and visit.use is now.use:  # else it is asked for again
                self._app.show_answer(self, said)

        self._services.judge(visit, done)

    def sign_as(self, person: Person, done: Callable[[Told], None]) -> None:
        """Let another person sign: saved, and judged anew, since a rule may ask who examines."""
        inspection = self.visit.inspection.model_copy(update={"by": person})
        self.confirm_judged(replace(self.visit, inspection=inspection), done)

    def confirm_judged(self, changed: Visit, done: Callable[[Told], None]) -> None:
        """Save a change, and judge it anew."""
        self.confirm(changed, onward=False, done=lambda: self._services.judge(changed, done))

    def signed(self, note: str) -> Visit:
        """Return the visit with a line added to the inspection's note, as it will be logged."""
        inspection = self.visit.inspection
        text = "\n".join(one for one in (inspection.note, note) if one)
        return replace(self.visit, inspection=inspection.model_copy(update={"note": text}))


def _state_of(visit: Visit) -> State | None:
    """The state that was confirmed before an interruption."""
    for step in visit.steps:
        entry = visit.entry(step.key)
        if step.observation.state and isinstance(entry, Reading):
            return entry.state
    return None
