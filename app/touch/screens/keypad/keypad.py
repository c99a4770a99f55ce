"""The keypad on a full-width sheet of its own: one reading, what was read before beside it.

A reading of damages takes one value for each of them, with its place along the rope, until the person says that
there is no more.
"""

from typing import Any

from kivy.metrics import dp
from kivy.properties import StringProperty
from kivy.uix.widget import Widget

from app.language import say
from app.touch import visit as visits
from app.touch.screens.ask.ask import ChoicePage
from app.touch.screens.inspect.inspect import InspectPage
from app.touch.screens.keypad.place import PlacePage
from app.touch.typed import Typed, quantity, units_of
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton
from app.touch.widgets.keypad import Keypad
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Words
from app.touch.wording import place_name
from inspection_rules.quantity import Quantity, QuantityError
from inspection_rules.record import Dropped, Reading
from inspection_rules.walk import Step
from inspection_rules.words import Method, Moisture, PartKind, Tension

WRONG = ("Typed wrong", "Tape slipped", "Wrong place or leg", "Wrong tension")


class KeypadPage(Page):
    """One reading, with all its repeats, or with all the damages it is of."""

    MOST_WIDTH = dp(900)
    problem = StringProperty("")

    def __init__(self, app: Any, inspect: InspectPage, step: Step, **kwargs: Any) -> None:
        super().__init__(at_thumb=True, **kwargs)
        self._app, self._inspect, self._step = app, inspect, step
        observation = step.observation
        self.heading = observation.ask
        self._dimension = observation.dimension or "length"
        self._units = units_of(self._dimension, app.preferences.length_unit)
        entry = inspect.visit.entry(step.key)
        self._reading = entry if isinstance(entry, Reading) else None
        self._replacing = ""
        self.method: Method = self._reading.method if self._reading else observation.methods[0]
        self.tension: Tension = self._reading.tension if self._reading else app.tension
        self.moisture: Moisture = self._reading.moisture if self._reading else app.moisture
        self.pad = Keypad(value=Typed(self._units[0]), units=list(self._units), signed=observation.signed)
        self.record = MainButton(text="Record")
        self.record.bind(on_release=self._record)
        self.no_more = AnswerButton(text="No more of them")
        self.no_more.bind(on_release=lambda _one: self._finish())
        self.bind(wide=lambda *_: self._build())
        self._build()

    @property
    def _values(self) -> tuple[Quantity, ...]:
        return self._reading.values if self._reading else ()

    def _build(self) -> None:
        step, observation = self._step, self._step.observation
        visit = self._inspect.visit
        where = place_name(visit.item, step.part, observation.station)
        number = len(self._values) + (0 if self._replacing else 1)
        repeats = max(observation.repeats, number)
        self.under = f"{where} · reading {number} of {repeats}" if repeats > 1 else where
        if observation.damages:
            self.under = f"{where} · number {number}"
        content: list[Widget] = []
        before = self._inspect.memory.lines(step.key)
        if before:
            content.append(Words(text="\n".join(before), type_size=16))
        # Always there, so that the keys do not move under the thumb when it speaks.
        content.append(Words(text=self.problem or " ", bold=True))
        if self._reading is not None:
            content.append(Words(text="This visit: " + visits.values_of(self._reading)))
        state = self._state()
        for widget in (self.pad, self.record, self.no_more):
            if widget.parent is not None:
                widget.parent.remove_widget(widget)
        self.pad.wide = self.wide
        content += [self.pad, state]
        if self._values and not self._replacing:
            wrong = QuietButton(text=f"{self._values[-1].text} is wrong: read it anew")
            wrong.bind(on_release=lambda _one: self._ask_wrong())
            content.append(wrong)
        if observation.looks:
            content.append(Quiet(text="\n".join(say(look) for look in observation.looks)))
        if self.wide:  # all within one look: what to do on the left, the keys on the right
            content = [self.pad, state, *content[: content.index(self.pad)], *content[content.index(state) + 1 :]]
            self.pad.ids.left.add_widget(self.record)
        last = [self.no_more] if observation.damages and self._values and not self._replacing else []
        if self.wide:
            content[1:1] = last
        self.fill(*content)
        self.fill_foot(*([] if self.wide else [*last, self.record]))

    def _state(self) -> Widget:
        """How and in which state it is read: to be chosen until the first value, since they are averaged."""
        stated = self._step.observation.state
        text = f"{self.method} · {self.tension} · {self.moisture}" if stated else str(self.method)
        if self._values or (not stated and len(self._step.observation.methods) == 1):
            return Words(text=text)
        button = QuietButton(text=text)
        button.bind(on_release=lambda _one: self._choose_state())
        return button

    def _record(self, *_event: object) -> None:
        observation = self._step.observation
        try:
            value = quantity(self.pad.value, self._dimension, observation.signed)
        except QuantityError as error:
            self.problem = str(error)
            self._build()
            return
        self.problem = ""
        if observation.damages and self._wants_place():
            said = f"{observation.ask} · {value.text}"
            self.manager.push(PlacePage(self._app, said, lambda place: self._take(value, place)))
        else:
            self._take(value, None)

    def _wants_place(self) -> bool:
        """Whether to ask where a damage lies: along the rope, as long as the place of each one is known."""
        item = self._inspect.visit.item
        along = self._step.part and item.part(self._step.part).kind is PartKind.BODY and item.terminations
        before = len(self._values) - (1 if self._replacing else 0)
        known = len(self._reading.places) if self._reading else 0
        return bool(along) and (before == 0 or known == len(self._values))

    def _take(self, value: Quantity, place: Quantity | None) -> None:
        observation = self._step.observation
        values, dropped = self._values, self._reading.dropped if self._reading else ()
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
        state = {"tension": self.tension, "moisture": self.moisture} if observation.state else {}
        reading = Reading(
            part=self._step.part,
            observation=observation.id,
            values=(*values, value),
            places=places,
            note=note,
            method=self.method,
            dropped=dropped,
            **state,
        )
        if observation.state:
            self._app.tension, self._app.moisture = self.tension, self.moisture
        done = not observation.damages and len(reading.values) >= observation.repeats

        def saved() -> None:
            if done:
                return
            self._reading, self._replacing = reading, ""
            self.pad.value = Typed(self.pad.value.unit)
            self._build()

        if done:
            self.manager.pop(self)
        self._inspect.confirm(visits.read(self._inspect.visit, reading), onward=done, done=saved)

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
                "What was wrong with it?",
                WRONG,
                chosen,
                under="It stays in the record and does not count.",
                typed="Something else, in your words",
            )
        )

    def _choose_state(self) -> None:
        methods = list(self._step.observation.methods)

        def method(text: str) -> None:
            self.method = Method(text)
            if self._step.observation.state:
                self.manager.push(ChoicePage("In which tension?", list(Tension), tension, present=self.tension))
            else:
                self._build()

        def tension(text: str) -> None:
            self.tension = Tension(text)
            self.manager.push(ChoicePage("Dry, wet or frozen?", list(Moisture), moisture, present=self.moisture))

        def moisture(text: str) -> None:
            self.moisture = Moisture(text)
            self._build()

        self.manager.push(ChoicePage("How is it read?", methods, method, present=self.method))
