"""Narrowing the list of items: to a place, to what the answer means, to a kind."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from typing import Any

from kivy.uix.widget import Widget

from app.language import say, say_many
from app.register import Choices, Only, Stance
from app.touch.services import Services
from app.touch.widgets.buttons import AnswerButton, MainButton, QuietButton
from app.touch.widgets.page import Page
from app.touch.widgets.words import Quiet, Title

MOST_PLACES = 40  # more large buttons are no help; the search finds every place


class FilterPage(Page):
    """Each choice as a large button; `narrow` is called with what was chosen after the page has gone."""

    def __init__(self, services: Services, only: Only, narrow: Callable[[Only], None], **kwargs: Any) -> None:
        super().__init__(heading=say("Show only"), **kwargs)
        self._services, self._only, self._narrow = services, only, narrow
        self._choices: Choices | None = None

    def shown(self) -> None:
        """Read which places and kinds there are."""
        self._services.records.do(self._services.register.choices, self._take)

    def _take(self, choices: Choices) -> None:
        self._choices = choices
        self._build()

    def _build(self) -> None:
        if self._choices is None:
            return
        only, choices = self._only, self._choices
        self.under = only_words(only) or say("everything")
        content: list[Widget] = [Title(text=say("By answer"))]
        for stance in Stance:
            content.append(self._choice(_begun(say(str(stance))), only.stance is stance, stance=stance))
        content += [Title(text=say("By place")), *self._counted(choices.places[:MOST_PLACES], only.place, "place")]
        if len(choices.places) > MOST_PLACES:
            content.append(
                Quiet(
                    text=say(
                        "The {count} places with the most items; type any other into the search.", count=MOST_PLACES
                    )
                )
            )
        content += [Title(text=say("By kind")), *self._counted(choices.kinds, only.kind, "kind")]
        place = self.ids.scroll.scroll_y
        self.fill(*content)
        self.ids.scroll.scroll_y = place
        every = QuietButton(text=say("Show all"), bold=True)
        every.bind(on_release=lambda _one: self._leave(Only()))
        main = MainButton(text=say("Show these"))
        main.bind(on_release=lambda _one: self._leave(self._only))
        self.fill_foot(*([every] if only != Only() else []), main)

    def _counted(self, found: Sequence[tuple[str, int]], present: str, field: str) -> list[Widget]:
        return [
            self._choice(
                say(
                    "{what} · {items}",
                    what=_begun(say(one)) if field == "kind" else one,
                    items=say_many("{count} item", "{count} items", count),
                ),
                one == present,
                **{field: one},
            )
            for one, count in found
        ]

    def _choice(self, text: str, chosen: bool, **change: Any) -> Widget:
        button = AnswerButton(text=text, chosen=chosen)
        button.bind(on_release=partial(self._turn, change, chosen))
        return button

    def _turn(self, change: dict[str, Any], chosen: bool, _button: object) -> None:
        """Choose it, or put it away where it was chosen."""
        empty = {name: getattr(Only(), name) for name in change}
        self._only = replace(self._only, **(empty if chosen else change))
        self._build()

    def _leave(self, only: Only) -> None:
        self.manager.pop(self)
        self._narrow(only)


def only_words(only: Only) -> str:
    """Write what a list is narrowed to; empty for everything."""
    stance = say(str(only.stance)) if only.stance else ""
    return " · ".join(one for one in (stance, only.place, say(only.kind)) if one)


def _begun(text: str) -> str:
    return text[:1].upper() + text[1:]
