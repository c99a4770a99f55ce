"""Pages that ask one thing about a new item; each stays when it was answered, so that going back finds it."""

from calendar import monthrange
from collections.abc import Callable, Sequence
from datetime import date
from functools import partial
from typing import Any

from kivy.metrics import dp
from kivy.uix.boxlayout import BoxLayout
from kivy.uix.widget import Widget

from app.language import day_text, say, told
from app.language.dates import MONTHS
from app.touch.screens.enter.questions import part_of, question_of, without
from app.touch.typed import PLACE_UNITS, Typed, quantity, units_of
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton
from app.touch.widgets.fields import TextField
from app.touch.widgets.keypad import KeyButton, Keypad
from app.touch.widgets.page import Page
from app.touch.widgets.words import Words
from inspection_rules.entering import field_of, sort_of
from inspection_rules.form import must_be_said
from inspection_rules.quantity import QuantityError

LONG = ("length", "from_a")
MOST_PLACES = 12


class AskPage(Page):
    """Base: what is asked, of which part, and the button that leaves it out."""

    def __init__(self, entering: Any, name: str, then: Callable[[], None], **kwargs: Any) -> None:
        question = question_of(name)
        super().__init__(heading=say(question.ask), under=part_of(name), **kwargs)
        self.entering, self.name_asked, self._then = entering, name, then
        self.why = say(question.why)

    @property
    def said(self) -> str:
        """What was said before."""
        return str(self.entering.said.get(self.name_asked, ""))

    @property
    def offered(self) -> list[Widget]:
        """The button that takes what the other item has, where this one is to be like it."""
        text = self.entering.begun.offered.get(self.name_asked, "")
        if not text or self.said:
            return []
        button = AnswerButton(text=say("The same: {value}", value=text))
        button.bind(on_release=partial(self.take, text))
        return [button]

    def take(self, text: str, *_event: object) -> None:
        """Take the answer and go on."""
        self.entering.take(self.name_asked, text, self._then)

    def leaving_out(self) -> list[Widget]:
        """The button that leaves the thing out, where that may be."""
        if must_be_said(self.name_asked, self.entering.said):
            return []
        button = QuietButton(text=without(self.name_asked), bold=True)
        button.bind(on_release=self._leave_out)
        return [button]

    def _leave_out(self, *_event: object) -> None:
        self.entering.leave_out(self.name_asked, self._then)


class ChooseItPage(AskPage):
    """One word of a closed list."""

    def __init__(self, entering: Any, name: str, choices: Sequence[str], then: Callable[[], None], **kwargs: Any):
        super().__init__(entering, name, then, at_thumb=True, **kwargs)
        self._choices = choices

    def shown(self) -> None:
        """List the words, the one said before marked."""
        content: list[Widget] = [Words(text=self.why)] if self.why else []
        content += self.leaving_out()
        for choice in self._choices:
            said = say(str(choice))
            button = AnswerButton(text=said[:1].upper() + said[1:], chosen=choice == self.said)
            button.bind(on_release=partial(self.take, str(choice)))
            content.append(button)
        if self.name_asked == "end_b_splice" and self.entering.said.get("end_a_splice"):
            same = MainButton(text=say("The same as end A"))
            same.bind(on_release=self._same)
            content.append(same)
        self.fill(*content)

    def _same(self, *_event: object) -> None:
        self.entering.same_as_a(self._then)


class YesNoPage(AskPage):
    """Yes or no; the two do not lie beside each other."""

    def __init__(self, entering: Any, name: str, then: Callable[[], None], **kwargs: Any) -> None:
        super().__init__(entering, name, then, at_thumb=True, **kwargs)

    def shown(self) -> None:
        """Show both answers, the one given before marked."""
        content: list[Widget] = [Words(text=self.why)] if self.why else []
        optional = self.name_asked == "breaking_spliced"
        for text, word in (("no", say("No")), ("yes", say("Yes"))):
            button = AnswerButton(text=word, chosen=self.said == text)
            button.bind(on_release=partial(self.take, text))
            content.append(button)
        self.fill(*content, *(self.leaving_out() if optional else []))


class CountItPage(AskPage):
    """A length, a force or a count on the keypad."""

    MOST_WIDTH = dp(900)

    def __init__(self, entering: Any, name: str, then: Callable[[], None], **kwargs: Any) -> None:
        super().__init__(entering, name, then, at_thumb=True, **kwargs)
        sort = sort_of(name)
        self._dimension = str(sort)
        first = entering.app.preferences.length_unit
        units = PLACE_UNITS[first] if field_of(name) in LONG else units_of(self._dimension, first)
        self._problem = ""
        self.pad = Keypad(value=Typed(units[0]), units=list(units))
        self.use = MainButton(text=say("Take this number"))
        self.use.bind(on_release=self._take)
        self.bind(wide=self._turned)

    def shown(self) -> None:
        """Lay the keypad out: beside the words where the window is wide."""
        for widget in (self.pad, self.use):
            if widget.parent is not None:
                widget.parent.remove_widget(widget)
        self.pad.wide = self.wide
        before = say("Said before: {value}", value=self.said) if self.said else ""
        text = self._problem or "  ".join(one for one in (self.why, before) if one) or " "
        # In the same place always, so that the keys do not move under the thumb when it speaks.
        words = Words(text=text, bold=bool(self._problem), type_size=16)
        left = self.pad.ids.left
        for one in [one for one in left.children if one is not self.pad.ids.value_row.__self__]:
            left.remove_widget(one)
        if self.wide:
            for widget in (self.use, *self.offered, *self.leaving_out()):
                left.add_widget(widget)
            self.fill(self.pad, words)
            self.fill_foot()
        else:
            self.fill(words, self.pad)
            self.fill_foot(*self.leaving_out(), *self.offered, self.use)

    def _turned(self, *_changed: object) -> None:
        if self.manager is not None:
            self.shown()

    def _take(self, *_event: object) -> None:
        try:
            number = quantity(self.pad.value, self._dimension, False)
        except QuantityError as error:
            self._problem = told(str(error))
            self.shown()
            return
        self._problem = ""
        self.shown()
        self.take(number.text)


class TypeItPage(AskPage):
    """Words to be typed; known places are offered."""

    def __init__(self, entering: Any, name: str, then: Callable[[], None], **kwargs: Any) -> None:
        super().__init__(entering, name, then, **kwargs)
        self.field = TextField(text=self.said, hint_text=say("Type here"))
        self.field.bind(on_text_validate=self._go)
        self._problem = Words(text="", bold=True)
        content: list[Widget] = [self._problem, self.field]
        content += [Words(text=self.why)] if self.why else []
        for text in self._known():
            button = AnswerButton(text=text, chosen=text == self.said)
            button.bind(on_release=partial(self.take, text))
            content.append(button)
        self.fill(*content)
        go = MainButton(text=say("Go on"))
        go.bind(on_release=self._go)
        self.fill_foot(*self.leaving_out(), go)

    def _known(self) -> list[str]:
        """Texts to choose from: places of other items, the instruction named for the other end."""
        entering = self.entering
        if self.name_asked == "place":
            own = entering.begun.offered.get("place", "")
            return list(dict.fromkeys((*([own] if own else []), *entering.places[:MOST_PLACES])))
        if field_of(self.name_asked) != "required_by":
            return []
        said = [text for name, text in entering.said.items() if name.endswith("required_by")]
        return list(dict.fromkeys(said))

    def _go(self, *_event: object) -> None:
        text = self.field.text.strip()
        self._problem.text = "" if text else say("Type it here first.")
        if text:
            self.take(text)


class DateItPage(AskPage):
    """A date: day, month and year by steps, or typed; none is offered that nobody has set."""

    def __init__(self, entering: Any, name: str, then: Callable[[], None], **kwargs: Any) -> None:
        super().__init__(entering, name, then, at_thumb=True, **kwargs)
        today = entering.services.today()
        try:
            self.day, self._set = date.fromisoformat(self.said), True
        except ValueError:
            self.day, self._set = today, False  # where the steps begin
        self._values = {one: Words(text="", halign="center", bold=True) for one in ("day", "month", "year")}
        self.field = TextField()
        self.field.bind(on_text_validate=self._take, text=self._clear)
        self._problem = Words(text="", bold=True)
        self.use = MainButton(text="")
        self.use.bind(on_release=self._take)
        rows = [self._row(say("Year"), "year"), self._row(say("Month"), "month"), self._row(say("Day"), "day")]
        typing = Words(text=say("Or typed, year first, as 2050-01-31:"))
        self.fill(*rows, typing, self.field, self._problem)
        self.fill_foot(*self.leaving_out(), self.use)
        self._show()

    def _row(self, word: str, what: str) -> Widget:
        row = BoxLayout(size_hint_y=None, height=dp(64), spacing=dp(12))
        less, more = (
            KeyButton(text=sign, size_hint_x=None, width=dp(84), pos_hint={"center_y": 0.5}) for sign in ("−", "+")
        )
        less.bind(on_release=partial(self._step, what, -1))
        more.bind(on_release=partial(self._step, what, 1))
        middle = BoxLayout(orientation="vertical", size_hint_y=None, pos_hint={"center_y": 0.5})
        middle.bind(minimum_height=partial(_high_enough, row))
        middle.add_widget(Words(text=word, halign="center", type_size=15))
        middle.add_widget(self._values[what])
        for widget in (less, middle, more):
            row.add_widget(widget)
        return row

    def _step(self, what: str, by: int, *_event: object) -> None:
        year, month, day = self.day.year, self.day.month, self.day.day
        if what == "year":
            year = min(max(year + by, 1900), 2200)
        elif what == "month":
            month = (month - 1 + by) % 12 + 1
        else:
            day = (day - 1 + by) % monthrange(year, month)[1] + 1
        self.day, self._set = date(year, month, min(day, monthrange(year, month)[1])), True
        self.field.text = ""
        self._show()

    def _show(self) -> None:
        self._values["year"].text = str(self.day.year)
        self._values["month"].text = say(MONTHS[self.day.month - 1])
        self._values["day"].text = str(self.day.day)
        self._offer()

    def _offer(self) -> None:
        """Offer what was set or typed: the day of today, tapped blindly, would make an old rope new."""
        if self.field.text:
            self.use.text = say("Take what I typed")
        elif self._set:
            self.use.text = say("It was on {day}", day=day_text(self.day))
        else:  # it stands there from the first, so that nothing moves under the finger that steps
            self.use.text = say("Set the date first")

    def _clear(self, _field: object, _text: str) -> None:
        self._problem.text = ""
        self._offer()

    def _take(self, *_event: object) -> None:
        typed = self.field.text.strip()
        if typed:
            try:
                self.day = date.fromisoformat(typed)
            except ValueError:
                self._problem.text = say("That is no date that reads one way only; write it as 2050-01-31.")
                return
            self._show()
        elif not self._set:
            self._problem.text = say("Step to the year, the month and the day, or type the date.")
            return
        self.take(self.day.isoformat())


def _high_enough(row: BoxLayout, middle: BoxLayout, height: float) -> None:
    """Let large type make its row higher."""
    middle.height = height
    row.height = max(dp(64), height)
