"""Sign and log: what will be recorded, what follows from it, who signs."""

from collections.abc import Callable, Sequence
from typing import Any

from kivy.uix.widget import Widget

from app.language import mark, say
from app.touch.screens.records.act import Act, ActPage
from app.touch.screens.records.pictures import PicturesPage
from app.touch.widgets.buttons import MainButton, QuietButton
from app.touch.widgets.card import Card
from app.touch.widgets.words import Words
from app.touch.wording import who


class SignPage(ActPage):
    """The last page of an act; `sign` is called once, by whoever then acts.

    Attributes:
        word: what the main button says, with `{who}` in it.
    """

    def __init__(
        self,
        act: Act,
        heading: str,
        cards: Callable[[], Sequence[Widget]],
        follows: Sequence[str],
        sign: Callable[[], None],
        *,
        word: str = "",
        competent: bool = False,
        pictured: bool = True,
        **kwargs: Any,
    ) -> None:
        """`competent`: only a competent person signs this. `pictured`: pictures may be added."""
        super().__init__(act, heading, **kwargs)
        self._cards, self._follows, self._sign = cards, follows, sign
        self.word, self._competent, self._pictured = word or mark("Sign and log as {who}"), competent, pictured

    def shown(self) -> None:
        """Show what will be recorded, with the pictures that were added meanwhile."""
        self.build()

    def build(self) -> None:
        """Show what will be recorded and who signs it."""
        act = self.act
        content: list[Widget] = [*self._cards(), *(Words(text=text) for text in self._follows if text)]
        if self._pictured:
            count = len(act.pictures)
            picture = QuietButton(
                text=say("Pictures · {count}", count=count) if count else say("Add a picture"), bold=True
            )
            picture.bind(on_release=self._pictures)
            content.append(picture)
        other = QuietButton(text=say("Somebody else signs"), bold=True)
        other.bind(on_release=self._other)
        if self._competent and not act.competent:
            content.append(
                Card(
                    title=say("Not yours to sign"),
                    lines=[
                        say("Only a competent or a qualified person signs this; you act as {who}.", who=who(act.person))
                    ],
                )
            )
            self.fill(*content)
            self.fill_foot(other)
            return
        main = MainButton(text=say(self.word, who=who(act.person)))
        main.bind(on_release=self._signed)
        self.fill(*content, other)
        self.fill_foot(main)

    def _pictures(self, *_event: object) -> None:
        self.act.push(PicturesPage(self.act, self.heading))

    def _other(self, *_event: object) -> None:
        self.act.app.ask_who()

    def _signed(self, *_event: object) -> None:
        self._sign()
