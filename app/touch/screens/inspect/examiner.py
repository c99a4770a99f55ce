"""Said before the first question: that this examination takes another competence than the person acts in."""

from collections.abc import Callable, Sequence

from kivy.uix.widget import Widget

from app.language import say, told
from app.touch.widgets.buttons import AnswerButton, MainButton
from app.touch.widgets.words import Quiet, Title, Words
from app.touch.wording import who
from inspection_rules.record import Person
from inspection_rules.rule import Rule


def notice(rules: Sequence[Rule], person: Person) -> list[Widget]:
    """Say what competence it takes, who asks for it, and what follows from looking all the same."""
    wanted = dict.fromkeys(say(str(one)) for rule in rules if rule.needs for one in rule.needs.by)
    needed = say(" or ").join(wanted)
    return [
        Title(text=say("Who may examine it")),
        Words(text=say("You act as {who}.", who=who(person)), bold=True),
        Words(
            text=say(
                "You can look, but this examination needs a {competence}: whatever you find, the answer is DO NOT USE.",
                competence=needed,
            )
        ),
        *(Quiet(text=f"{say(rule.title)} · {told(str(rule.source))}") for rule in rules),
    ]  # fmt: skip


def ways(other: Callable[[], None], look: Callable[[], None]) -> list[Widget]:
    """Return the two ways on from there."""
    somebody = AnswerButton(text=say("Change who inspects"))
    somebody.bind(on_release=lambda _one: other())
    all_the_same = MainButton(text=say("Look all the same"))
    all_the_same.bind(on_release=lambda _one: look())
    return [somebody, all_the_same]
