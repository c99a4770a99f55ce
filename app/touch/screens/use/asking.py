"""How each thing about a use is asked: on the keypad, from a few words, or several ticked. Each may be left out."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

from app.language import mark, say
from app.touch.screens.ask.ask import ChoicePage
from app.touch.screens.ask.count import CountPage
from app.touch.screens.use.words import value_of
from app.touch.typed import units_of
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Words
from app.use_words import PERSON
from inspection_rules.case import Use
from inspection_rules.quantity import UNITS, Quantity, parse_angle
from inspection_rules.words import Chemical, Hitch, Moisture

Taken = Callable[[object], None]
LEAVE_OUT = mark("Not known: leave it out")
NO_PERSON = mark("No, or not known: not judged")


@dataclass(frozen=True, slots=True)
class Asked:
    """How one thing is asked: the question, what helps to answer it, and the dimension of a number or the words."""

    ask: str
    why: str = ""
    dimension: str = ""
    words: Sequence[str] = ()


ASKED = {
    "pin_diameter": Asked(
        mark("How thick is what the eye bears on?"), mark("Pin, hook or bollard, where the eye lies."), "length"
    ),
    "eye_length": Asked(
        mark("How long is the eye inside?"),
        mark("Laid flat, from the throat to the far inside. Of two eyes, the smaller."),
        "length",
    ),
    "load": Asked(mark("How heavy is the whole load?"), mark("All that hangs on all legs together."), "force"),
    "legs": Asked(mark("How many legs carry it?"), words=("1", "2", "3", "4")),
    "leg_angle": Asked(mark("From where is the angle of the legs measured?")),
    "hitch": Asked(mark("How does the sling go round the load?"), words=tuple(Hitch)),
    "persons": Asked(mark("Does a person depend on it?"), words=(PERSON,)),
    "hottest": Asked(mark("How hot does it get?"), mark("The greatest heat that the rope meets."), "temperature"),
    "coldest": Asked(mark("How cold does it get?"), mark("The greatest cold that the rope meets."), "temperature"),
    "chemicals": Asked(mark("Which chemicals does it meet?"), mark("As liquid, mist or fumes.")),
    "moisture": Asked(mark("Is it dry, wet or frozen in use?"), words=tuple(Moisture)),
}
# Never by the number alone: 60° from the one is 30° from the other.
DATUMS = {
    mark("From the horizontal: 90° hangs straight down"): "° from horizontal",
    mark("From the vertical: 0° hangs straight down"): "° from vertical",
}


def ask(page: Any, field: str, take: Taken) -> None:
    """Ask one thing of a use; `take` is called with what was told, or None, after the page that asks has gone."""
    asked = ASKED[field]
    use: Use | None = page.use
    if asked.dimension:
        _number(page, field, asked.dimension, _units(page, asked.dimension), take)
    elif field == "leg_angle":
        present = next((text for text, unit in DATUMS.items() if _angle(use).endswith(unit)), "")
        _choose(page, field, tuple(DATUMS), lambda text: _degrees(page, text, take), present)
    elif field == "chemicals":
        page.manager.push(ChemicalsPage(use.chemicals if use is not None else (), take, under=page.under))
    else:
        present = PERSON if use is not None and use.persons else ""
        if field != "persons" and use is not None and field in use.told:
            present = str(getattr(use, field))
        _choose(page, field, asked.words, lambda text: take(_meant(field, text)), present)


def _choose(page: Any, field: str, words: Sequence[str], chosen: Callable[[str], None], present: str) -> None:
    without = NO_PERSON if field == "persons" else LEAVE_OUT
    page.manager.push(
        ChoicePage(say(ASKED[field].ask), (without, *words), chosen, under=page.under, present=present or without)
    )


def _meant(field: str, text: str) -> object:
    if text in (LEAVE_OUT, NO_PERSON):
        return None
    return {"persons": lambda: True, "legs": lambda: int(text)}.get(field, lambda: text)()


def _units(page: Any, dimension: str) -> Sequence[str]:
    return units_of(dimension, page.app.preferences.length_unit)


def _angle(use: Use | None) -> str:
    return str(use.leg_angle) if use is not None and use.leg_angle is not None else ""


def _degrees(page: Any, datum: str, take: Taken) -> None:
    if datum == LEAVE_OUT:
        take(None)
        return
    unit = DATUMS[datum]
    _number(page, "leg_angle", UNITS[unit].dimension, (unit,), take, Asked(mark("How many degrees?"), datum))


def _number(
    page: Any, field: str, dimension: str, units: Sequence[str], take: Taken, asked: Asked | None = None
) -> None:
    asked, use = asked or ASKED[field], page.use
    before = say("Said before: {value}", value=value_of(use, field)) if use is not None and field in use.told else ""

    def typed(number: Quantity | None) -> None:
        page.manager.pop(sheet)
        take(number.text.replace(" ° ", "° ") if number is not None else None)  # `60°`, as angles are written

    sheet = (AnglePage if field == "leg_angle" else CountPage)(
        say(asked.ask),
        dimension,
        units,
        typed,
        signed=dimension == "temperature",
        why="  ".join(one for one in (say(asked.why), before) if one),
        without=say(LEAVE_OUT),
        under=page.under,
    )
    page.manager.push(sheet)


class AnglePage(CountPage):
    """The degrees of an angle from its datum."""

    def check(self, number: Quantity) -> None:
        """Refuse more than a right angle."""
        parse_angle(number.text)


class ChemicalsPage(Page):
    """What it will meet: as many as it does; `take` is called with them, or None, after the page has gone."""

    def __init__(self, ticked: Sequence[Chemical], take: Taken, **kwargs: Any) -> None:
        super().__init__(heading=say(ASKED["chemicals"].ask), **kwargs)
        self._ticked, self._taken = set(ticked), take
        buttons = []
        for one in Chemical:
            button = AnswerButton(text="")
            button.bind(on_release=lambda button, one=one: self._turn(button, one))
            self._word(button, one)
            buttons.append(button)
        self.fill(Words(text=say(ASKED["chemicals"].why)), *buttons)
        leave, use = QuietButton(text=say(LEAVE_OUT), bold=True), MainButton(text=say("Take what I ticked"))
        leave.bind(on_release=lambda _one: self._gone(None))
        use.bind(on_release=lambda _one: self._gone(tuple(one for one in Chemical if one in self._ticked) or None))
        self.fill_foot(leave, use)

    def _turn(self, button: AnswerButton, chemical: Chemical) -> None:
        self._ticked ^= {chemical}
        self._word(button, chemical)

    def _word(self, button: AnswerButton, chemical: Chemical) -> None:
        said = say(str(chemical))
        said = said[:1].upper() + said[1:]
        button.chosen = chemical in self._ticked
        button.text = say("{what}: ticked", what=said) if button.chosen else said

    def _gone(self, value: object) -> None:
        self.manager.pop(self)
        self._taken(value)
