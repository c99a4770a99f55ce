"""The state a reading is made in: how taut, how wet, by which method; the first of a visit is confirmed by a tap."""

from collections.abc import Callable

from kivy.uix.widget import Widget

from app.language import mark, say
from app.touch.memory import Memory, State, state_words
from app.touch.screens.ask.ask import ChoicePage
from app.touch.visit import Key
from app.touch.widgets.buttons import MainButton, QuietButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Words
from inspection_rules.observation import Observation
from inspection_rules.words import Method, Moisture, Tension

TYPED_IS_BY_HAND = mark(
    "What is recorded here was measured in a picture, and a number that is typed is not. Measure in a picture again, "
    "or read it by hand: then what the picture gave stays in the record and does not count."
)
NOT_MEASURED = mark("The picture gave {length}. Record that, or read it by hand instead.")


def by_hand(observation: Observation) -> list[Method]:
    """Return the methods by which a number is typed: a photograph is measured in, never typed."""
    return [one for one in observation.methods if one is not Method.PHOTOGRAPH]


def said(observation: Observation, method: Method, state: State) -> str:
    """Write how a reading is made, and in which state where that matters."""
    if not observation.state:
        return say(str(method))
    return say("{method} · {state}", method=say(str(method)), state=state_words(state))


def beside(memory: Memory, key: Key, state: State) -> list[Widget]:
    """What stands beside the state: the last visit's, and which of the earlier readings it cannot be compared with."""
    last = memory.last_state(key)
    lines: list[Widget] = [Words(text=last, type_size=16)] if last else []
    return [*lines, *(Words(text=text, type_size=16, bold=True) for text in memory.other_states(key, state))]


def to_confirm(state: State, confirmed: Callable[[], None], otherwise: Callable[[], None]) -> list[Widget]:
    """Return the two buttons of the first reading in a visit: it is so now, or it is otherwise."""
    words = state_words(state)
    so = MainButton(text=say("{state}: as it is now", state=words[:1].upper() + words[1:]))
    so.bind(on_release=lambda _one: confirmed())
    other = QuietButton(text=say("It is in another state"), bold=True)
    other.bind(on_release=lambda _one: otherwise())
    return [other, so]


def ask_state(page: Page, state: State, chosen: Callable[[State], None]) -> None:
    """Ask in which tension and moisture it is; `chosen` is called with both."""

    def tension(text: str) -> None:
        page.manager.push(
            ChoicePage(
                say("Dry, wet or frozen?"),
                list(Moisture),
                lambda moisture: chosen((Tension(text), Moisture(moisture))),
                present=state[1],
            )
        )

    page.manager.push(ChoicePage(say("In which tension?"), list(Tension), tension, present=state[0]))
