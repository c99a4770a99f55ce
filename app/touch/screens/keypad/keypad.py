"""The keypad on a full-width sheet of its own: one reading, what was read before beside it.

A reading of damages takes one value for each of them, with its place along the rope, until the person says that
there is no more. What looks wrong is asked about before it is recorded, and never refused.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from kivy.clock import Clock
from kivy.metrics import dp
from kivy.properties import StringProperty
from kivy.uix.widget import Widget

from app.language import mark, say, told
from app.touch import visit as visits
from app.touch.memory import State
from app.touch.screens.ask.ask import ChoicePage, DoubtPage
from app.touch.screens.inspect.inspect import InspectPage
from app.touch.screens.keypad import state as states
from app.touch.screens.keypad.place import PlacePage
from app.touch.typed import Typed, quantity, units_of
from app.touch.visit import Key
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton
from app.touch.widgets.keypad import Keypad
from app.touch.widgets.page import NEW_QUESTION_RESTS, Page
from app.touch.widgets.words import Quiet, Words
from app.touch.wording import place_name
from inspection_rules.contradiction import against_damage
from inspection_rules.improbable import oddities
from inspection_rules.quantity import Quantity, QuantityError
from inspection_rules.record import Dropped, Reading
from inspection_rules.walk import Step
from inspection_rules.words import Method, PartKind

WRONG = (mark("Typed wrong"), mark("Tape slipped"), mark("Wrong place or leg"), mark("Wrong tension"))
BY_HAND = "read by hand instead of on a photograph"


@dataclass(frozen=True, slots=True)
class OnPhotograph:
    """A length that was measured in a picture: what stands on the keypad, its standard uncertainty, and how."""

    typed: Typed
    u: Quantity
    study: str


class KeypadPage(Page):
    """One reading, with all its repeats, or with all the damages it is of."""

    MOST_WIDTH = dp(900)
    problem = StringProperty("")

    def __init__(
        self, app: Any, inspect: InspectPage, step: Step, measured: OnPhotograph | None = None, **kwargs: Any
    ) -> None:
        super().__init__(at_thumb=True, **kwargs)
        self._app, self._inspect, self._step, self._measured = app, inspect, step, measured
        observation = step.observation
        self.heading = say(observation.ask)
        self._dimension = observation.dimension or "length"
        self._units = units_of(self._dimension, app.preferences.length_unit)
        entry = inspect.visit.entry(step.key)
        self._reading = entry if isinstance(entry, Reading) else None
        self._replacing = ""
        self._left_out: tuple[Dropped, ...] = ()
        self._hands = states.by_hand(observation)
        self.method: Method = self._reading.method if self._reading else self._hands[0]
        if measured is not None:
            self.method = Method.PHOTOGRAPH
        self.state: State = self._reading.state if self._reading else inspect.state or (app.tension, app.moisture)
        typed = measured.typed if measured else inspect.typed.get(step.key, Typed(self._units[0]))
        self.pad = Keypad(value=typed, units=list(self._units), signed=observation.signed)
        self.pad.bind(value=self._keep_typed)
        self.record = MainButton(text=say("Record"))
        self.record.bind(on_release=self._record)
        self._complaint = Words(bold=True)
        self.no_more = AnswerButton(text=say("No more of them"))
        self.no_more.bind(on_release=lambda _one: self._finish())
        self.bind(wide=lambda *_: self._build())
        self._build()

    @property
    def _values(self) -> tuple[Quantity, ...]:
        return self._reading.values if self._reading else ()

    @property
    def _unsaid(self) -> bool:
        """Whether the state is still to be confirmed: once a visit, at the first reading that means nothing without."""
        return self._step.observation.state and self._inspect.state is None

    def _build(self) -> None:
        step, observation = self._step, self._step.observation
        visit = self._inspect.visit
        where = place_name(visit.item, step.part, observation.station)
        number = len(self._values) + (0 if self._replacing else 1)
        repeats = max(observation.repeats, number)
        self.under = where
        if observation.damages:
            self.under = say("{place} · number {number}", place=where, number=number)
        elif repeats > 1:
            self.under = say("{place} · reading {number} of {count}", place=where, number=number, count=repeats)
        before = self._inspect.memory.lines(step.key, self._app.preferences.length_unit)
        content: list[Widget] = [Words(text="\n".join(before), type_size=16)] if before else []
        if self._reading is not None:
            content.append(Words(text=say("This visit: {values}", values=visits.values_of(self._reading))))
        state = self._state()
        for widget in (self.pad, self.record, self.no_more, self._complaint):
            if widget.parent is not None:
                widget.parent.remove_widget(widget)
        if self._waits:
            self.fill(*content, Words(text=say(states.TYPED_IS_BY_HAND)))
            self.fill_foot(*self._last(), MainButton(text=say("Read it by hand instead"), on_release=self._by_hand))
            return
        self.pad.wide = self.wide
        # The state that is to be confirmed stands before the keys, since nobody scrolls for it.
        content += [*state, self.pad] if self._unsaid and not self.wide else [self.pad, *state]
        if self._values and not self._replacing:
            wrong = QuietButton(text=say("{value} is wrong: read it anew", value=self._values[-1].text))
            wrong.bind(on_release=lambda _one: self._ask_wrong())
            content.append(wrong)
        if self._measured is not None:
            content.append(QuietButton(text=say("Read it by hand instead"), on_release=self._by_hand))
        if observation.looks:
            content.append(Quiet(text="\n".join(say(look) for look in observation.looks)))
        self._lay(content, state)

    def _lay(self, content: list[Widget], state: list[Widget]) -> None:
        main: list[Widget] = [self.record]
        if self._unsaid:
            main = states.to_confirm(self.state, self._confirm_state, self._other_state)
        if self.problem:  # above the button that was tapped: in sight wherever the sheet is scrolled to
            self._complaint.text = told(self.problem)
            main.insert(0, self._complaint)
        left = self.pad.ids.left
        for one in [one for one in left.children if one is not self.pad.ids.value_row.__self__]:
            left.remove_widget(one)
        if self.wide:  # all within one look: what to do on the left, the keys on the right
            above = [one for one in content[: content.index(self.pad)] if one not in state]
            below = [one for one in content[content.index(self.pad) + 1 :] if one not in state]
            for one in (*main, *state, *above):
                left.add_widget(one)
            self.fill(self.pad, *self._last(), *below)
            self.fill_foot()
        else:
            self.fill(*content)
            self.fill_foot(*self._last(), *main)

    def _last(self) -> list[Widget]:
        return [self.no_more] if self._step.observation.damages and self._values and not self._replacing else []

    def _state(self) -> list[Widget]:
        """How and in which state it is read: to be chosen until the first value, since they are averaged."""
        observation = self._step.observation
        beside = states.beside(self._inspect.memory, self._step.key, self.state) if observation.state else []
        if self._unsaid:
            return beside
        text = states.said(observation, self.method, self.state)
        settled = self._measured is not None or len(self._hands) == 1
        if self._values or (not observation.state and settled):
            return [Words(text=text), *beside]
        button = QuietButton(text=text)
        button.bind(on_release=lambda _one: self._choose_method())
        return [button, *beside]

    def _show_keys(self) -> None:
        """Bring the window and the keys into sight, where large type leaves no room for all of the sheet."""

        def bring(_dt: float) -> None:
            over = self.body.height - self.ids.scroll.height
            if over > 0 and not self.wide:
                above = self.body.top - self.pad.top - dp(12)
                self.ids.scroll.scroll_y = min(1.0, max(0.0, 1 - above / over))

        Clock.schedule_once(bring, -1)
        Clock.schedule_once(bring, 0)

    # --- what is typed ---------------------------------------------------------------------------------

    def _keep_typed(self, _pad: object, value: Typed) -> None:
        """Keep what stands in the window: the sheet may be left and opened again before it is recorded."""
        self.problem = self._complaint.text = ""
        if value.empty or self._measured is not None:  # what a picture gave is not typed, whenever it is opened again
            self._inspect.typed.pop(self._step.key, None)
        else:
            self._inspect.typed[self._step.key] = value

    def _clear(self) -> None:
        self.pad.value = self._measured.typed if self._measured else Typed(self.pad.value.unit)

    def _record(self, *_event: object) -> None:
        observation = self._step.observation
        try:
            value = quantity(self.pad.value, self._dimension, observation.signed)
            if self._measured is not None and value.text != self._measured.typed.text:
                raise QuantityError(say(states.NOT_MEASURED, length=self._measured.typed.text))
        except QuantityError as error:
            self.problem = str(error)
            self._build()
            self._show_keys()
            return
        self.problem = ""
        visit = self._inspect.visit
        tried = self._with(value, None, "")
        odd = oddities(tried, observation, visit.item, visit.inspection, self._inspect.memory.past)
        if not odd:
            self._ask_place(value, "")
            return
        remark = f"{value.text} confirmed: {' '.join(odd)}"
        self.manager.push(
            DoubtPage(
                say("{value}: is this right?", value=value.text or str(value.value)),
                [told(one) for one in odd],
                (say("It is right: keep it"), lambda: self._ask_place(value, remark)),
                (say("No: type it again"), self._clear),
            )
        )

    def _ask_place(self, value: Quantity, remark: str) -> None:
        observation = self._step.observation
        if not (observation.damages and self._wants_place()):
            self._take(value, None, remark)
            return

        def placed(place: Quantity | None, of_place: str) -> None:
            self._take(value, place, "\n".join(one for one in (remark, of_place) if one))

        text = say("{reading} · {value}", reading=say(observation.ask), value=value.text)
        self.manager.push(PlacePage(self._app, self._inspect.visit.item, text, placed))

    def _wants_place(self) -> bool:
        """Whether to ask where a damage lies: along the rope, as long as the place of each one is known."""
        item = self._inspect.visit.item
        along = self._step.part and item.part(self._step.part).kind is PartKind.BODY and item.terminations
        before = len(self._values) - (1 if self._replacing else 0)
        known = len(self._reading.places) if self._reading else 0
        return bool(along) and (before == 0 or known == len(self._values))

    def _with(self, value: Quantity, place: Quantity | None, remark: str) -> Reading:
        """The reading as it is recorded with one more value, or with one in the place of the last."""
        observation = self._step.observation
        values, dropped = self._values, self._reading.dropped if self._reading else self._left_out
        places, note = (self._reading.places, self._reading.note) if self._reading else ((), "")
        if self._replacing:
            dropped = (*dropped, Dropped(value=values[-1], reason=self._replacing))
            values, places = values[:-1], places[: len(values) - 1]
        if place is not None:
            places = (*places, place)
        elif places:  # one without a place: then nobody knows which lies where, and the note keeps what was said
            lay = "; ".join(f"{one.text} at {at.text}" for one, at in zip(values, places, strict=True))
            note = "; ".join(text for text in (note, f"said before: {lay}") if text)
            places = ()
        state = {"tension": self.state[0], "moisture": self.state[1]} if observation.state else {}
        return Reading(
            part=self._step.part,
            observation=observation.id,
            values=(*values, value),
            places=places,
            note="\n".join(one for one in (note, remark) if one),
            method=self.method,
            dropped=dropped,
            **state,
            **self._propagated(value),
        )

    def _propagated(self, value: Quantity) -> dict[str, Any]:
        """The doubt of a length measured in a picture, the largest of several."""
        had = self._reading if self._reading and self.method is Method.PHOTOGRAPH else None
        known = [(had.u, had.u_study)] if had is not None and had.u is not None else []
        if self._measured is not None:
            known.append((self._measured.u, self._measured.study))
        if not known:
            return {}
        u, study = max(known, key=lambda one: one[0].to("mm"))
        return {"u": u, "u_study": study}

    def _take(self, value: Quantity, place: Quantity | None, remark: str) -> None:
        reading = self._with(value, place, remark)
        against = against_damage(self._inspect.visit.inspection, reading, self._inspect.guide.disputed)
        if against and not self._values:
            self._ask_against(reading, against)
        else:
            self._keep(reading)

    def _ask_against(self, reading: Reading, against: Sequence[Key]) -> None:
        """A place was called sound, and now damage is read there: said at once, and asked."""
        asks = self._inspect.guide.asks
        said = [f"{asks[key].ask} {asks[key].good}." for key in against if key in asks]
        remark = f"confirmed beside: {' '.join(said)}"
        both = reading.model_copy(update={"note": "\n".join(one for one in (reading.note, remark) if one)})
        lines = [
            say("You answered here: {question} {answer}.", question=say(asks[key].ask), answer=say(asks[key].good))
            for key in against
            if key in asks
        ]
        self.manager.push(
            DoubtPage(
                say("Is this right?"),
                [*lines, say("A place with damage is not sound.")],
                (say("Both are right: keep both"), lambda: self._keep(both)),
                (say("Keep it, and ask that again"), lambda: self._keep(reading, ask=against[0])),
            )
        )

    def _keep(self, reading: Reading, ask: Key | None = None) -> None:
        """Record a reading; `ask` is a question to go to then."""
        observation = self._step.observation
        if observation.state:
            self._app.tension, self._app.moisture = self.state
        done = not observation.damages and len(reading.values) >= observation.repeats
        changed = visits.read(self._inspect.visit, reading)

        def saved() -> None:
            if not done and ask is None:
                self._reading, self._replacing, self._measured = reading, "", None
                self._clear()
                if self.manager is not None:
                    self.manager.rest(NEW_QUESTION_RESTS)  # a bounce would ask for a number before one is typed
                self._build()
                self._show_keys()

        if done or ask is not None:
            self._inspect.typed.pop(self._step.key, None)
            self.manager.pop(self)
        if ask is not None:
            self._inspect.confirm(visits.go_to(changed, ask), onward=False)
        else:
            self._inspect.confirm(changed, onward=done, done=saved)

    def _finish(self) -> None:
        """All damages were read: on along the rope."""
        self.manager.pop(self)
        self._inspect.confirm(self._inspect.visit, onward=True)

    def _ask_wrong(self) -> None:
        def chosen(reason: str) -> None:
            self._replacing = reason
            self._build()

        self.manager.push(
            ChoicePage(
                say("What was wrong with it?"),
                WRONG,
                chosen,
                under=say("It stays in the record and does not count."),
                typed=say("Something else, in your words"),
            )
        )

    # --- how it is read --------------------------------------------------------------------------------

    def _confirm_state(self) -> None:
        self._inspect.state = self.state
        if self.manager is not None:
            self.manager.rest(NEW_QUESTION_RESTS)  # the button to record has come under the same finger
        self._build()
        self._show_keys()

    def _other_state(self) -> None:
        states.ask_state(self, self.state, self._in_state)

    def _in_state(self, state: State) -> None:
        self.state = state
        self._inspect.state = state
        self._build()
        self._show_keys()

    @property
    def _waits(self) -> bool:
        """Whether what was read in this visit was measured in a picture: a number typed beside it is not."""
        read = self._reading is not None and self._reading.method is Method.PHOTOGRAPH
        return read and self._measured is None

    def _by_hand(self, *_event: object) -> None:
        """Leave out what the picture gave; what was recorded of it stays in the record and does not count."""
        if self._reading is not None:
            left_out = tuple(Dropped(value=one, reason=BY_HAND) for one in self._reading.values)
            self._left_out = (*self._reading.dropped, *left_out)
        self._reading = self._measured = None
        self._replacing, self.method = "", self._hands[0]
        self._clear()
        self._build()

    def _choose_method(self) -> None:
        if self._measured is not None:  # it was measured in a picture, whatever else could have been done
            self._other_state()
            return

        def chosen(text: str) -> None:
            self.method = Method(text)
            if self._step.observation.state:
                self._other_state()
            else:
                self._build()

        self.manager.push(ChoicePage(say("How is it read?"), self._hands, chosen, present=self.method))
