"""Who may change what every judgement rests on: somebody who acts as a competent or a qualified person."""

from collections.abc import Callable
from typing import Any

from kivy.uix.widget import Widget

from app.language import mark, say
from app.touch.widgets.buttons import AnswerButton
from app.touch.widgets.words import Words
from app.touch.wording import who
from inspection_rules.words import COMPETENT

ONLY = mark("Only a competent or a qualified person changes this; you act as {who}.")
NOBODY = mark("Only a competent or a qualified person changes this. Say first who acts.")


def may_change(app: Any) -> bool:
    """Whether whoever acts may change it; their PIN, where they have one, was given when they began to act."""
    return app.person is not None and app.person.competence in COMPETENT


def refusal(app: Any, again: Callable[[], None]) -> list[Widget]:
    """Say why it cannot be changed now, with the way to somebody who may; nothing for whoever may.

    Args:
        again: shows the page anew once somebody else acts.
    """
    if may_change(app):
        return []
    text = say(ONLY, who=who(app.person)) if app.person is not None else say(NOBODY)
    other = AnswerButton(text=say("Somebody else acts"))
    other.bind(on_release=lambda _one: app.ask_who(lambda _person: again()))
    return [Words(text=text, bold=True), other]
